"""The shapes of the signal as SVG: filled, hatched, either, closed; the same as on the strip."""

from collections.abc import Iterator

from app.record.svg import Ink, box, segments
from core.signal.model import Fill

_STEP = 8.0
"""From one line of a pattern to the next."""
_WIDE = 1.5

Lines = Iterator[tuple[float, float, float, float]]


def filled(fill: Fill, role: str, at: tuple[float, float, float, float], ink: Ink) -> Iterator[str]:
    """A stretch of a lane; `at` is left, top, width and height.

    The third pattern keeps to lines in the lane's colour, so that it stands apart in greys too.
    """
    left, top, width, height = at
    colour = ink.lane(role)
    if fill is Fill.CONTACT:
        yield box(left, top, width, height, colour)
        return
    if fill is Fill.GAP:
        yield segments(slanted(*at), ink.hatch, _WIDE)
        return
    lines = level(*at) if fill is Fill.CLOSED else slanted(left, top, width, height, _STEP / 2)
    yield segments(lines, colour, _WIDE)
    yield box(left, top, width, height, "none", colour)


def slanted(left: float, top: float, width: float, height: float, step: float = _STEP) -> Lines:
    """Lines from lower left to upper right, cut off at the edges of the box.

    They hang on one another from box to box: two that meet go on without a seam.
    """
    total = left + top + step - (left + top) % step
    while total < left + width + top + height:
        from_x = max(left, total - top - height)
        to_x = min(left + width, total - top)
        if from_x < to_x:
            yield from_x, total - from_x, to_x, total - to_x
        total += step


def level(left: float, top: float, width: float, height: float) -> Lines:
    """Level lines."""
    y = top + _STEP / 2
    while y < top + height:
        yield left, y, left + width, y
        y += _STEP
