"""How a craft stands to those who listen: direction, distance, light time, and what hides it.

Light needs its time. The craft is looked at when it sent, a body that may hide it when it let the
light pass, the ground station when it hears; all three about the solar system's barycentre. This
is what others call the converged Newtonian light time. The bending of starlight by the Earth's
own motion (aberration) moves craft and limb alike and is left out.

Everything is asked for by the instant at which the craft *sends*: so each path is looked up once.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.knots import Array, Knots
from core.signal.sky.model import (
    LIGHT_KM_S,
    SPHERES,
    Body,
    Ephemeris,
    Observer,
    Path,
    Seconds,
    Vectors,
)
from core.signal.sky.timescale import tt_s

Index = NDArray[np.intp]

CLOSE_S = 1e-3
"""Light times are iterated until a step is shorter; the next would be ten thousand times less."""

ROUNDS = 6


@dataclass(frozen=True, slots=True)
class Light:
    """How far away a craft is, and how long its signal has been under way when it is heard."""

    distance_km: float
    light_time_s: float


@dataclass(frozen=True, slots=True)
class Look:
    """From observers to a craft, one line each. `known` is False where the path has no position.

    `who` is an observer's place among the sites, `here_km` where it is about the barycentre when it
    hears, `up` its zenith.
    """

    who: Index
    sent_s: Seconds
    heard_s: Seconds
    ray_km: Vectors
    distance_km: Array
    here_km: Vectors
    up: Vectors
    known: NDArray[np.bool_]

    def light_time_s(self) -> Array:
        """How long the light was under way; zeros in a geometric sky."""
        return self.heard_s - self.sent_s

    def height_km(self) -> Array:
        """How far the craft is along the zenith."""
        return _dot(self.ray_km, self.up)

    def elevation_rad(self) -> Array:
        """The elevation above the observer's horizon, without refraction."""
        return np.arcsin(self.height_km() / self.distance_km)


