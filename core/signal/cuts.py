"""Stretches in which a lane carries nothing, why, and the ends of time."""

from typing import NamedTuple

EVER_MS = 2**62
"""Stands for 'without end' at either end of time, inside this room only."""

NO_STATION = "no ground station in view"

NOT_BOOKED = "no ground station booked"

UNKNOWN = "not computed"
"""No course says anything of that time: the end of what is known is neither loss nor return."""


class Cut(NamedTuple):
    """A stretch in which the lane carries nothing, and the names of the edges it makes."""

    from_ms: int
    to_ms: int
    cause: str
    lost: str = ""
    back: str = ""
