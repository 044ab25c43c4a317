"""Which events a course waits for."""

from collections.abc import Iterator

from core.plan.model import Course, CourseKind, Ground

SHIFTING = frozenset({CourseKind.PASSES, CourseKind.TRAJECTORY})
"""The kinds of course that shift as a whole with the event they follow."""


def drivers(course: Course) -> tuple[str, ...]:
    """The events that a course follows, hangs on or is bound by, each once."""
    bounds = [bound.event for bound in (course.begins, course.ends) if bound is not None]
    named = [course.follows, *bounds, *_in_settings(course)]
    return tuple(dict.fromkeys(name for name in named if name is not None))


def _in_settings(course: Course) -> Iterator[str]:
    """The events of an epoch and of a burn: both stand in a table of their own."""
    for _, value in course.settings:
        if isinstance(value, tuple):
            yield from (
                str(pair[1])
                for pair in value
                if isinstance(pair, tuple) and len(pair) == 2 and pair[0] == "event"
            )


def has_place(ground: Ground) -> bool:
    """Whether a ground station stands somewhere, and so can be computed for."""
    return ground.geocentre or None not in (ground.latitude_deg, ground.longitude_deg)
