"""What can be computed, and is hardly meant: an orbit through the ground, elements out of date."""

from collections.abc import Iterator

from core.plan.model import Course
from core.signal.sky.arrival import Burned
from core.signal.sky.conic import Conic
from core.signal.sky.model import SPHERES, Body, Path

FRESH_MS = 14 * 86_400_000
"""Mean elements drift: beyond two weeks a pass may be minutes off (common practice, no source)."""

CALLED = {Body.EARTH: "the Earth", Body.MOON: "the Moon", Body.MARS: "Mars"}


def doubts(course: Course, path: Path, from_ms: int, to_ms: int) -> Iterator[str]:
    """What a researcher should look at again, in words; the plan is looked at between the two."""
    if isinstance(path, Burned):
        yield from _after_the_burn(path)
    elif isinstance(path, Conic) and course.ends is None:
        deep_km = SPHERES[path.centre].radius_km - path.kepler.low_km
        if deep_km > 0:
            yield f"its low point lies {deep_km:.0f} km under the surface of {CALLED[path.centre]}"
    if course.elements is not None:
        epoch_ms = course.elements.epoch_utc_ms
        days = round(max(epoch_ms - from_ms, to_ms - epoch_ms) / 86_400_000)
        if days * 86_400_000 > FRESH_MS:
            yield f"its elements are up to {days} days older or younger than the plan"


def _after_the_burn(path: Burned) -> Iterator[str]:
    orbit = path.after.kepler
    body = CALLED[path.centre]
    if orbit.alpha <= 0:
        yield f"after its burn the craft is not held by {body}, and flies past"
    deep_km = SPHERES[path.centre].radius_km - orbit.low_km
    if deep_km > 0:
        yield f"after its burn the low point lies {deep_km:.0f} km under the surface of {body}"
