"""Where one looks from: a place on the ground, or the Earth's centre."""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.earth import Turning
from core.signal.sky.model import Seconds, Vectors

# WGS 84.
_EQUATOR_KM = 6378.137
_FLATTENING = 1 / 298.257223563
_SQUARED_ECCENTRICITY = _FLATTENING * (2 - _FLATTENING)


@dataclass(frozen=True, slots=True)
class Site:
    """A place on the WGS 84 ellipsoid: geodetic latitude north, longitude east, height. Observer.

    Sites that are asked for at the same instants are quicker where they share their `turning`.
    """

    latitude_rad: float
    longitude_rad: float
    height_km: float
    mask_rad: float
    turning: Turning = field(default_factory=Turning, repr=False, compare=False)

    def position_km(self, at_s: Seconds) -> Vectors:
        """Where it is about the Earth's centre, ICRF axes."""
        sin = math.sin(self.latitude_rad)
        to_axis_km = _EQUATOR_KM / math.sqrt(1 - _SQUARED_ECCENTRICITY * sin**2)
        fixed_km = (to_axis_km + self.height_km) * self._zenith()
        fixed_km[2] -= _SQUARED_ECCENTRICITY * to_axis_km * sin
        return self._turned(at_s, fixed_km)

    def up(self, at_s: Seconds) -> Vectors:
        """Unit vectors to its zenith (of the ellipsoid), ICRF axes."""
        return self._turned(at_s, self._zenith())

    def _zenith(self) -> NDArray[np.float64]:
        """Its zenith on axes fixed in the Earth."""
        across = math.cos(self.latitude_rad)
        return np.array(
            (
                across * math.cos(self.longitude_rad),
                across * math.sin(self.longitude_rad),
                math.sin(self.latitude_rad),
            )
        )

    def _turned(self, at_s: Seconds, fixed: NDArray[np.float64]) -> Vectors:
        """A vector fixed in the Earth, at each instant."""
        rows = self.turning.to_icrf(at_s).reshape(-1, 3)  # one product is quicker than many
        turned: Vectors = (rows @ fixed).reshape(-1, 3)
        return turned


@dataclass(frozen=True, slots=True)
class Geocentre:
    """The Earth's centre: hides nothing, and has no horizon. Observer."""

    @property
    def mask_rad(self) -> None:
        """It hears at any elevation."""
        return

    def position_km(self, at_s: Seconds) -> Vectors:
        """Zero throughout."""
        return np.zeros((len(at_s), 3))

    def up(self, at_s: Seconds) -> Vectors:
        """There is no up at the centre: zero vectors, which no elevation can be taken from."""
        return np.zeros((len(at_s), 3))
