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
from core.signal.sky.model import SPHERES, Body, Observer, Path, Seconds
from core.signal.sky.search import Index
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

NUDGE_S = 10.0
"""How far to both sides of an edge its slope is taken."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One margin for each site. `relief`, in the margin's own unit: how far it may be off."""

    cause: str
    of: Callable[[Look, Index], Array]
    relief: Array
    body: Body | None = None


class Margins:
    """All margins of a path over the sites of a sky, as rows: site by site, kind by kind."""

    def __init__(self, sky: Sky, path: Path, grid_s: Seconds) -> None:
        self._sky = sky
        self._path = path
        self.grid_s = grid_s
        count = len(sky.sites)
        sky.reach(path, grid_s[0], grid_s[-1])
        look = sky.sweep(path, grid_s)
        bodies = _hiding(path, look)
        sky.reach(path, grid_s[0], grid_s[-1], *bodies)
        self.kinds = [_elevation(list(sky.sites.values()))]
        self.kinds += [_occultation(sky, body, count) for body in bodies]
        if not look.known.all():
            self.kinds.append(Kind("", _known, np.zeros(count)))
        who = np.repeat(np.arange(count), len(grid_s))
        values = np.array([_valued(kind, look, who) for kind in self.kinds])
        self.values = values.reshape(-1, count, len(grid_s)).swapaxes(0, 1)
        """Shape (sites, kinds, instants)."""
        self.span_s = look.heard_s.reshape(count, -1)[:, [0, -1]]
        """When each site hears the first and the last of it."""

    def ask(self, at_s: Seconds, row: Index) -> Array:
        """The values of rows at instants of sending."""
        return self._values(at_s, row)[0]

    def edges(self, at_s: Seconds, row: Index) -> tuple[Seconds, Array]:
        """When zeros of rows are heard, and by how many seconds they may be off: the gives."""
        before_s = np.maximum(at_s - NUDGE_S, self.grid_s[0])
        after_s = np.minimum(at_s + NUDGE_S, self.grid_s[-1])
        every = np.concatenate((at_s, before_s, after_s))
        values, look = self._values(every, np.tile(row, 3))
        _, before, after = values.reshape(3, -1)
        site, kind = np.divmod(row, len(self.kinds))
        relief = np.array([one.relief for one in self.kinds])[kind, site]
        give_s = _give(before_s - at_s, after_s - at_s, before, after, relief)
        whole_s = self.grid_s[-1] - self.grid_s[0]
        return look.heard_s[: len(at_s)], np.minimum(give_s, whole_s)

    def _values(self, at_s: Seconds, row: Index) -> tuple[Array, Look]:
        who, number = np.divmod(row, len(self.kinds))
        look = self._sky.look(self._path, at_s, who)
        values = np.empty(len(at_s))
        for place, kind in enumerate(self.kinds):
            mine = number == place
            if mine.any():
                values[mine] = _valued(kind, look, who)[mine]
        return values, look


def _hiding(path: Path, look: Look) -> list[Body]:
    """The bodies the path may pass behind; the Earth is the sites' own horizon."""
    if path.centre is Body.MARS:
        return [Body.MARS, Body.MOON]
    if path.centre is Body.MOON or look.distance_km.max() > NEAR_MOON_KM:
        return [Body.MOON]
    return []


def _elevation(sites: list[Observer]) -> Kind:
    """The sine of the elevation above that of the mask; always above where there is no mask."""
    masks = np.array([math.nan if s.mask_rad is None else s.mask_rad for s in sites])
    sines = np.where(np.isnan(masks), -2.0, np.sin(masks))
    relief = np.nan_to_num(np.cos(masks)) * SKYLINE_RAD
    return Kind(NO_STATION, lambda look, who: look.sine() - sines[who], relief)


def _occultation(sky: Sky, body: Body, count: int) -> Kind:
    relief = np.full(count, SPHERES[body].relief_km)
    return Kind(BEHIND[body], lambda look, _: sky.margin_km(look, body), relief, body)


def _known(look: Look, _: Index) -> Array:
    return np.where(look.known, 1.0, -1.0)


def _valued(kind: Kind, look: Look, who: Index) -> Array:
    """A margin; where the path is not known all but the margin that says so are above zero."""
    values = kind.of(look, who)
    return values if kind.of is _known else np.where(look.known, values, 1.0)


def _give(before_s: Array, after_s: Array, before: Array, after: Array, relief: Array) -> Array:
    """How far a zero moves if the margin is up to `relief` more or less, in seconds.

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
    for off in (relief, -relief):
        reached = slope * slope + 2 * curve * off
        root = np.abs(slope) + np.sqrt(np.maximum(reached, 0.0))
        turned = np.abs(slope) / np.where(curve == 0, math.inf, np.abs(curve))
        step = 2 * np.abs(off) / np.where(root == 0, math.inf, root)
        moved = np.maximum(moved, np.where(reached >= 0, step, turned))
    return moved
