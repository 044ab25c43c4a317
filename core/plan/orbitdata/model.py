"""What a trajectory or element file says, as plain data.

Instants are seconds of Terrestrial Time past J2000, whatever time system the file is in.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Segment:
    """One segment of a trajectory: states in order of time, on ICRF axes about `centre`.

    `centre` is 'earth', 'moon' or 'mars'. `at_s` rises strictly; `position_km` and
    `velocity_km_s` have as many triples. The states hold good from `begin_s` to `end_s`.
    """

    centre: str
    begin_s: float
    end_s: float
    at_s: tuple[float, ...]
    position_km: tuple[tuple[float, float, float], ...]
    velocity_km_s: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True)
class Trajectory:
    """A trajectory file (CCSDS OEM): its object, and its segments in order of time."""

    name: str
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class MeanElements:
    """Mean elements for SGP4 (CCSDS OMM or two-line elements), in the frame TEME.

    Degrees, revolutions a day; `epoch_utc_ms` may have a fraction. `ballistic` is B*, in 1/Earth
    radii; `mean_motion_dot` and `_ddot` are as the formats give them (already halved and sixthed).
    """

    name: str
    catalogue: int
    epoch_utc_ms: float
    mean_motion: float
    eccentricity: float
    inclination_deg: float
    node_deg: float
    argument_deg: float
    mean_anomaly_deg: float
    ballistic: float
    mean_motion_dot: float = 0.0
    mean_motion_ddot: float = 0.0