class Sky:
    """The bodies, and the ground stations that listen; what moves smoothly is kept in knots.

    Keep one for as long as the stations are the same. `light_time` False gives geometric sights:
    everything at one instant. Not for several threads at once.
    """

    def __init__(
        self, ephemeris: Ephemeris, sites: Mapping[str, Observer], *, light_time: bool = True
    ) -> None:
        self.sites = dict(sites)
        self.light_time = light_time
        self._ephemeris = ephemeris
        self._bodies = {body: Knots(partial(self._body, body)) for body in Body}
        self._observers = Knots(self._listeners)

    def reach(self, path: Path, from_s: float, to_s: float) -> None:
        """See to it that a path and what may hide it can be looked at, by instants of sending."""
        far_s = self.way_s(path, to_s)
        for body in {path.centre, Body.MOON}:
            self._bodies[body].reach(from_s - far_s, to_s + far_s)
        self._observers.reach(from_s, to_s + far_s)

    def way_s(self, path: Path, heard_s: float) -> float:
        """A little more than the light time to any observer; zero in a geometric sky."""
        if not self.light_time:
            return 0.0
        at_s = np.array([min(max(heard_s, path.begin_s), path.end_s)])
        away_km = _far_km(path.position_km(at_s))
        if path.centre is not Body.EARTH:
            away_km += _far_km(self._ephemeris.from_earth_km(path.centre, at_s))
        return away_km / LIGHT_KM_S * 1.01 + 1.0

    def look(self, path: Path, sent_s: Seconds, who: Index) -> Look:
        """From observers (by their place among the sites) to what the craft sent at instants.

        The instants must be within reach.
        """
        return self._look(*self._craft(path, sent_s), sent_s, who)

    def sweep(self, path: Path, sent_s: Seconds) -> Look:
        """From every observer at each of the same instants, one observer after the other."""
        count = len(self.sites)
        craft_km, known = self._craft(path, sent_s)
        return self._look(
            np.tile(craft_km, (count, 1)),
            np.tile(known, count),
            np.tile(sent_s, count),
            np.repeat(np.arange(count), len(sent_s)),
        )

    def _craft(self, path: Path, sent_s: Seconds) -> tuple[Vectors, NDArray[np.bool_]]:
        """The craft about the barycentre, and where it is known; elsewhere its body instead."""
        craft_km = path.position_km(sent_s)
        known = np.isfinite(craft_km[:, 0])
        if not known.all():
            craft_km = np.where(known[:, None], craft_km, 0.0)
        return craft_km + self._bodies[path.centre].at(sent_s), known

    def _look(
        self, craft_km: Vectors, known: NDArray[np.bool_], sent_s: Seconds, who: Index
    ) -> Look:
        heard_s = sent_s
        for _ in range(ROUNDS):
            observer = self._observers.at(heard_s, who)
            ray_km = craft_km - observer[:, :3]
            distance_km = np.sqrt(_dot(ray_km, ray_km))
            if not self.light_time:
                break
            before_s, heard_s = heard_s, sent_s + distance_km / LIGHT_KM_S
            if np.abs(heard_s - before_s).max(initial=0.0) < CLOSE_S:
                break
        here_km, up = observer[:, :3], observer[:, 3:]
        return Look(who, sent_s, heard_s, ray_km, distance_km, here_km, up, known)

    def heard(self, path: Path, heard_s: Seconds, who: Index) -> Look:
        """The same, by the instants of hearing."""
        sent_s = heard_s
        self.reach(path, float(heard_s.min()) - self.way_s(path, heard_s[0]), float(heard_s.max()))
        for _ in range(ROUNDS):
            look = self.look(path, sent_s, who)
            late_s = look.heard_s - heard_s
            if np.abs(late_s).max() < CLOSE_S * CLOSE_S:
                break
            sent_s = sent_s - late_s
        return look

    def margin_km(self, look: Look, body: Body) -> Array:
        """How far the line to the craft passes above a body; below zero it is hidden.

        The distance of the body's centre from the stretch between observer and craft, less the
        body's radius. Smooth where the craft passes in front.
        """
        knots = self._bodies[body]
        at_s = look.sent_s
        for _ in range(ROUNDS):
            centre_km = knots.at(at_s) - look.here_km
            if not self.light_time:
                break
            before_s = at_s
            at_s = look.heard_s - np.sqrt(_dot(centre_km, centre_km)) / LIGHT_KM_S
            if np.abs(at_s - before_s).max(initial=0.0) < CLOSE_S:
                break
        ray_km = look.ray_km
        part = _dot(centre_km, ray_km) / (look.distance_km * look.distance_km)
        off_km = centre_km - np.clip(part, 0.0, 1.0)[:, None] * ray_km
        return np.sqrt(_dot(off_km, off_km)) - SPHERES[body].radius_km

    def light(self, path: Path, ground: str, heard_ms: int) -> Light | None:
        """Distance and light time of what one site hears at an instant; None off the path."""
        who = np.array([list(self.sites).index(ground)])
        heard_s = tt_s(np.array([heard_ms], dtype=np.float64))
        look = self.heard(path, heard_s, who)
        if not (look.known[0] and path.begin_s <= look.sent_s[0] <= path.end_s):
            return None
        return Light(float(look.distance_km[0]), float(look.distance_km[0]) / LIGHT_KM_S)

    def _body(self, body: Body, at_s: Seconds) -> Array:
        """A body about the barycentre, or about the Earth if all is looked at at one instant."""
        about_km = np.zeros((len(at_s), 3))
        if self.light_time:
            about_km = about_km + self._ephemeris.earth_km(at_s)
        if body is not Body.EARTH:
            about_km = about_km + self._ephemeris.from_earth_km(body, at_s)
        return about_km[None]

    def _listeners(self, at_s: Seconds) -> Array:
        """Every observer's place and zenith: (sites, n, 6)."""
        earth_km = self._body(Body.EARTH, at_s)[0]
        return np.array(
            [
                np.hstack((earth_km + site.position_km(at_s), site.up(at_s)))
                for site in self.sites.values()
            ]
        )


def _far_km(one: Vectors) -> float:
    """The length of a single vector; zero where it is not known."""
    x, y, z = one[0].tolist()
    return 0.0 if math.isnan(x) else math.sqrt(x * x + y * y + z * z)


def _dot(a: Vectors, b: Vectors) -> Array:
    product: Array = np.einsum("ij,ij->i", a, b)
    return product
