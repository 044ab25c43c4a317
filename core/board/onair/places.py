"""The best places for what is owed, and for what else has room: proposed, never set."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.air.conflict import conflict
from core.air.model import Against, Conflict, Placement, Since
from core.air.placing import Proposal as Found
from core.air.placing import propose
from core.board.onair.day import waiting
from core.board.onair.state import AirState, Reckoned
from core.board.words import listed
from core.entries.context import Proposal
from core.times.writing import clock_text

_STEADY_MS = 30_000
"""So long what is proposed stays as it is: the first start is that far ahead, on the minute."""


@dataclass(frozen=True, slots=True)
class Proposed:
    """Where everything goes: new places in order of time, then what stays where it is.

    `moved` are placed items that get another place, or lose theirs. `left` are owed items without
    one, each with the reason. `proven` is False where there are too many items to be sure.
    """

    places: tuple[Placement, ...]
    stays: tuple[Placement, ...] = ()
    moved: tuple[str, ...] = ()
    left: tuple[Conflict, ...] = ()
    proven: bool = True


def proposed(state: AirState, now_ms: int) -> Proposed:
    """Placed items keep their places as long as that is possible.

    One that loses something where it is gives its place up. If then not all that is owed fits, one
    more does, whichever helps; if none does alone, all.
    """
    since = state.since(now_ms, waiting(state.scene, state.day, now_ms))
    best: tuple[Found, frozenset[str]] | None = None
    for free in _freed(state, now_ms):
        found = propose(state.reckoned(now_ms, free).fitting, now_ms, since)
        if best is None or len(found.left) < len(best[0].left):
            best = (found, free)
        if not found.left:
            break
    if best is None:
        raise ValueError("nothing was tried")
    return _told(state, now_ms, since, *best)


def _freed(state: AirState, now_ms: int) -> Iterator[frozenset[str]]:
    """Which placed items to free, the fewest first."""
    losing = frozenset(loss.item for loss in state.losses(now_ms))
    kept = [one.item.id for one in state.keep_place(now_ms) if one.item.id not in losing]
    yield losing
    for one in kept:
        yield losing | {one}
    if len(kept) > 1:
        yield losing | frozenset(kept)


def _told(
    state: AirState, now_ms: int, since: Since, found: Found, free: frozenset[str]
) -> Proposed:
    reckoned = state.reckoned(now_ms, free)
    had = {one.item.id: one.from_ms for one in state.programme.placed()}
    goes = {each.item: each.from_ms for each in found.places}
    kept = {item.id for item, _ in reckoned.placed}
    return Proposed(
        places=tuple(each for each in found.places if had.get(each.item) != each.from_ms),
        stays=tuple(
            Placement(item.id, at_ms, at_ms + item.length_ms) for item, at_ms in reckoned.placed
        ),
        moved=tuple(i for i, at_ms in had.items() if i not in kept and goes.get(i) != at_ms),
        left=tuple(_why(state, reckoned, since, item) for item in found.left),
        proven=found.proven,
    )


def _why(state: AirState, reckoned: Reckoned, since: Since, item: str) -> Conflict:
    wanted = state.programme.item(item).item
    return conflict(reckoned.fitting, wanted, state.day, reckoned.placed, since)


class Remedies:
    """Where items that lose something would go: the places that are proposed, and no others.

    Worked out anew every half minute, whenever something leaves its place, and once the first of
    the places has gone by: till then they stand, and what had none has none.
    """

    def __init__(self, state: AirState) -> None:
        self._state = state
        self._at_ms: int | None = None
        self._key: object = None
        self._found = Proposed(())
        self._told: dict[str, int | None] = {}

    def found(self, now_ms: int) -> Proposed:
        """What is proposed, to see what has a place and what has none."""
        if now_ms != self._at_ms:
            self._look(now_ms)
        return self._found

    def move(self, item: str, now_ms: int) -> int | None:
        """Where a placed item would go; None where there is no place for it."""
        self.found(now_ms)
        told = self._told
        return told[item] if item in told else self._state.move(item, now_ms)

    def _look(self, now_ms: int) -> None:
        self._at_ms = now_ms
        kept = tuple(one.item.id for one in self._state.keep_place(now_ms))
        key = (-(-now_ms // _STEADY_MS), kept)
        stands = all(each.from_ms >= now_ms for each in self._found.places)
        if key != self._key or not stands:
            found = self._found = proposed(self._state, now_ms)
            self._key = key
            self._told = {
                **dict.fromkeys(each.items[0] for each in found.left),
                **{each.item: each.from_ms for each in found.places},
            }


def answer(state: AirState, now_ms: int) -> Proposal:
    """The proposal as the entry bar takes it: places, or why not all, and the most that can.

    An owed item whose own time has gone by holds nobody up: it has to be made good another day.
    """
    found = proposed(state, now_ms)
    left = [each for each in found.left if not is_gone(state, each.items[0], now_ms)]
    if not left:
        return tuple((each.item, each.from_ms) for each in found.places)
    why = "; ".join(why_words(state, each) for each in left)
    names = state.scene.roll.names
    told = [f"{names(p.item)} at {clock_text(p.from_ms, state.scene.style)}" for p in found.places]
    most = f"The most that can: {listed(told, most=12)}" if told else "Nothing more has place"
    return f"{why}\n{most}"


def is_gone(state: AirState, item: str, now_ms: int) -> bool:
    """Whether the item is too late by its own limits, whatever else there is."""
    last_ms = state.last_own_start_ms(item)
    return last_ms is None or last_ms < now_ms


_WHY = {
    Against.WINDOW: "the time it has",
    Against.BOOKED: "the hours of its line",
    Against.AWAY: "the network's story",
    Against.OFF: "the end of the programme",
    Against.SPONSOR: "the last break, which has the same sponsor,",
}


_OWN = frozenset({Against.WINDOW, Against.BOOKED, Against.OFF})
"""Limits that nearly everything has: not worth telling where something else is in the way."""


def why_words(state: AirState, why: Conflict) -> str:
    """'No place for break 4: Loss of signal stands in its way'."""
    name = beside_words(state, why)
    if len(why.items) > 1 or not why.obstacles:
        return f"No place for {name}"
    foreign = [each for each in why.obstacles if each.against not in _OWN]
    told = [_obstacle(state, each.against, each.of) for each in foreign or why.obstacles]
    stands = "stands" if len(told) == 1 else "each stand"
    return f"No place for {name}: {listed(told, most=3)} {stands} in its way"


def beside_words(state: AirState, why: Conflict) -> str:
    """'break 4', or 'break 4 beside break 3' where each has a place without the other."""
    small = state.scene.roll.small
    first, *others = (small(state.programme.item(one).item.name) for one in why.items)
    return f"{first} beside {listed(others, most=6)}" if others else first


def _obstacle(state: AirState, against: Against, of: str) -> str:
    if against in _WHY:
        return _WHY[against]
    if against is Against.CONTACT:
        return "the gap in its lane"
    moment = next((one for one in state.day.moments if one.id == of), None)
    return state.scene.roll.names(of) if moment is None else moment.name
