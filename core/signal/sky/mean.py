"""Mean elements as a path, by the theory they were made for (SGP4, constants of WGS 72)."""

import math

import numpy as np
from sgp4.api import WGS72, Satrec

from core.errors import SkyProblem
from core.plan.orbitdata.model import MeanElements
from core.signal.sky.earth import teme_to_icrf
from core.signal.sky.model import Body, Seconds, Vectors
from core.signal.sky.timescale import utc_ms

_DAY_MS = 86_400_000.0
_UNIX_EPOCH_JD = 2_440_587.5
_UNIX_EPOCH_DAYS = 7_306.0  # 1970-01-01 counted from 1949-12-31, as SGP4 does
_PER_DAY = math.tau / 1440  # revolutions a day, in radians a minute
_LEAST_PER_TURN = 20
_MOST_STRETCHED = 0.95


class Mean:
    """A craft about the Earth from mean elements; from an instant to an instant, as far as wanted.

    Where the theory gives no position (the craft has come down, for one) there is NaN.
    Raises SkyProblem where the elements say no mean motion.
    """

    def __init__(
        self, elements: MeanElements, begin_s: float = -math.inf, end_s: float = math.inf
    ) -> None:
        if elements.mean_motion <= 0:
            raise SkyProblem("These mean elements have no mean motion")
        self.centre = Body.EARTH
        self.begin_s = begin_s
        self.end_s = end_s
        self._craft = _craft(elements)
        # Drag moves the low point through the grid's own count, so it is dense all along.
        stretch = min(elements.eccentricity, _MOST_STRETCHED)
        hurry = math.sqrt(1 + stretch) / (1 - stretch) ** 1.5
        self._step_s = 86_400 / elements.mean_motion / (_LEAST_PER_TURN * hurry)

    def position_km(self, at_s: Seconds) -> Vectors:
        """The craft about the Earth's centre; NaN where the theory gives none."""
        days = utc_ms(at_s) / _DAY_MS
        whole = np.floor(days)
        wrong, teme, _ = self._craft.sgp4_array(whole + _UNIX_EPOCH_JD, days - whole)
        found: Vectors = teme_to_icrf(at_s, teme)
        found[wrong != 0] = np.nan
        return found

    def grid_s(self, from_s: float, to_s: float) -> Seconds:
        """Even steps, close enough for the low point."""
        from_s, to_s = max(from_s, self.begin_s), min(to_s, self.end_s)
        if from_s > to_s:
            return np.empty(0)
        steps = max(1, math.ceil((to_s - from_s) / self._step_s))
        return np.linspace(from_s, to_s, steps + 1)


def _craft(elements: MeanElements) -> Satrec:
    """The elements as the theory takes them. Its number has no part in the motion."""
    craft = Satrec()
    craft.sgp4init(
        WGS72,
        "i",
        0,
        elements.epoch_utc_ms / _DAY_MS + _UNIX_EPOCH_DAYS,
        elements.ballistic,
        elements.mean_motion_dot * _PER_DAY / 1440,
        elements.mean_motion_ddot * _PER_DAY / 1440**2,
        elements.eccentricity,
        math.radians(elements.argument_deg),
        math.radians(elements.inclination_deg),
        math.radians(elements.mean_anomaly_deg),
        elements.mean_motion * _PER_DAY,
        math.radians(elements.node_deg),
    )
    return craft
