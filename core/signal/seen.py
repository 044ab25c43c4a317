"""When a craft can be reached from where, as a search of the sky gives it.

All times are those of reception, in UTC milliseconds.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sighting:
    """A stretch in which one ground station reaches the craft.

    A cause is why there is none beyond that end: 'behind the Moon', 'no ground station in view',
    or empty where the search itself, or the path, ends there. A give is plus or minus, in ms.
    """

    ground: str
    from_ms: int
    to_ms: int
    from_cause: str = ""
    to_cause: str = ""
    from_give_ms: int = 0
    to_give_ms: int = 0


@dataclass(frozen=True, slots=True)
class Hidden:
    """A stretch in which the craft is high enough over a station, but behind a body."""

    ground: str
    from_ms: int
    to_ms: int
    cause: str


@dataclass(frozen=True, slots=True)
class Light:
    """How far a craft is from the Earth's centre, and how long its signal is under way."""

    distance_km: float
    way_ms: int


@dataclass(frozen=True, slots=True)
class Seen:
    """All that a search has found, each in order of time."""

    sightings: tuple[Sighting, ...]
    hidden: tuple[Hidden, ...]
