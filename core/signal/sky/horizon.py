"""How far ahead an arrival is computed whose course ends with an event.

What lies beyond that end is on no board, so it is not worked out with each new time of the burn. It
is looked a little farther, so that every contact that begins before the end is known whole.
"""

from core.plan.model import Course
from core.signal.seen import Seen
from core.signal.sky.making import events_of

STEP_MS = 6 * 3_600_000
"""A horizon lies whole steps after the burn: an end that moves a little asks nothing new."""

WAY_MS = STEP_MS // 4
"""The end may be heard so much later than it is: light's way, and more."""

TAIL_MS = STEP_MS // 2
"""So much farther is looked at first; longer contacts are followed farther."""


def end_event(course: Course) -> str | None:
    """The event with which a course ends, where its motion does not hang on that as well."""
    event = None if course.ends is None else course.ends.event
    return None if event in events_of(course) else event


def horizon_ms(turn_ms: int, end_ms: int) -> int:
    """The first whole step after the burn that is not before the end."""
    return turn_ms + max(1, -((turn_ms - end_ms) // STEP_MS)) * STEP_MS


def is_whole(seen: Seen, far_ms: int, looked_ms: int) -> bool:
    """Whether no contact that begins before a horizon goes on where looking ended."""
    return all(s.to_ms < looked_ms or s.from_ms >= far_ms + WAY_MS for s in seen.sightings)
