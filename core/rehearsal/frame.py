"""Within what a day is drawn: from when till when, and what is planned by then."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.plan.model import Plan
from core.session.ground import SkiesFor, make_ready, no_skies
from core.times.writing import HOUR_MS, SECOND_MS

_LEAD_MS = 600_000
_LONGEST_MS = 6 * HOUR_MS


@dataclass(frozen=True, slots=True)
class Frame:
    """Within what a day is drawn: from when till when, and when events are planned by then."""

    begin_ms: int
    end_ms: int
    times_ms: Mapping[str, int]

    @property
    def hours(self) -> float:
        """How long it is."""
        return (self.end_ms - self.begin_ms) / HOUR_MS


def frame_of(plan: Plan, skies_for: SkiesFor = no_skies) -> Frame:
    """From ten minutes before the first thing to come till the programme's end, six hours at most.

    Without a programme it ends a quarter of an hour after the last event.
    """
    expected = make_ready(plan, skies_for).schedule(0).expected()
    past = {event.id for event in plan.events if event.happened_ms is not None}
    named = {event.id for event in plan.events} - past
    times = {name: at for name, at in expected.items() if name in named and at is not None}
    off_ms = None if plan.air is None else plan.air.off_ms
    known = sorted(times.values()) or [off_ms or 0]
    begin_ms = known[0] - _LEAD_MS
    begin_ms -= begin_ms % SECOND_MS
    last_ms = off_ms if off_ms is not None else known[-1] + _LEAD_MS * 3 // 2
    end_ms = max(begin_ms + _LEAD_MS, min(last_ms, begin_ms + _LONGEST_MS))
    return Frame(begin_ms, end_ms, {n: at for n, at in times.items() if begin_ms < at < end_ms})
