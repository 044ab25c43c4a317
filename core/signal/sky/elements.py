"""Orbital elements, and the state they stand for."""

import math
from dataclasses import dataclass

import numpy as np

from core.signal.sky.kepler import Kepler
from core.signal.sky.vectors import Triple, plus, scaled


@dataclass(frozen=True, slots=True)
class Elements:
    """A conic by its low point, from the centre, and its angles.

    On an open conic the mean anomaly is the mean motion times the time since the low point.
    """

    low_km: float
    eccentricity: float = 0.0
    inclination_rad: float = 0.0
    node_rad: float = 0.0
    argument_rad: float = 0.0
    mean_anomaly_rad: float = 0.0

    def state(self, gm: float) -> tuple[Triple, Triple]:
        """Position and velocity on the axes of the elements."""
        kepler = Kepler(
            gm, self.low_km, self.eccentricity, gm * (1 - self.eccentricity) / self.low_km
        )
        since = np.array([self.mean_anomaly_rad / kepler.mean_motion_rad_s])
        u0, u1, u2, _ = (float(u[0]) for u in kepler.universal(kepler.solve(since)))
        distance_km = self.low_km + gm * self.eccentricity * u2
        towards, ahead = self._axes()
        position = plus(scaled(towards, self.low_km - gm * u2), ahead, kepler.along_km2_s * u1)
        velocity = plus(scaled(towards, -gm * u1), ahead, kepler.along_km2_s * u0)
        return position, scaled(velocity, 1 / distance_km)

    def _axes(self) -> tuple[Triple, Triple]:
        """Unit vectors to the low point, and along the motion there."""
        tilt, node = self.inclination_rad, self.node_rad
        line = (math.cos(node), math.sin(node), 0.0)
        climb = (
            -math.sin(node) * math.cos(tilt),
            math.cos(node) * math.cos(tilt),
            math.sin(tilt),
        )
        cosine, sine = math.cos(self.argument_rad), math.sin(self.argument_rad)
        return (
            plus(scaled(line, cosine), climb, sine),
            plus(scaled(line, -sine), climb, cosine),
        )
