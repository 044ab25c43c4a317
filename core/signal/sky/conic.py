"""Two-body motion about a body, from a state: ellipse, parabola or hyperbola."""

import math

import numpy as np

from core.errors import SkyProblem
from core.signal.sky.kepler import Kepler, Numbers
from core.signal.sky.model import Body, Seconds, Vectors
from core.signal.sky.vectors import Triple, cross, dot, length, plus, scaled, unit

STEP_RAD = math.pi / 10
"""The grid's step: a twentieth of a turn, in true and in eccentric anomaly; at most a tenth of the
period, even at the far end of a long ellipse."""

_ROUND = 1e-10  # an eccentricity below this points nowhere
_STRAIGHT = 1e-12  # gm and position times this: an angular momentum that is rounding


class Conic:
    """A path of two bodies, through a state at `epoch_s`, from `begin_s` to `end_s`.

    `towards` and `ahead` are unit vectors to the low point and along the motion there. Raises
    SkyProblem where the state gives no orbit.
    """

    def __init__(
        self,
        centre: Body,
        gm: float,
        epoch_s: float,
        position: Triple,
        velocity: Triple,
        begin_s: float = -math.inf,
        end_s: float = math.inf,
    ) -> None:
        self.centre = centre
        self.begin_s = begin_s
        self.end_s = end_s
        across = cross(position, velocity)
        _check(gm, position, across)
        pull = gm / length(position)
        points = plus(
            scaled(position, (dot(velocity, velocity) - pull) / gm),
            velocity,
            -dot(position, velocity) / gm,
        )
        eccentricity = length(points)
        normal = unit(across)
        if eccentricity < _ROUND:
            points = position
        self.towards = unit(plus(points, normal, -dot(points, normal)))
        self.ahead = cross(normal, self.towards)
        self.kepler = Kepler(
            gm,
            dot(across, across) / gm / (1 + eccentricity),
            eccentricity,
            2 * pull - dot(velocity, velocity),
        )
        self.passage_s = epoch_s - self._since_low_s(position, velocity)
        self._axes = np.array([self.towards, self.ahead])

    def _since_low_s(self, position: Triple, velocity: Triple) -> float:
        """Seconds from the low point to the state; a long way out, the climb tells it best."""
        kepler = self.kepler
        climb = dot(position, velocity) / kepler.gm
        if kepler.alpha < 0:
            root = math.sqrt(-kepler.alpha)
            s = math.asinh(climb * root / kepler.eccentricity) / root
        elif kepler.alpha == 0:
            s = climb
        else:
            anomaly = math.atan2(dot(position, self.ahead), dot(position, self.towards))
            s = float(kepler.at_true_anomaly(np.array([anomaly]))[0])
        return float(kepler.time_s(np.array([s]))[0])

    @property
    def period_s(self) -> float:
        """The time of one revolution; infinite on an open conic."""
        return self.kepler.period_s

    @property
    def high_km(self) -> float:
        """Its high point from the centre; infinite on an open conic."""
        if self.kepler.alpha <= 0:
            return math.inf
        return 2 * self.kepler.gm / self.kepler.alpha - self.kepler.low_km

    def position_km(self, at_s: Seconds) -> Vectors:
        """The craft about the centre, also outside the span."""
        kepler = self.kepler
        _, u1, u2, _ = kepler.universal(kepler.solve(at_s - self.passage_s))
        flat = np.empty((len(at_s), 2))
        flat[:, 0] = kepler.low_km - kepler.gm * u2
        flat[:, 1] = kepler.along_km2_s * u1
        found: Vectors = flat @ self._axes
        return found

    def velocity_km_s(self, at_s: Seconds) -> Vectors:
        """How the craft moves about the centre."""
        kepler = self.kepler
        u0, u1, u2, _ = kepler.universal(kepler.solve(at_s - self.passage_s))
        distance_km = kepler.low_km + kepler.gm * kepler.eccentricity * u2
        flat = np.stack([-kepler.gm * u1, kepler.along_km2_s * u0], axis=1)
        found: Vectors = (flat / distance_km[:, None]) @ self._axes
        return found

    def state(self, at_s: float) -> tuple[Triple, Triple]:
        """Position and velocity at one instant."""
        at = np.array([at_s])
        x, y, z = map(float, self.position_km(at)[0])
        u, v, w = map(float, self.velocity_km_s(at)[0])
        return (x, y, z), (u, v, w)

    def grid_s(self, from_s: float, to_s: float) -> Seconds:
        """Instants that lie close where the craft turns fast, and both ends."""
        from_s, to_s = max(from_s, self.begin_s), min(to_s, self.end_s)
        if from_s > to_s:
            return np.empty(0)
        kepler = self.kepler
        if 0 < to_s - from_s < STEP_RAD * kepler.low_km**2 / kepler.along_km2_s:
            return np.array([from_s, to_s])  # not a step, even at the low point
        ends = np.array([from_s, to_s]) - self.passage_s
        if kepler.alpha > 0:
            first, last = np.round(ends / kepler.period_s)
            once = kepler.time_s(_nodes(kepler, math.pi / math.sqrt(kepler.alpha)))
            turns = np.arange(first, last + 1) * kepler.period_s
            since = (turns[:, None] + once[None, :]).ravel()
        else:
            since = kepler.time_s(_nodes(kepler, float(np.max(np.abs(kepler.solve(ends))))))
        inner = since[(since > ends[0]) & (since < ends[1])] + self.passage_s
        return np.unique(np.concatenate([[from_s], inner, [to_s]]))


def _nodes(kepler: Kepler, most: float) -> Numbers:
    """Values of s from -`most` to `most` at which a grid must look.

    By true anomaly, which is dense at the low point; by eccentric anomaly, dense elsewhere; and on
    long conics in steps that grow as they go, for what lies between the two.
    """
    arms = math.pi if kepler.alpha > 0 else math.acos(-1 / max(1.0, kepler.eccentricity))
    half: list[Numbers] = [kepler.at_true_anomaly(np.arange(0.0, arms * (1 - 1e-9), STEP_RAD))]
    if kepler.alpha != 0 and most > 0:
        steps = most * math.sqrt(abs(kepler.alpha)) / STEP_RAD
        half.append(np.arange(0.5, steps) * (most / steps))
    if kepler.eccentricity > 0.5:
        scale = math.sqrt(kepler.low_km / kepler.gm)
        count = math.asinh(most / scale) / STEP_RAD
        half.append(scale * np.sinh(np.arange(0.25, count) * STEP_RAD))
    known = np.concatenate(half)
    known = known[known <= most]
    return np.concatenate([-known[::-1], known])


def _check(gm: float, position: Triple, across: Triple) -> None:
    if not all(map(math.isfinite, (*position, *across))):
        raise SkyProblem("A position or velocity is no number one can reckon with")
    if dot(across, across) <= _STRAIGHT * gm * length(position):
        raise SkyProblem(
            "A craft that stands at the centre, or moves straight to or from it, has no orbit"
        )
