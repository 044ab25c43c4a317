"""What was promised to the audience, and whether it was kept, by the entries."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from core.entries.airing import KeepPromise, Promise
from core.entries.model import Entry


@dataclass(frozen=True, slots=True)
class Promised:
    """One promise: the number of its entry, when and by whom it was noted, when it was kept."""

    number: int
    at_ms: int
    text: str
    by: str = ""
    kept_ms: int | None = None


def promised(entries: Iterable[Entry]) -> tuple[Promised, ...]:
    """All promises after these entries, which are those that count, in their order."""
    found: dict[int, Promised] = {}
    for entry in entries:
        match entry.action:
            case Promise(text):
                found[entry.number] = Promised(entry.number, entry.at_ms, text, entry.by)
            case KeepPromise(promise) if promise in found:
                found[promise] = replace(found[promise], kept_ms=entry.at_ms)
            case _:
                pass
    return tuple(found.values())


def open_promises(promises: Iterable[Promised]) -> tuple[Promised, ...]:
    """Those that are not kept yet."""
    return tuple(each for each in promises if each.kept_ms is None)
