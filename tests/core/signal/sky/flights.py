"""Paths, sites and skies that several tests of the search share; all invented."""

import math
from dataclasses import dataclass, field

import numpy as np

from core.signal.seen import Seen
from core.signal.sky.elements import Elements
from core.signal.sky.ephemeris import Kernel
from core.signal.sky.model import SPHERES, Body, Ephemeris, Observer, Path, Seconds, Vectors
from core.signal.sky.orbit import Orbit
from core.signal.sky.sites import Geocentre, Site
from core.signal.sky.timescale import utc_ms
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms
from tests.core.signal.sky.toolkit import ASSET, Span

START_MS = rfc3339_to_ms("2031-05-14T18:00:00Z")
START_S = tt_s_of_utc_ms(START_MS)
DAY_MS = 86_400_000
NAUTICAL_MILE_KM = 1.852

KERNEL = Kernel(ASSET)


def site(latitude_deg: float, longitude_deg: float, mask_deg: float = 6.0) -> Site:
    """A site half a kilometre up."""
    return Site(
        math.radians(latitude_deg), math.radians(longitude_deg), 0.5, math.radians(mask_deg)
    )


SITES: dict[str, Observer] = {
    "west": site(34.0, -117.0),
    "middle": site(41.0, -3.0),
    "east": site(-34.0, 148.0),
}
CENTRE: dict[str, Observer] = {"earth": Geocentre()}


def orbit(
    body: Body,
    altitude_km: float,
    eccentricity: float = 0.0,
    *angles_deg: float,
    begin_s: float = -math.inf,
    end_s: float = math.inf,
) -> Orbit:
    """An orbit by its lowest altitude; inclination, node, argument, mean anomaly in degrees."""
    low_km = SPHERES[body].radius_km + altitude_km
    elements = Elements(low_km, eccentricity, *(math.radians(angle) for angle in angles_deg))
    return Orbit(body, elements, START_S, begin_s=begin_s, end_s=end_s)


LOW_LUNAR = orbit(Body.MOON, 60 * NAUTICAL_MILE_KM, 0.0, 168.0, 200.0)


@dataclass(slots=True)
class Still:
    """A craft that stays where it is about a body, and is looked at now and then."""

    centre: Body
    place_km: tuple[float, float, float]
    begin_s: float = -math.inf
    end_s: float = math.inf
    lost_s: tuple[float, float] = (math.inf, math.inf)
    step_s: float = 300.0

    def position_km(self, at_s: Seconds) -> Vectors:
        """The same place throughout; NaN while it is lost."""
        found = np.tile(np.array(self.place_km), (len(at_s), 1))
        found[(at_s >= self.lost_s[0]) & (at_s < self.lost_s[1])] = np.nan
        return found

    def grid_s(self, from_s: float, to_s: float) -> Seconds:
        """Even steps, and both ends."""
        return np.unique(np.append(np.arange(from_s, to_s, self.step_s), to_s))


@dataclass(frozen=True, slots=True)
class StillSky:
    """Bodies that do not move, about an Earth that does not either."""

    places_km: dict[Body, tuple[float, float, float]] = field(
        default_factory=lambda: {Body.MOON: (384_400.0, 0.0, 0.0), Body.MARS: (2e8, 0.0, 0.0)}
    )

    def from_earth_km(self, body: Body, at_s: Seconds) -> Vectors:
        """Where the body was put."""
        return np.tile(np.array(self.places_km[body]), (len(at_s), 1))

    def earth_km(self, at_s: Seconds) -> Vectors:
        """At the barycentre."""
        return np.zeros((len(at_s), 3))


def plainly_seen(path: Path, sky: Ephemeris, observer: Observer, at_s: Seconds) -> np.ndarray:
    """Whether the observer reaches the craft at each instant, all at once and by angles.

    An answer of its own, for comparison: no margins, no light time, no search.
    """
    here_km = observer.position_km(at_s)
    ray_km = path.position_km(at_s) - here_km
    if path.centre is not Body.EARTH:
        ray_km = ray_km + sky.from_earth_km(path.centre, at_s)
    far_km = np.linalg.norm(ray_km, axis=1)
    seen = np.ones(len(at_s), dtype=bool)
    if observer.mask_rad is not None:
        sine = np.sum(ray_km * observer.up(at_s), axis=1) / far_km
        seen &= np.arcsin(sine) >= observer.mask_rad
    for body in (Body.MOON, Body.MARS):
        body_km = sky.from_earth_km(body, at_s) - here_km
        away_km = np.linalg.norm(body_km, axis=1)
        across = np.linalg.norm(np.cross(body_km, ray_km), axis=1)
        apart_rad = np.arctan2(across, np.sum(body_km * ray_km, axis=1))
        radius_km = SPHERES[body].radius_km
        chord_km = radius_km**2 - (away_km * np.sin(apart_rad)) ** 2
        face_km = away_km * np.cos(apart_rad) - np.sqrt(np.maximum(chord_km, 0.0))
        seen &= ~((apart_rad < np.arcsin(radius_km / away_km)) & (far_km > face_km))
    return seen


def edges_ms(found: Seen, ground: str) -> list[int]:
    """All ends of a site's sightings in turn."""
    mine = [one for one in found.sightings if one.ground == ground]
    return [edge for one in mine for edge in (one.from_ms, one.to_ms)]


def without(hidden: list[Span], span_s: Span) -> list[Span]:
    """What is left of a span."""
    bounds = [span_s[0], *(edge for stretch in hidden for edge in stretch), span_s[1]]
    return list(zip(bounds[::2], bounds[1::2], strict=True))


def shared_ms(one: list[Span], other: list[Span]) -> list[float]:
    """The ends, in turn, of what two lists of spans have in common."""
    common = [(max(a[0], b[0]), min(a[1], b[1])) for a in one for b in other]
    ends = np.array(sorted(span for span in common if span[0] < span[1]))
    return [float(edge) for edge in utc_ms(ends.ravel())]
