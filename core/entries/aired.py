"""What the entries that stand say of the programme: items, counts, the air, the desk, promises."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from core.entries.airing import (
    Begin,
    Count,
    Drop,
    Finish,
    Grave,
    LaneDelay,
    LeaveAir,
    Place,
    TakeAir,
    Unplace,
)
from core.entries.at_desk import at_desk
from core.entries.model import Action, Entry
from core.entries.promised import Promised, promised
from core.plan.model import Lane


@dataclass(frozen=True, slots=True)
class Ran:
    """One item by the desk's word: where it was placed, when it began and was over."""

    placed_ms: int | None = None
    begun_ms: int | None = None
    over_ms: int | None = None
    dropped: bool = False


@dataclass(frozen=True, slots=True)
class Away:
    """The network has the air from `from_ms`; `until_ms` None: nobody has said until when."""

    from_ms: int
    until_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Aired:
    """All of it. `away` holds every stretch that the network took, in the order of the entries."""

    items: Mapping[str, Ran] = field(default_factory=dict)
    counts: Mapping[str, Count] = field(default_factory=dict)
    away: tuple[Away, ...] = ()
    grave: bool = False
    desk: str = ""
    """The initials of whoever is signed in, or ''."""
    promises: tuple[Promised, ...] = ()
    delays_ms: Mapping[str, int] = field(default_factory=dict)
    """By lane: how late it comes, where the desk has found another figure than the plan's."""

    def ran(self, item: str) -> Ran:
        """How that item stands by the desk's word."""
        return self.items.get(item, Ran())

    def delay_ms(self, lane: Lane) -> int:
        """How late that lane comes to the studio: as found at the desk, else as planned."""
        return self.delays_ms.get(lane.id, lane.delay_ms)

    def has_run(self, item: str) -> bool:
        """Whether it is over: by the desk's word, or since something else went on the air."""
        ran = self.ran(item)
        begun_ms = ran.begun_ms
        if begun_ms is None or ran.over_ms is not None:
            return ran.over_ms is not None
        others = (each.begun_ms for each in self.items.values() if each.begun_ms is not None)
        return any(at_ms > begun_ms for at_ms in (*others, *(each.from_ms for each in self.away)))

    @property
    def on_air(self) -> str:
        """The item that is on the air, or ''."""
        begun = (item for item, ran in self.items.items() if ran.begun_ms is not None)
        return next((item for item in begun if not self.has_run(item)), "")


def aired(entries: Iterable[Entry]) -> Aired:
    """What stands after these entries, which are those that count, in their order."""
    items: dict[str, Ran] = {}
    counts: dict[str, Count] = {}
    away: list[Away] = []
    delays_ms: dict[str, int] = {}
    grave = False
    stood = tuple(entries)
    for action in (entry.action for entry in stood):
        match action:
            case LeaveAir() | TakeAir():
                _hand_over(away, action)
            case Count(checkoff):
                counts[checkoff] = action
            case Grave(on):
                grave = on
            case LaneDelay(lane, delay_ms):
                delays_ms[lane] = delay_ms
            case _:
                items.update(_told(action, items))
    return Aired(items, counts, tuple(away), grave, at_desk(stood), promised(stood), delays_ms)


def _told(action: Action, items: Mapping[str, Ran]) -> dict[str, Ran]:
    """The items that an action is about, as they stand after it."""
    match action:
        case Begin(item, at_ms):
            return {item: replace(items.get(item, Ran()), begun_ms=at_ms, dropped=False)}
        case Finish(item, at_ms):
            return {item: replace(items.get(item, Ran()), over_ms=at_ms)}
        case Drop(item):
            return {item: replace(items.get(item, Ran()), dropped=True)}
        case Unplace(item):
            return {item: replace(items.get(item, Ran()), placed_ms=None, dropped=False)}
        case Place(places):
            return {
                item: replace(items.get(item, Ran()), placed_ms=at_ms, dropped=False)
                for item, at_ms in places
            }
        case _:
            return {}


def _hand_over(away: list[Away], action: LeaveAir | TakeAir) -> None:
    """The air goes to the network, or comes back: the last word on a stretch counts."""
    if isinstance(action, TakeAir):
        if away:
            away[-1] = replace(away[-1], until_ms=action.at_ms)
        return
    before = away[-1] if away else None
    if before is not None and (before.until_ms is None or before.until_ms > action.at_ms):
        away[-1] = Away(min(before.from_ms, action.at_ms), action.until_ms)
    else:
        away.append(Away(action.at_ms, action.until_ms))
