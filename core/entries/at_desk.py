"""Who was at the desk when, by the entries."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from core.entries.model import Action, ClockStep, ClockTold, Entry
from core.entries.signing import SignIn, SignOut


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn at the desk; `until_ms` None: they are there yet."""

    who: str
    from_ms: int
    until_ms: int | None = None


def turns(entries: Iterable[Entry]) -> tuple[Turn, ...]:
    """All turns, in their order."""
    found: list[Turn] = []
    for entry in entries:
        if not isinstance(entry.action, SignIn | SignOut):
            continue
        if found and found[-1].until_ms is None:
            found[-1] = replace(found[-1], until_ms=entry.at_ms)
        if isinstance(entry.action, SignIn):
            found.append(Turn(entry.action.who, entry.at_ms))
    return tuple(found)


def at_desk(entries: Sequence[Entry]) -> str:
    """The initials of whoever is there now, or ''."""
    signed = (e.action for e in reversed(entries) if isinstance(e.action, SignIn | SignOut))
    last = next(signed, None)
    return last.who if isinstance(last, SignIn) else ""


def who_typed(action: Action, there: str) -> str:
    """The initials that an entry gets, while `there` is at the desk: the machine has none."""
    if isinstance(action, ClockStep | ClockTold):
        return ""
    return action.who if isinstance(action, SignIn | SignOut) else there


def relieves(action: Action, before: Sequence[Entry]) -> bool:
    """Whether it hands the desk over: to another than whoever was there last, who may have left."""
    signed = (e.action.who for e in reversed(before) if isinstance(e.action, SignIn))
    last = next(signed, None)
    return isinstance(action, SignIn) and last is not None and last != action.who
