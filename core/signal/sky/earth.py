"""How the Earth is turned: from axes fixed in it, or of its true equator, to those of the ICRF.

Precession of the IAU (2006), the 13 largest terms of nutation, and sidereal time with UT1 = UTC, so
that nothing has to be fetched. Polar motion and the offset of the ICRF are left out: 0.5 seconds of
arc, 15 m on the ground. UT1 = UTC leaves out more: 465 m on the equator for each second between
them. They are kept within 0.9 s; from 2021 to 2026 they were within 0.19 s.
"""

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.equator import CENTURY_S, Matrices, OfDate, polynomial_rad
from core.signal.sky.model import Seconds, Vectors
from core.signal.sky.timescale import utc_ms
from core.times.scales import J2000_MS

_DAY_MS = 86_400_000.0
_TURN_RAD = 2 * np.pi

# The Earth rotation angle, in turns: at J2000 and for each day of UT1 (IAU 2000, resolution B1.8).
_ANGLE_TURNS = 0.7790572732640
_ANGLE_TURNS_A_DAY = 1.00273781191135448

# Sidereal time beyond that angle, seconds of arc by powers of the century (IERS Conventions, 2010,
# chapter 5).
_SIDEREAL = (1.3915817, 4612.156534, 0.014506)


class Turning:
    """The turning of the Earth, for all sites that are asked for at the same instants.

    Remembers the last instants and their rotations, as a search asks each site for its place and
    its zenith at the same ones. Threads may share it: what it remembers is replaced as a whole.
    """

    __slots__ = ("_last", "_of_date")

    def __init__(self) -> None:
        self._last: tuple[Seconds, Matrices] = np.empty(0), np.empty((0, 3, 3))
        self._of_date = OfDate.over(np.zeros(1))

    def to_icrf(self, at_s: Seconds) -> Matrices:
        """The rotations from axes fixed in the Earth (pole, Greenwich) to those of the ICRF."""
        if not at_s.size:
            return np.empty((0, 3, 3))
        known_s, known = self._last
        if np.array_equal(at_s, known_s):
            return known
        of_date = self._of_date
        if not of_date.hold(at_s):
            self._of_date = of_date = OfDate.over(at_s)
        found = _turned(at_s, of_date)
        found.flags.writeable = False
        self._last = at_s.copy(), found
        return found


def teme_to_icrf(at_s: Seconds, vectors: Vectors) -> Vectors:
    """Vectors of SGP4 (true equator, mean equinox of date) on the axes of the ICRF."""
    if not at_s.size:
        return vectors
    to_icrf, equinoxes_rad = OfDate.over(at_s).at(at_s)
    rotations = _about_pole(to_icrf, equinoxes_rad)
    turned: Vectors = np.matmul(rotations, vectors[:, :, np.newaxis])[:, :, 0]
    return turned


def _turned(at_s: Seconds, of_date: OfDate) -> Matrices:
    """The rotations from axes fixed in the Earth to the ICRF."""
    to_icrf, equinoxes_rad = of_date.at(at_s)
    ut1_days = (utc_ms(at_s) - J2000_MS) / _DAY_MS
    angle_rad = _TURN_RAD * ((_ANGLE_TURNS + _ANGLE_TURNS_A_DAY * ut1_days) % 1.0)
    mean_rad = angle_rad + polynomial_rad(_SIDEREAL, at_s / CENTURY_S)
    return _about_pole(to_icrf, mean_rad + equinoxes_rad)


def _about_pole(to_icrf: Matrices, angle_rad: NDArray[np.float64]) -> Matrices:
    """The rotations that start from axes turned east by an angle in the equator of date."""
    cos = np.cos(angle_rad)[:, np.newaxis]
    sin = np.sin(angle_rad)[:, np.newaxis]
    x, y = to_icrf[:, :, 0], to_icrf[:, :, 1]
    turned = np.empty_like(to_icrf)
    turned[:, :, 0] = cos * x + sin * y
    turned[:, :, 1] = cos * y - sin * x
    turned[:, :, 2] = to_icrf[:, :, 2]
    return turned
