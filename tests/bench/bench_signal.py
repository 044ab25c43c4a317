"""Contacts out of geometry, beside SPICE and skyfield: the same path, stations and edges.

    python3 tasks.py bench signal

A low orbit about the Moon, ten days, three ground stations; a contact is above the mask and not
behind the Moon. Both others are told where the craft is by our own path, and SPICE also where the
stations are. All is looked at at one instant, as skyfield's search does. Then what the board asks
for when a burn slips: the next 24 hours of a path that is new, with light time.
"""

import math
import sys
import tempfile
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from time import process_time
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

import numpy as np
from numpy.typing import NDArray
from skyfield.api import load, load_file, wgs84
from skyfield.searchlib import find_discrete
from skyfield.vectorlib import VectorFunction

from core.signal.sky.model import SPHERES, Body
from core.signal.sky.sight import Sky
from core.signal.sky.sightings import seen, sightings
from core.signal.sky.sites import Site
from core.signal.sky.timescale import utc_ms
from tests.core.signal.sky.flights import (
    DAY_MS,
    KERNEL,
    LOW_LUNAR,
    NAUTICAL_MILE_KM,
    SITES,
    START_MS,
    START_S,
    edges_ms,
    orbit,
    shared_ms,
    without,
)
from tests.core.signal.sky.toolkit import ASSET, Toolkit, toolkit

DAYS = 10
SPAN = (START_S, START_S + DAYS * 86_400.0)
SPICE_STEP_S = 600.0
SKYFIELD_STEP_S = 300.0  # with 600 s it misses short contacts
LEAST_RATIO = 12
AU_KM = 149_597_870.7
J2000_JD = 2451545.0

Edges = Mapping[str, list[float]]


def best(work: Callable[[], object], times: int) -> float:
    """The shortest of so many runs, in milliseconds of the processor, whatever else it does."""
    shortest = math.inf
    for _ in range(times):
        begun = process_time()
        work()
        shortest = min(shortest, process_time() - begun)
    return shortest * 1000


def ours() -> Edges:
    """The edges of each station, from nothing but the ephemeris in memory."""
    end_ms = START_MS + DAYS * DAY_MS
    found = sightings(LOW_LUNAR, KERNEL, SITES, START_MS, end_ms, light_time=False)
    return {ground: [float(edge) for edge in edges_ms(found, ground)] for ground in SITES}


def with_spice(spice: Toolkit) -> Edges:
    """The same by SPICE's searches for occultations and for separations from the zenith."""
    edges = {}
    for ground, place in SITES.items():
        assert place.mask_rad is not None
        high = spice.high(ground, place.mask_rad, SPICE_STEP_S)
        hidden = spice.hidden(Body.MOON, ground, SPICE_STEP_S)
        edges[ground] = shared_ms(without(hidden, SPAN), high)
    return edges


class Craft(VectorFunction):  # type: ignore[misc] # skyfield ships no types
    """Our path, as skyfield takes a body's place about another."""

    center = 301
    target = -900

    def _at(self, t: Any) -> tuple[NDArray[np.float64], NDArray[np.float64], None, None]:
        at_s = (np.atleast_1d(t.tt) - J2000_JD) * 86_400
        place_au = LOW_LUNAR.position_km(at_s).T / AU_KM
        return place_au, np.zeros_like(place_au), None, None


