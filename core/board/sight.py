"""What can be heard or seen at an instant, asked of the signal's lanes."""

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from itertools import accumulate

from core.plan.model import Change
from core.signal.model import Contact, Edge, Fill, LaneSignal, Stretch
from core.signal.worlds import World
from core.times.writing import apart_ms, floor_second_ms

EVER_MS = 2**62
"""Further off than any instant: where a contact has no beginning or end."""

ROLES = ("voice", "picture", "data")
"""Lanes the theme has a colour of its own for; any other lane is drawn as 'other'."""


def role(lane: str) -> str:
    """The role of a lane in the theme."""
    return lane if lane in ROLES else "other"


class LaneSight:
    """One lane, ready to be asked about instants, in each of the worlds that still can be.

    A world holds the outcomes that are true in it; an event that hangs on an outcome lives in the
    worlds that have it. Instants count as they are shown, floored to the second: what begins within
    the board's second has begun.
    """

    def __init__(self, signal: LaneSignal, worlds: Sequence[World]) -> None:
        self.lane = signal.lane
        self.signal = signal
        self._worlds = worlds

    @cached_property
    def _starts(self) -> list[int]:
        later = self.signal.stretches[1:]
        return [floor_second_ms(s.from_ms) for s in later if s.from_ms is not None]

    @cached_property
    def _by_start(self) -> list[Contact]:
        return sorted(self.signal.contacts, key=_from_ms)

    @cached_property
    def _edges(self) -> dict[str, Edge]:
        return {edge.id: edge for edge in self.signal.edges}

    @cached_property
    def _ended(self) -> list[int]:
        return list(accumulate((_to_ms(contact) for contact in self._by_start), max))

    def stretch(self, at_ms: int) -> Stretch | None:
        """The stretch that holds at that instant, and just after it."""
        if not self.signal.stretches:
            return None
        return self.signal.stretches[bisect_right(self._starts, at_ms)]

    def edge(self, edge_id: str) -> Edge | None:
        """The edge of that id, where it is one now."""
        return self._edges.get(edge_id)

    def told(self, since_ms: int, now_ms: int) -> list[Edge]:
        """The edges between two instants, both included, that somebody has seen or heard."""
        return [
            edge
            for edge in self.signal.edges
            if edge.observed and since_ms <= floor_second_ms(edge.time_ms) <= now_ms
        ]

    def is_back(self, now_ms: int) -> bool:
        """Whether it is in contact, whatever the outcome, since somebody has seen it come back."""
        since_ms = self.contact_since(now_ms)
        if since_ms is None:
            return False
        return any(edge.change is Change.BACK for edge in self.told(since_ms, now_ms))

    def unreported(self, now_ms: int) -> int | None:
        """Since when it is in contact by computation alone, after a return an outcome decides.

        None where it is not, where somebody has seen or heard that return, or where nothing about
        it is open: then contact by computation is contact.
        """
        place = self.place(now_ms)
        stretches = self.signal.stretches
        if not stretches or stretches[place].fill is not Fill.CONTACT:
            return None
        while place > 0 and stretches[place - 1].fill in (Fill.CONTACT, Fill.CLOSED):
            place -= 1
        if place == 0 or stretches[place - 1].fill is not Fill.EITHER:
            return None
        since_ms = self._starts[place - 1]
        told = self.told(since_ms, now_ms)
        return None if any(edge.change is Change.BACK for edge in told) else since_ms

    def contact_since(self, now_ms: int) -> int | None:
        """Since when it is in contact, whatever the outcome; None where it is not."""
        place = self.place(now_ms)
        stretches = self.signal.stretches
        if not stretches or stretches[place].fill is not Fill.CONTACT:
            return None
        while place > 0 and stretches[place - 1].fill is Fill.CONTACT:
            place -= 1
        return self._starts[place - 1] if place else -EVER_MS

    def place(self, at_ms: int) -> int:
        """The index of that stretch."""
        return bisect_right(self._starts, at_ms)

    def fill(self, at_ms: int, outcome: str | None = None) -> Fill:
        """What the lane is at that instant; under an outcome, 'either' is settled by it."""
        found = self.stretch(at_ms)
        if found is None:
            return Fill.GAP
        if found.fill is Fill.EITHER and outcome is not None:
            return self._settled(at_ms, outcome)
        return found.fill

    def firsts(self, at_ms: int, outcome: str | None = None) -> tuple[int | None, ...]:
        """The first instant from then on with signal in each world of the outcome, or None.

        One already in contact gives the instant itself.
        """
        worlds = self.worlds(outcome)
        found: list[int | None] = [None] * len(worlds)
        left = len(worlds)
        for place in range(bisect_right(self._ended, at_ms), len(self._by_start)):
            contact = self._by_start[place]
            if _to_ms(contact) <= at_ms:
                continue
            begin_ms = max(at_ms, _from_ms(contact))
            for number, world in enumerate(worlds):
                if found[number] is None and _is_in(contact, world):
                    found[number] = begin_ms
                    left -= 1
            if not left:
                break
        return tuple(found)

    def worlds(self, outcome: str | None) -> Sequence[World]:
        """The worlds in which the outcome is true; all of them for None."""
        if outcome is None:
            return self._worlds
        return [world for world in self._worlds if outcome in world] or self._worlds

    def gap_ms(self, from_ms: int, outcome: str | None = None) -> tuple[tuple[int, ...], bool]:
        """How long the lane may be out from that instant on, shortest first.

        And whether the longest is sure to end it: there may be an outcome with no return by then.
        """
        returns = self.firsts(from_ms, outcome)
        times_ms = sorted({at_ms for at_ms in returns if at_ms is not None and at_ms > from_ms})
        return tuple(apart_ms(at_ms, from_ms) for at_ms in times_ms), None not in returns

    def _settled(self, at_ms: int, outcome: str) -> Fill:
        """What 'either' comes to where the outcome is true: another may still be open in it."""
        here = [c for c in self._by_start if _from_ms(c) <= at_ms < _to_ms(c)]
        worlds = self.worlds(outcome)
        heard = sum(any(_is_in(contact, world) for contact in here) for world in worlds)
        if heard == len(worlds):
            return Fill.CONTACT
        return Fill.EITHER if heard else Fill.GAP


