"""An orbit from elements, and the number of the revolution flown on it."""

import math

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.conic import Conic
from core.signal.sky.elements import Elements
from core.signal.sky.model import SPHERES, Body, Seconds
from core.signal.sky.poles import ICRF, Axes, turned

_ROUND = 1e-4  # below this eccentricity revolutions are counted from the node


class Orbit(Conic):
    """A conic by its elements on the given axes at `epoch_s`, which counts its revolutions."""

    def __init__(
        self,
        centre: Body,
        elements: Elements,
        epoch_s: float,
        axes: Axes = ICRF,
        begin_s: float = -math.inf,
        end_s: float = math.inf,
    ) -> None:
        gm = SPHERES[centre].gm_km3_s2
        position, velocity = elements.state(gm)
        super().__init__(
            centre, gm, epoch_s, turned(axes, position), turned(axes, velocity), begin_s, end_s
        )
        turn = elements.mean_anomaly_rad
        if elements.eccentricity < _ROUND:
            turn += elements.argument_rad
        self._began_s = epoch_s
        if self.kepler.alpha > 0:
            self._began_s -= turn % math.tau / self.kepler.mean_motion_rad_s

    def revolution(self, at_s: Seconds) -> NDArray[np.int64]:
        """The number of the revolution flown at each instant; the one at the epoch is 1.

        One ends and the next begins at the low point; on a round orbit, at the ascending node. On
        an open conic all is 1.
        """
        if self.kepler.alpha <= 0:
            return np.ones(len(at_s), dtype=np.int64)
        return np.floor((at_s - self._began_s) / self.period_s).astype(np.int64) + 1
