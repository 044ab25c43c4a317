"""From when to when the courses of a plan are looked at."""

from collections.abc import Mapping
from typing import NamedTuple

from core.plan.model import Bound, Plan

HOUR_MS = 3_600_000
DAY_MS = 24 * HOUR_MS

BEFORE_MS = HOUR_MS
"""So long before the plan's first event a course is looked at; after the last one, a day."""


class Stretch(NamedTuple):
    """From when to when, UTC ms of reception."""

    from_ms: int
    to_ms: int

    def within(self, from_ms: int | None, to_ms: int | None) -> "Stretch":
        """The part of it between two instants, either of which may be open."""
        return Stretch(
            self.from_ms if from_ms is None else max(self.from_ms, from_ms),
            self.to_ms if to_ms is None else min(self.to_ms, to_ms),
        )

    def begun(self, from_ms: int) -> "Stretch":
        """A stretch that begins later, and then lasts at least a day."""
        return Stretch(from_ms, max(self.to_ms, from_ms + DAY_MS))


def extent_of(plan: Plan, planned: Mapping[str, int]) -> Stretch:
    """From when to when a plan is looked at, by its events and its courses' bounds."""
    known = list(planned.values())
    known += [
        ms
        for course in plan.courses
        for ms in (instant(course.begins), instant(course.ends))
        if ms is not None
    ]
    return Stretch(min(known, default=0) - BEFORE_MS, max(known, default=0) + DAY_MS)


def instant(bound: Bound | None) -> int | None:
    """A bound that is an instant; None where it is open, or an event."""
    return None if bound is None else bound.at_ms