class Skyfield:
    """What skyfield reads once, and then is asked for."""

    def __init__(self) -> None:
        self._bodies = load_file(str(ASSET))
        self._scale = load.timescale(builtin=True)
        self._span = [self._scale.tt_jd(J2000_JD + at_s / 86_400) for at_s in SPAN]
        self._craft = self._bodies["moon"] + Craft()

    def edges(self) -> Edges:
        """The edges of each station, by its search for changes of a discrete value."""
        return {
            ground: self._edges(place) for ground, place in SITES.items() if isinstance(place, Site)
        }

    def _edges(self, place: Site) -> list[float]:
        degrees = math.degrees(place.latitude_rad), math.degrees(place.longitude_rad)
        spot = wgs84.latlon(*degrees, elevation_m=place.height_km * 1000)
        observer = self._bodies["earth"] + spot
        to_craft, to_moon = self._craft - observer, self._bodies["moon"] - observer
        mask_deg = math.degrees(place.mask_rad)
        radius_km = SPHERES[Body.MOON].radius_km

        def reached(t: Any) -> NDArray[np.bool_]:
            ray, moon = to_craft.at(t), to_moon.at(t)
            away_km, far_km = moon.distance().km, ray.distance().km
            apart = ray.separation_from(moon).radians
            behind = (apart < np.arcsin(radius_km / away_km)) & (far_km > away_km * np.cos(apart))
            found: NDArray[np.bool_] = (ray.altaz()[0].degrees >= mask_deg) & ~behind
            return found

        reached.step_days = SKYFIELD_STEP_S / 86_400  # type: ignore[attr-defined]
        at, after = find_discrete(*self._span, reached)
        found = [float(ms) for ms in utc_ms((at.tt - J2000_JD) * 86_400)]
        first, last = utc_ms(np.array(SPAN)).tolist()
        before = [first] if not after[0] else []
        return [*before, *found, *([last] if after[-1] else [])]


def main() -> int:
    """Print both tables; 1 if the edges differ, or SPICE is less than 12 times slower."""
    print(f"{DAYS} days, {len(SITES)} stations, a low orbit about the Moon; milliseconds of one")
    print("processor, the shortest of several runs; the largest difference of any edge")
    mine = ours()
    count = sum(len(edges) for edges in mine.values())
    took = best(ours, 10)
    print(f"{'':>12}{'ms':>10}{'ratio':>9}{'edges':>8}{'difference':>14}")
    print(f"{'Limbwatch':>12}{took:>10.1f}{'':>9}{count:>8}")
    with (
        tempfile.TemporaryDirectory() as folder,
        toolkit(Path(folder), LOW_LUNAR, SITES, SPAN) as spice,
    ):
        with_theirs = best(lambda: with_spice(spice), 2)
        off_ms = tell("SPICE", with_theirs, took, mine, with_spice(spice))
    skyfield = Skyfield()
    tell("skyfield", best(skyfield.edges, 1), took, mine, skyfield.edges())
    slipped()
    return 0 if off_ms < 50 and with_theirs >= LEAST_RATIO * took else 1


def tell(name: str, theirs: float, took: float, mine: Edges, edges: Edges) -> float:
    """Print a line of the table; gives the largest difference of an edge in ms."""
    alike = all(len(mine[ground]) == len(edges[ground]) for ground in mine)
    off_ms = math.inf
    if alike:
        off_ms = max(float(np.abs(np.subtract(mine[g], edges[g])).max()) for g in mine)
    count = sum(len(one) for one in edges.values())
    print(f"{name:>12}{theirs:>10.1f}{f'x {theirs / took:.0f}':>9}{count:>8}{off_ms:>11.1f} ms")
    return off_ms


def slipped() -> None:
    """Print how long the next 24 hours take after a slip."""
    sky = Sky(KERNEL, SITES)
    paths = {
        "round, 60 nautical miles": LOW_LUNAR,
        "58 to 170 nautical miles": orbit(
            Body.MOON, 58 * NAUTICAL_MILE_KM, 0.0545, 168.0, 200.0, 30.0
        ),
        "30 by 9000 km": orbit(Body.MOON, 30.0, 0.7, 80.0, 30.0, 100.0),
        "about the Earth, 420 km": orbit(Body.EARTH, 420.0, 0.001, 51.6, 30.0),
        "about Mars, 400 km": orbit(Body.MARS, 400.0, 0.01, 93.0, 30.0),
    }
    print()
    print("a slipped burn: the next 24 hours anew, the same stations, with light time")
    print(f"{'path':>28}{'ms':>8}{'contacts':>10}")
    for name, path in paths.items():
        again = partial(seen, sky, path, START_MS, START_MS + DAY_MS)
        took = best(again, 30)
        print(f"{name:>28}{took:>8.1f}{len(again().sightings):>10}")


if __name__ == "__main__":
    sys.exit(main())
