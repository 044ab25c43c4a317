"""The shapes of the sky: bodies, times, vectors, and what a path and an observer answer.

Instants inside this room are seconds of Terrestrial Time past J2000 (TDB is taken as the same: they
differ by less than 2 ms). Positions are kilometres on the axes of the ICRF. Angles are radians.
What a search finds stands in `core.signal.seen`.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Seconds = NDArray[np.float64]
"""Instants in seconds of TT past J2000, shape (n,), rising."""

Vectors = NDArray[np.float64]
"""Positions or directions, shape (n, 3), kilometres or unit length, ICRF axes."""


class Body(StrEnum):
    """A body that holds a craft, or hides it."""

    EARTH = "earth"
    MOON = "moon"
    MARS = "mars"


@dataclass(frozen=True, slots=True)
class Sphere:
    """What is known of a body: gravity, the radius that hides, how far its limb may differ."""

    gm_km3_s2: float
    radius_km: float
    relief_km: float


SPHERES = {
    # GM: JPL DE440. Radius of the Moon: IAU/LRO mean radius. Earth: WGS 84, equatorial.
    # Mars: IAU equatorial radius. Relief of the Moon's limb: 5 km; that of Mars: 10 km
    # (from memory); that of the Earth: 10 km, mostly air (from memory).
    Body.EARTH: Sphere(398600.435436, 6378.137, 10.0),
    Body.MOON: Sphere(4902.800066, 1737.4, 5.0),
    Body.MARS: Sphere(42828.375214, 3396.19, 10.0),
}

LIGHT_KM_S = 299792.458
"""The speed of light (SI)."""


class Path(Protocol):
    """Where a craft is, about one body, from an instant to an instant (infinite where open)."""

    centre: Body
    begin_s: float
    end_s: float

    def position_km(self, at_s: Seconds) -> Vectors:
        """The craft about `centre`; outside its span whatever continues it smoothly, or NaN."""

    def grid_s(self, from_s: float, to_s: float) -> Seconds:
        """Instants at which a search must look, rising, within the span asked for and the path's.

        Both ends of it, a file's own epochs, and no step coarser than a tenth of a revolution at
        that point of the path.
        """


class Observer(Protocol):
    """A place on the Earth, or its centre."""

    @property
    def mask_rad(self) -> float | None:
        """The lowest elevation at which it hears; None at the Earth's centre, which sees all."""

    def position_km(self, at_s: Seconds) -> Vectors:
        """Where it is about the Earth's centre, ICRF axes."""

    def up(self, at_s: Seconds) -> Vectors:
        """Unit vectors to its zenith (of the WGS 84 ellipsoid), ICRF axes."""


class Ephemeris(Protocol):
    """Where the bodies are."""

    def from_earth_km(self, body: Body, at_s: Seconds) -> Vectors:
        """A body's centre about the Earth's centre. Raises EphemerisRange outside its span."""

    def earth_km(self, at_s: Seconds) -> Vectors:
        """The Earth's centre about the solar system's barycentre.

        Light crosses a system that moves: while it comes from the Moon the Earth goes on by 39 km.
        """
