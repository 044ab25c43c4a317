"""Kepler's equation for every kind of conic, in the universal variable s, where ds = dt / r.

Counted from the low point q, with alpha = gm (1 - e) / q and Battin's functions U of alpha and s:

    t = q s + gm e U3      r = q + gm e U2      x = q - gm U2      y = sqrt(gm q (1 + e)) U1

One set of formulas from the circle to the hyperbola, without a gap at the parabola. Source:
R. Battin, An Introduction to the Mathematics and Methods of Astrodynamics, chapter 4 (from memory).
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]

FLAT = 1e-3
"""How near to the parabola the closed forms lose digits, and series take over close to q."""

_LONG = 0.3  # an eccentricity from which on the guess by the mean anomaly is no better

_ROUNDS = 60
_GOOD = 1e-9  # Newton squares it: what is left after the last round is rounding


@dataclass(frozen=True, slots=True)
class Kepler:
    """A conic's size and shape: how time runs along it. `alpha` is minus twice the energy."""

    gm: float
    low_km: float
    eccentricity: float
    alpha: float

    @property
    def period_s(self) -> float:
        """The time of one revolution; infinite on an open conic."""
        return math.tau / self.mean_motion_rad_s if self.alpha > 0 else math.inf

    @property
    def mean_motion_rad_s(self) -> float:
        """How fast the mean anomaly runs; on a parabola, sqrt(gm / 2 q^3)."""
        if self.alpha == 0:
            return math.sqrt(self.gm / (2 * self.low_km**3))
        return math.sqrt(abs(self.alpha)) ** 3 / self.gm

    @property
    def along_km2_s(self) -> float:
        """How wide it is: y = along * U1. This is also r^2 times the rate of the true anomaly."""
        return math.sqrt(self.gm * self.low_km * (1 + self.eccentricity))

    def universal(self, s: Numbers) -> tuple[Numbers, Numbers, Numbers, Numbers]:
        """U0 to U3 of s."""
        if self.alpha == 0:
            return np.ones_like(s), s, s * s / 2, s**3 / 6
        root = math.sqrt(abs(self.alpha))
        x = root * s
        even, odd = (np.cos(x), np.sin(x)) if self.alpha > 0 else (np.cosh(x), np.sinh(x))
        u1, u2, u3 = odd / root, (1 - even) / self.alpha, (x - odd) / (self.alpha * root)
        if abs(1 - self.eccentricity) < FLAT:
            near = np.abs(x) < 0.1
            z, s2 = self.alpha * s * s, s * s
            u2 = np.where(near, s2 * (1 / 2 - z / 24 * (1 - z / 30 * (1 - z / 56))), u2)
            u3 = np.where(near, s * s2 * (1 / 6 - z / 120 * (1 - z / 42 * (1 - z / 72))), u3)
        return even, u1, u2, u3

    def time_s(self, s: Numbers) -> Numbers:
        """Seconds since the low point at s."""
        return self.low_km * s + self.gm * self.eccentricity * self.universal(s)[3]

    def solve(self, since_s: Numbers) -> Numbers:
        """The s at so many seconds since a low point; on an ellipse, of the nearest one.

        Newton: the equation is convex to either side of the low point and its slope, r, is never
        naught, so it comes down to the root from wherever it starts.
        """
        t = since_s
        if self.alpha > 0:
            t = t - self.period_s * np.round(t / self.period_s)
        pull = self.gm * self.eccentricity
        s = self._start(t)
        for _ in range(_ROUNDS):
            _, _, u2, u3 = self.universal(s)
            step = (self.low_km * s + pull * u3 - t) / (self.low_km + pull * u2)
            s = s - step
            if not (np.abs(step) > _GOOD * np.abs(s)).any():
                break
        return s

    def _start(self, t: Numbers) -> Numbers:
        """A first guess: the root of q s + gm e s^3 / 6 = t, which is exact close to q.

        On an ellipse that is not long, the eccentric anomaly from the mean one to second order.
        """
        if self.alpha > 0 and self.eccentricity < _LONG:
            mean = t * self.mean_motion_rad_s
            ahead = self.eccentricity * np.sin(mean)
            guess: Numbers = mean + ahead * (1 + self.eccentricity * np.cos(mean))
            return guess / math.sqrt(self.alpha)
        cube = self.gm * max(self.eccentricity, 1e-6) / 2
        wide = 2 * math.sqrt(self.low_km / cube)
        s = wide * np.sinh(np.arcsinh(3 * t / (self.low_km * wide)) / 3)
        if self.alpha >= 0:
            return s
        root = math.sqrt(-self.alpha)
        far = np.arcsinh((root**3 / self.gm * np.abs(t) + root * np.abs(s)) / self.eccentricity)
        return np.copysign(np.minimum(np.abs(s), far / root), t)

    def at_true_anomaly(self, anomaly: Numbers) -> Numbers:
        """The s at a true anomaly from -pi to pi; on an open conic, within its arms."""
        sine, cosine = np.sin(anomaly / 2), np.cos(anomaly / 2)
        sine = sine * math.sqrt(self.low_km / (self.gm * (1 + self.eccentricity)))
        if self.alpha == 0:
            return 2 * sine / cosine
        root = math.sqrt(abs(self.alpha))
        half = np.arctan2 if self.alpha > 0 else _arctanh2
        return 2 / root * half(root * sine, cosine)


def _arctanh2(y: Numbers, x: Numbers) -> Numbers:
    return np.arctanh(y / x)
