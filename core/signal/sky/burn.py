"""The flight under thrust: two bodies and a constant acceleration, step by step."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.errors import SkyProblem
from core.signal.sky.hermite import Hermite
from core.signal.sky.vectors import Triple, length, plus, scaled, unit

State = tuple[Triple, Triple]
"""Position (km) and velocity (km/s) about the body."""

Pull = Callable[[float, float, float, float, float, float], Triple]
"""The acceleration at a position and a velocity."""

_TURN_RAD = 0.01
_SLOWING = 0.05
_MOST_STEPS = 20_000
_STOPPED_KM_S = 1e-6
_STOPS = "This burn brings the craft to a stop, and then 'along' has no direction"


@dataclass(frozen=True, slots=True)
class Burn:
    """An engine's push: so much along the velocity as it turns, or a vector that stays.

    One of the two is given, km/s. The acceleration is constant over the whole `lasts_s`; 0 is a
    push without duration.
    """

    lasts_s: float
    along_km_s: float | None = None
    vector_km_s: Triple | None = None

    def push(self, velocity: Triple) -> Triple:
        """The whole change of velocity, in the direction it has at this velocity."""
        if self.vector_km_s is not None:
            return self.vector_km_s
        if length(velocity) < _STOPPED_KM_S:
            raise SkyProblem(_STOPS)
        return scaled(unit(velocity), self.along_km_s or 0.0)


@dataclass(frozen=True, slots=True)
class Thrust:
    """What a burn makes of a state: what is flown while it lasts, and the state at cutoff."""

    during: Hermite | None
    cutoff_s: float
    cutoff: State


def fire(gm: float, ignition_s: float, state: State, burn: Burn) -> Thrust:
    """Fly a burn from a state at ignition.

    Runge-Kutta of order four, a step being a 600th of a turn at that height: within a centimetre.
    Raises SkyProblem where the craft is stopped, falls into the centre, or burns for too long.
    """
    if burn.lasts_s <= 0:
        position, velocity = state
        return Thrust(None, ignition_s, (position, plus(velocity, burn.push(velocity))))
    at_s, states = _steps(gm, state, burn)
    during = Hermite(
        ignition_s + np.array(at_s),
        np.array([position for position, _ in states]),
        np.array([velocity for _, velocity in states]),
    )
    return Thrust(during, ignition_s + burn.lasts_s, states[-1])


def _steps(gm: float, state: State, burn: Burn) -> tuple[list[float], list[State]]:
    """Seconds since ignition, and the state at each."""
    pull = _pull(gm, burn)
    at_s, states = [0.0], [state]
    while at_s[-1] < burn.lasts_s:
        left_s = burn.lasts_s - at_s[-1]
        turn_s = _TURN_RAD * math.sqrt(length(state[0]) ** 3 / gm)
        if len(at_s) > _MOST_STEPS or left_s > _MOST_STEPS * turn_s:
            raise SkyProblem("This burn goes on for too many revolutions to be computed")
        steps = math.ceil(left_s / min(turn_s, _slowing_s(burn, state[1])))
        state = _step(pull, state, left_s / steps)
        at_s.append(at_s[-1] + left_s / steps if steps > 1 else burn.lasts_s)
        states.append(state)
    return at_s, states


def _slowing_s(burn: Burn, velocity: Triple) -> float:
    """How long until a burn along the velocity has changed it by a small share."""
    hurry = abs(burn.along_km_s or 0.0) / burn.lasts_s
    return _SLOWING * max(length(velocity), _STOPPED_KM_S) / hurry if hurry > 0 else math.inf


def _pull(gm: float, burn: Burn) -> Pull:
    """The acceleration at a state: gravity and thrust. Written out, for it is asked most of all."""
    east, north, up = scaled(burn.vector_km_s or (0.0, 0.0, 0.0), 1 / burn.lasts_s)
    along = 0.0 if burn.vector_km_s is not None else (burn.along_km_s or 0.0) / burn.lasts_s

    def pull(x: float, y: float, z: float, u: float, v: float, w: float) -> Triple:
        square = x * x + y * y + z * z
        fall = -gm / (square * math.sqrt(square))
        if not along:
            return fall * x + east, fall * y + north, fall * z + up
        speed = math.sqrt(u * u + v * v + w * w)
        if speed < _STOPPED_KM_S:
            raise SkyProblem(_STOPS)
        push = along / speed
        return fall * x + push * u, fall * y + push * v, fall * z + push * w

    return pull


def _step(pull: Pull, state: State, step_s: float) -> State:
    """One step of Runge and Kutta."""
    (x, y, z), (u, v, w) = state
    half = step_s / 2
    a, b, c = pull(x, y, z, u, v, w)
    u2, v2, w2 = u + a * half, v + b * half, w + c * half
    a2, b2, c2 = pull(x + u * half, y + v * half, z + w * half, u2, v2, w2)
    u3, v3, w3 = u + a2 * half, v + b2 * half, w + c2 * half
    a3, b3, c3 = pull(x + u2 * half, y + v2 * half, z + w2 * half, u3, v3, w3)
    u4, v4, w4 = u + a3 * step_s, v + b3 * step_s, w + c3 * step_s
    a4, b4, c4 = pull(x + u3 * step_s, y + v3 * step_s, z + w3 * step_s, u4, v4, w4)
    part = step_s / 6
    return (
        (
            x + (u + 2 * (u2 + u3) + u4) * part,
            y + (v + 2 * (v2 + v3) + v4) * part,
            z + (w + 2 * (w2 + w3) + w4) * part,
        ),
        (
            u + (a + 2 * (a2 + a3) + a4) * part,
            v + (b + 2 * (b2 + b3) + b4) * part,
            w + (c + 2 * (c2 + c3) + c4) * part,
        ),
    )
