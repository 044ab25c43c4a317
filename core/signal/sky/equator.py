"""The true equator and equinox of date: precession of the IAU (2006), 13 terms of nutation."""

from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.model import Seconds

Matrices = NDArray[np.float64]
"""A rotation for each instant, shape (n, 3, 3), to be multiplied on columns."""

CENTURY_S = 36_525 * 86_400.0
"""A Julian century."""

_ARCSECOND_RAD = np.pi / 648_000

# Capitaine, Wallace and Chapront, Expressions for IAU 2000 precession quantities, Astronomy and
# Astrophysics 412 (2003) 567.
_ZETA = (0.01801828, 0.2988499, 2306.083227, 2.650545)
_Z = (0.01826837, 1.0927348, 2306.077181, -2.650545)
_THETA = (-0.04182264, -0.4294934, 2004.191903, 0.0)
_OBLIQUITY = (0.00200340, -0.0001831, -46.836769, 84381.406)

# Delaunay's arguments, seconds of arc: their rates, and what they are at J2000 (Simon and others,
# Astronomy and Astrophysics 282 (1994) 663): the Moon's anomaly l, the Sun's l', F, D, and the
# Moon's node.
_ARGUMENTS = np.array(
    [
        [1717915923.2178, 485868.249036],
        [129596581.0481, 1287104.79305],
        [1739527262.8478, 335779.526232],
        [1602961601.2090, 1072260.70369],
        [-6962890.5431, 450160.398036],
    ]
)

# The 13 largest terms of the IAU 1980 nutation (Seidelmann, Celestial Mechanics 27 (1982) 79):
# multiples of l, l', F, D and the node; then seconds of arc in longitude (with the sine of their
# sum) and in obliquity (with its cosine).
_TERMS = np.array(
    [
        [0, 0, 0, 0, 1, -17.1996, 9.2025],
        [0, 0, 2, -2, 2, -1.3187, 0.5736],
        [0, 0, 2, 0, 2, -0.2274, 0.0977],
        [0, 0, 0, 0, 2, 0.2062, -0.0895],
        [0, 1, 0, 0, 0, 0.1426, 0.0054],
        [1, 0, 0, 0, 0, 0.0712, -0.0007],
        [0, 1, 2, -2, 2, -0.0517, 0.0224],
        [0, 0, 2, 0, 1, -0.0386, 0.0200],
        [1, 0, 2, 0, 2, -0.0301, 0.0129],
        [0, -1, 2, -2, 2, 0.0217, -0.0095],
        [1, 0, 0, -2, 0, -0.0158, -0.0001],
        [-1, 0, 2, 0, 2, 0.0123, -0.0053],
        [0, 0, 2, -2, 1, 0.0129, -0.0070],
    ]
)

# Precession and nutation are computed twice a day and taken as straight in between: that is within
# 0.002 seconds of arc.
_STEP_S = 43_200.0


@dataclass(frozen=True, slots=True, eq=False)
class OfDate:
    """What changes slowly, at every step from the `first`: `values` is (steps, 10).

    Nine are the rotation from the true equator and equinox of date to the ICRF, row by row; the
    tenth is the equation of the equinoxes (radians).
    """

    first: int
    values: NDArray[np.float64]

    @classmethod
    def over(cls, at_s: Seconds) -> Self:
        """The steps that hold these instants, of which there is at least one."""
        first = int(at_s.min() // _STEP_S)
        last = int(at_s.max() // _STEP_S) + 1
        return cls(first, _slow(np.arange(first, last + 1, dtype=np.float64) * _STEP_S))

    def hold(self, at_s: Seconds) -> bool:
        """Tell whether these instants lie within the steps."""
        begin_s = self.first * _STEP_S
        end_s = (self.first + len(self.values) - 1) * _STEP_S
        return bool(begin_s <= at_s.min() and at_s.max() < end_s)

    def at(self, at_s: Seconds) -> tuple[Matrices, NDArray[np.float64]]:
        """The rotations and the equation of the equinoxes at instants within the steps."""
        steps = at_s / _STEP_S - self.first
        index = np.minimum(steps.astype(np.intp), len(self.values) - 2)
        before = self.values[index]
        found = before + (steps - index)[:, np.newaxis] * (self.values[index + 1] - before)
        return found[:, :9].reshape(-1, 3, 3), found[:, 9]


def _slow(at_s: Seconds) -> NDArray[np.float64]:
    """Precession, nutation and the equation of the equinoxes, laid out as in OfDate."""
    century = at_s / CENTURY_S
    longitude_rad, tilt_rad = _nutation_rad(century)
    mean_rad = polynomial_rad(_OBLIQUITY, century)
    to_mean = _frame(0, -mean_rad) @ _frame(2, longitude_rad) @ _frame(0, mean_rad + tilt_rad)
    to_j2000 = (
        _frame(2, polynomial_rad(_ZETA, century))
        @ _frame(1, -polynomial_rad(_THETA, century))
        @ _frame(2, polynomial_rad(_Z, century))
    )
    equinoxes_rad = longitude_rad * np.cos(mean_rad)
    return np.column_stack(((to_j2000 @ to_mean).reshape(-1, 9), equinoxes_rad))


def _nutation_rad(century: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The nutation in longitude and in obliquity."""
    arguments = np.outer(_ARGUMENTS[:, 0], century) + _ARGUMENTS[:, 1:]
    sums_rad = _TERMS[:, :5] @ (arguments * _ARCSECOND_RAD)
    longitude = _TERMS[:, 5] @ np.sin(sums_rad)
    return longitude * _ARCSECOND_RAD, _TERMS[:, 6] @ np.cos(sums_rad) * _ARCSECOND_RAD


def polynomial_rad(
    coefficients: tuple[float, ...], century: NDArray[np.float64]
) -> NDArray[np.float64]:
    """The value of a polynomial whose coefficients, from the highest, are seconds of arc."""
    value = np.zeros_like(century)
    for one in coefficients:
        value = value * century + one
    return value * _ARCSECOND_RAD


def _frame(axis: int, angle_rad: NDArray[np.float64]) -> Matrices:
    """The components of a vector on axes turned by an angle about one of them (0, 1, 2)."""
    matrices = np.zeros((len(angle_rad), 3, 3))
    one, other = (axis + 1) % 3, (axis + 2) % 3
    matrices[:, axis, axis] = 1.0
    matrices[:, one, one] = matrices[:, other, other] = np.cos(angle_rad)
    matrices[:, one, other] = np.sin(angle_rad)
    matrices[:, other, one] = -matrices[:, one, other]
    return matrices
