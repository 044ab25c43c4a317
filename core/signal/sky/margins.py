"""What must be above zero for a station to reach a craft, each a function of time to be searched.

The elevation above a station's mask; the height of the line of sight above every body that may
hide the craft; and that the path is known at all.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.signal.cuts import NO_STATION
from core.signal.sky.knots import Array
from core.signal.sky.model import LIGHT_KM_S, SPHERES, Body, Observer, Path, Seconds
from core.signal.sky.search import Changes, Index, between
from core.signal.sky.sight import Look, Sky

BEHIND = {
    Body.EARTH: "behind the Earth",
    Body.MOON: "behind the Moon",
    Body.MARS: "behind Mars",
}

SKYLINE_RAD = math.radians(0.25)
"""How far a station's skyline may differ from its mask: hills, and air that bends (own choice)."""

NEAR_MOON_KM = 340_000.0
"""Nothing nearer to an observer is behind the Moon, whose perigee is at 356,400 km."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One margin. `relief_km`: by how much it may be off, for observers so far from the craft."""

    cause: str
    margin_km: Callable[[Look], Array]
    relief_km: Callable[[Index, Array], Array]


class Margins:
    """All margins of a path over the sites of a sky, as rows: site by site, kind by kind.

    `values` are those on the grid, shape (sites, kinds, instants). `span_s` is when each site hears
    the first and the last of it.
    """

    def __init__(self, sky: Sky, path: Path, grid_s: Seconds) -> None:
        self._sky = sky
        self._path = path
        self.grid_s = grid_s
        sky.reach(path, grid_s[0], grid_s[-1])
        look = sky.sweep(path, grid_s)
        self.kinds = [_elevation(list(sky.sites.values()))]
        self.kinds += [_occultation(sky, body) for body in _hiding(path, look)]
        self._all_known = bool(look.known.all())
        if not self._all_known:
            self.kinds.append(Kind("", _known, _exactly))
        values = np.array([_margin(kind, look) for kind in self.kinds])
        self.values = values.reshape(len(self.kinds), -1, len(grid_s)).swapaxes(0, 1)
        self.span_s = look.heard_s.reshape(-1, len(grid_s))[:, [0, -1]]
        self._far_km = look.distance_km.reshape(-1, len(grid_s))

    def ask(self, at_s: Seconds, row: Index) -> Array:
        """The values of rows at instants of sending."""
        return self._look(at_s, row)[1]

    def edges(self, found: Changes) -> tuple[Seconds, Array]:
        """When changes of rows are heard, and by how many seconds they may be off: the gives."""
        who, number = np.divmod(found.row, len(self.kinds))
        far_km, heard_s = self._heard(found.at_s, who)
        relief_km = np.array([kind.relief_km(who, far_km) for kind in self.kinds])
        before_s, after_s = found.beside_s - found.at_s
        before, after = found.beside
        relief_km = relief_km[number, np.arange(len(who))]
        give_s = _give(before_s, after_s, before, after, relief_km)
        return heard_s, np.minimum(give_s, self.grid_s[-1] - self.grid_s[0])

    def _heard(self, at_s: Seconds, who: Index) -> tuple[Array, Seconds]:
        """How far the craft is from observers at instants of sending, and when it is heard.

        A path without holes is smooth: its distances on the grid give light's way to less than a
        tenth of a millisecond.
        """
        if not self._all_known:
            look = self._sky.look(self._path, at_s, who)
            return look.distance_km, look.heard_s
        far_km = between(self.grid_s, self._far_km, who, at_s)
        return far_km, at_s + far_km / LIGHT_KM_S if self._sky.light_time else at_s

    def _look(self, at_s: Seconds, row: Index) -> tuple[Look, Array]:
        who, number = np.divmod(row, len(self.kinds))
        look = self._sky.look(self._path, at_s, who)
        values = np.empty(len(at_s))
        for place, kind in enumerate(self.kinds):
            mine = number == place
            if mine.any():
                values[mine] = _margin(kind, look)[mine]
        return look, values


def _hiding(path: Path, look: Look) -> list[Body]:
    """The bodies the path may pass behind; the Earth is the sites' own horizon."""
    if path.centre is Body.MARS:
        return [Body.MARS, Body.MOON]
    if path.centre is Body.MOON or look.distance_km.max() > NEAR_MOON_KM:
        return [Body.MOON]
    return []


def _elevation(sites: list[Observer]) -> Kind:
    """The height above the cone of the mask, along the zenith; always above without a mask.

    Not the angle: that has a peak where a craft passes overhead, which a grid may miss.
    """
    masks = [site.mask_rad for site in sites]
    sines = np.array([-1.0 if mask is None else math.sin(mask) for mask in masks])
    skyline = np.array([0.0 if mask is None else math.cos(mask) * SKYLINE_RAD for mask in masks])
    return Kind(
        NO_STATION,
        lambda look: look.height_km() - sines[look.who] * look.distance_km,
        lambda who, far_km: skyline[who] * far_km,
    )


def _occultation(sky: Sky, body: Body) -> Kind:
    relief_km = SPHERES[body].relief_km
    return Kind(
        BEHIND[body],
        lambda look: sky.margin_km(look, body),
        lambda who, _: np.full(len(who), relief_km),
    )


def _known(look: Look) -> Array:
    return np.where(look.known, 1.0, -1.0)


def _exactly(who: Index, _far_km: Array) -> Array:
    return np.zeros(len(who))


def _margin(kind: Kind, look: Look) -> Array:
    """A margin; where the path is not known all but the margin that says so are above zero."""
    margin_km = kind.margin_km(look)
    return margin_km if kind.margin_km is _known else np.where(look.known, margin_km, 1.0)


def _give(before_s: Array, after_s: Array, before: Array, after: Array, relief_km: Array) -> Array:
    """How far a zero moves if the margin is up to `relief_km` more or less, in seconds.

    From the parabola through the zero and a value to each side (seconds from the zero, not above
    and not below it). Where it does not reach that far, as in a graze, to its vertex: that is
    half the stretch that the zero begins or ends.
    """
    sided = (before_s < 0) & (after_s > 0)
    rise = after / np.where(after_s > 0, after_s, math.inf)
    fall = before / np.where(before_s < 0, before_s, -math.inf)
    curve = np.where(sided, 2 * (rise - fall) / np.where(sided, after_s - before_s, 1.0), 0.0)
    slope = np.where(sided, rise - curve * after_s / 2, rise + fall)
    moved = np.zeros(len(slope))
    for off in (relief_km, -relief_km):
        reached = slope * slope + 2 * curve * off
        root = np.abs(slope) + np.sqrt(np.maximum(reached, 0.0))
        turned = np.abs(slope) / np.where(curve == 0, math.inf, np.abs(curve))
        step = 2 * np.abs(off) / np.where(root == 0, math.inf, root)
        moved = np.maximum(moved, np.where(reached >= 0, step, turned))
    return moved