def _is_in(contact: Contact, world: World) -> bool:
    return contact.outcome is None or contact.outcome in world


def _from_ms(contact: Contact) -> int:
    return -EVER_MS if contact.from_ms is None else floor_second_ms(contact.from_ms)


def _to_ms(contact: Contact) -> int:
    return EVER_MS if contact.to_ms is None else floor_second_ms(contact.to_ms)


class Sight:
    """All lanes of the board, the first being the one that decides what is heard."""

    def __init__(
        self,
        lanes: Iterable[LaneSignal],
        worlds: Sequence[World],
        first_words_ms: Mapping[str, int] | None = None,
    ) -> None:
        self._first_words_ms = {} if first_words_ms is None else first_words_ms
        self.worlds = worlds
        self.lanes: Sequence[LaneSight] = tuple(LaneSight(lane, worlds) for lane in lanes)
        self._by_id = {lane.lane: lane for lane in self.lanes}
        self._told = tuple(lane for lane in self.lanes if lane.lane != "data")

    def lane(self, lane_id: str) -> LaneSight | None:
        """That lane, or None where the plan carries no such lane."""
        return self._by_id.get(lane_id)

    def best(self, at_ms: int, outcome: str | None = None) -> tuple[LaneSight, Fill] | None:
        """The lane that gives the audience most at that instant: picture, else voice, else any.

        With no signal at all it is the first lane, with what that lane is. None without lanes.
        """
        if not self.lanes:
            return None
        rank = {"picture": 0, "voice": 1}
        for wanted in (Fill.CONTACT, Fill.EITHER, Fill.CLOSED):
            here = [lane for lane in self.lanes if lane.fill(at_ms, outcome) is wanted]
            if here:
                return min(here, key=lambda lane: rank.get(lane.lane, 2)), wanted
        return self.lanes[0], Fill.GAP

    def is_heard(self, since_ms: int, now_ms: int) -> bool:
        """Whether the desk has, or surely had since then, a word or a picture from the craft."""
        unheard = self.unheard(now_ms)
        return self.is_told(since_ms, now_ms) or any(
            lane.fill(now_ms) is Fill.CONTACT and lane.lane not in unheard for lane in self._told
        )

    def unheard(self, now_ms: int) -> Mapping[str, int]:
        """The lanes whose contact nobody may claim yet, each with when it should have begun.

        It is computed, but its return hangs on an outcome that no source has named, and nobody has
        heard the craft since. A lane that should have come in after it waits for the same word.
        """
        found = [lane.unreported(now_ms) for lane in self.lanes]
        since_ms = min((at_ms for at_ms in found if at_ms is not None), default=None)
        if since_ms is None or self.is_back(now_ms):
            return {}
        begun = {lane.lane: lane.contact_since(now_ms) for lane in self.lanes}
        return {lane: at for lane, at in begun.items() if at is not None and at >= since_ms}

    def is_told(self, since_ms: int, now_ms: int) -> bool:
        """Whether somebody at the desk has seen or heard the signal go or come since then."""
        return any(lane.told(since_ms, now_ms) for lane in self._told)

    def is_back(self, now_ms: int) -> bool:
        """Whether somebody has seen or heard the signal come back, and it has not gone since."""
        return any(lane.is_back(now_ms) for lane in self._told)

    def word_from(self, at_ms: int, outcome: str | None = None) -> tuple[int, ...]:
        """When, from that instant on, the first word of anything usually comes, in any world.

        After a return of the signal the first words take their time; in contact none is lost.
        """
        by_lane = [self._words(lane, at_ms, outcome) for lane in self._told]
        by_world = (
            min((time_ms for time_ms in times if time_ms is not None), default=None)
            for times in zip(*by_lane, strict=True)
        )
        return tuple(sorted({time_ms for time_ms in by_world if time_ms is not None}))

    def first_words_ms(self, lane: str) -> int:
        """How long after a return of that lane the first words usually come."""
        return self._first_words_ms.get(lane, 0)

    def _words(self, lane: LaneSight, at_ms: int, outcome: str | None) -> Sequence[int | None]:
        later_ms = self.first_words_ms(lane.lane)
        return [
            time_ms + later_ms if time_ms is not None and time_ms > at_ms else time_ms
            for time_ms in lane.firsts(at_ms, outcome)
        ]
