"""An arrival: the path with the burn, and the path as if there were none."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.burn import Burn, fire
from core.signal.sky.conic import Conic
from core.signal.sky.hermite import Hermite
from core.signal.sky.model import SPHERES, Body, Seconds, Vectors
from core.signal.sky.vectors import Triple


class Burned:
    """A coast, a burn, and the coast after it."""

    def __init__(self, before: Conic, ignition_s: float, burn: Burn) -> None:
        gm = before.kepler.gm
        thrust = fire(gm, ignition_s, before.state(ignition_s), burn)
        self.centre = before.centre
        self.begin_s, self.end_s = before.begin_s, before.end_s
        self.before = before
        self.after = Conic(before.centre, gm, thrust.cutoff_s, *thrust.cutoff)
        self.ignition_s, self.cutoff_s = ignition_s, thrust.cutoff_s
        self._during = thrust.during

    def position_km(self, at_s: Seconds) -> Vectors:
        """The craft about the body."""
        if len(at_s) and at_s.min() >= self.cutoff_s:
            return self.after.position_km(at_s)
        if len(at_s) and at_s.max() < self.ignition_s:
            return self.before.position_km(at_s)
        found = np.full((len(at_s), 3), np.nan)
        early = at_s < self.ignition_s
        late = at_s >= self.cutoff_s
        parts: tuple[tuple[NDArray[np.bool_], Conic | Hermite | None], ...] = (
            (early, self.before),
            (~early & ~late, self._during),
            (late, self.after),
        )
        for here, part in parts:
            if part is not None and np.any(here):
                found[here] = part.position_km(at_s[here])
        return found

    def grid_s(self, from_s: float, to_s: float) -> Seconds:
        """The grids of its three parts, with ignition and cutoff."""
        from_s, to_s = max(from_s, self.begin_s), min(to_s, self.end_s)
        if from_s > to_s:
            return np.empty(0)
        parts = [np.array([self.ignition_s, self.cutoff_s])]
        parts += [self.before.grid_s(from_s, min(to_s, self.ignition_s))]
        parts += [self.after.grid_s(max(from_s, self.cutoff_s), to_s)]
        if self._during is not None:
            parts.append(self._during.grid_s())
        all_s = np.concatenate(parts)
        inner = all_s[(all_s > from_s) & (all_s < to_s)]
        return np.unique(np.concatenate([[from_s], inner, [to_s]]))


@dataclass(frozen=True, slots=True)
class Arrival:
    """Both ways an arrival may go, and when the burn begins and ends, UTC ms."""

    burned: Burned
    without: Conic
    ignition_ms: int
    cutoff_ms: int


def approach(
    centre: Body,
    epoch_s: float,
    position: Triple,
    velocity: Triple,
    begin_s: float = -math.inf,
    end_s: float = math.inf,
) -> Conic:
    """The way in, from a state on the axes of the ICRF at the epoch."""
    gm = SPHERES[centre].gm_km3_s2
    return Conic(centre, gm, epoch_s, position, velocity, begin_s, end_s)
