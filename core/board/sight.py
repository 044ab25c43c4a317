"""What can be heard or seen at an instant, asked of the signal's lanes."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from core.signal.model import Contact, Fill, LaneSignal, Stretch
from core.times.writing import apart_ms

ROLES = ("voice", "picture", "data")
"""Lanes the theme has a colour of its own for; any other lane is drawn as 'other'."""


def role(lane: str) -> str:
    """The role of a lane in the theme."""
    return lane if lane in ROLES else "other"


class LaneSight:
    """One lane, ready to be asked about instants."""

    def __init__(self, signal: LaneSignal) -> None:
        self.lane = signal.lane
        self.signal = signal
        self._starts = [s.from_ms for s in signal.stretches[1:] if s.from_ms is not None]
        self._by_start = sorted(
            signal.contacts, key=lambda c: c.from_ms if c.from_ms is not None else -(2**62)
        )

    def stretch(self, at_ms: int) -> Stretch | None:
        """The stretch that holds at that instant, and just after it."""
        if not self.signal.stretches:
            return None
        return self.signal.stretches[bisect_right(self._starts, at_ms)]

    def place(self, at_ms: int) -> int:
        """The index of that stretch."""
        return bisect_right(self._starts, at_ms)

    def fill(self, at_ms: int, outcome: str | None = None) -> Fill:
        """What the lane is at that instant; under an outcome, 'either' is settled by it."""
        found = self.stretch(at_ms)
        if found is None:
            return Fill.GAP
        if found.fill is Fill.EITHER and outcome is not None:
            return Fill.CONTACT if self._under(at_ms, outcome) else Fill.GAP
        return found.fill

    def around(self, at_ms: int, outcome: str | None = None) -> tuple[Fill, Fill]:
        """What the lane is just before and just after that instant."""
        return self.fill(at_ms - 1, outcome), self.fill(at_ms, outcome)

    def next_contacts(self, at_ms: int, outcome: str | None = None) -> tuple[int, ...]:
        """The first instants from then on with signal, one for each outcome still open, sorted.

        One already in contact gives the instant itself.
        """
        firsts: dict[str | None, int] = {}
        for contact in self._by_start:
            if contact.to_ms is not None and contact.to_ms <= at_ms:
                continue
            if outcome is not None and contact.outcome not in (None, outcome):
                continue
            begin = at_ms if contact.from_ms is None else max(at_ms, contact.from_ms)
            firsts[contact.outcome] = min(begin, firsts.get(contact.outcome, begin))
            if contact.outcome is None:
                break
        return _possible(firsts)

    def gap_ms(self, from_ms: int, outcome: str | None = None) -> tuple[tuple[int, ...], bool]:
        """How long the lane may be out from that instant on, shortest first.

        And whether the longest is sure to end it: there may be an outcome with no return by then.
        """
        returns = [at for at in self.next_contacts(from_ms, outcome) if at > from_ms]
        sure = bool(returns) and self.fill(returns[-1], outcome) is not Fill.EITHER
        return tuple(apart_ms(at_ms, from_ms) for at_ms in returns), sure

    def _under(self, at_ms: int, outcome: str) -> bool:
        return any(c.outcome in (None, outcome) and _covers(c, at_ms) for c in self._by_start)


def _covers(contact: Contact, at_ms: int) -> bool:
    begun = contact.from_ms is None or contact.from_ms <= at_ms
    return begun and (contact.to_ms is None or at_ms < contact.to_ms)


def _possible(firsts: dict[str | None, int]) -> tuple[int, ...]:
    """The first contact that comes whatever the outcome ends the wait for all of them."""
    sure = firsts.get(None)
    times = {t for t in firsts.values() if sure is None or t <= sure}
    return tuple(sorted(times))


class Sight:
    """All lanes of the board, the first being the one that decides what is heard."""

    def __init__(self, lanes: Iterable[LaneSignal]) -> None:
        self.lanes: Sequence[LaneSight] = tuple(LaneSight(lane) for lane in lanes)
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
        return any(
            lane.fill(now_ms) is Fill.CONTACT
            or any(e.observed and since_ms <= e.time_ms <= now_ms for e in lane.signal.edges)
            for lane in self._told
        )

    def word_from(self, at_ms: int, outcome: str | None = None) -> tuple[int, ...]:
        """When, from that instant on, the first word of anything can come: one time per outcome."""
        waits = [lane.next_contacts(at_ms, outcome) for lane in self._told]
        firsts = [times for times in waits if times]
        return min(firsts, default=())
