"""The same questions put to JPL's toolkit SPICE: paths and sites are handed over as its kernels.

So that only the search is compared, the toolkit is told where the sites are and looks at bodies as
spheres of our own radii. A zenith is a second craft that hovers 100 km above its site.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import spiceypy

from core.signal.sky.conic import Conic
from core.signal.sky.model import SPHERES, Body, Observer, Vectors

ASSET = Path(__file__).parents[4] / "assets" / "ephemeris" / "de440-2020-2040.bsp"
NUMBERS = {Body.EARTH: 399, Body.MOON: 301, Body.MARS: 499}
CRAFT = -900
SITE = -910
ZENITH = -920
ZENITH_KM = 100.0
STEP_S = 300.0
DEGREE = 11

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Toolkit:
    """SPICE, loaded with one craft and some sites, over a span of TT (TDB) seconds past J2000."""

    sites: tuple[str, ...]
    span_s: Span
    correction: str

    def hidden(self, body: Body, ground: str, step_s: float) -> list[Span]:
        """When the craft is behind a body, by times of reception."""
        frame = f"IAU_{body.upper()}"
        found = spiceypy.cell_double(20_000)
        spiceypy.gfoclt(
            "ANY",
            str(NUMBERS[body]),
            "ELLIPSOID",
            frame,
            str(CRAFT),
            "POINT",
            " ",
            self.correction,
            str(self._site(ground)),
            step_s,
            self._confined(),
            found,
        )
        return _spans(found)

    def high(self, ground: str, mask_rad: float, step_s: float) -> list[Span]:
        """When the craft is above a mask: nearer to the zenith than the mask is."""
        found = spiceypy.cell_double(20_000)
        spiceypy.gfsep(
            str(CRAFT),
            "POINT",
            " ",
            str(self._site(ground) + ZENITH - SITE),
            "POINT",
            " ",
            self.correction,
            str(self._site(ground)),
            "<",
            np.pi / 2 - mask_rad,
            0.0,
            step_s,
            5_000,
            self._confined(),
            found,
        )
        return _spans(found)

    def light_time_s(self, ground: str, heard_s: float) -> float:
        """How long the light has been under way."""
        site = str(self._site(ground))
        return float(spiceypy.spkpos(str(CRAFT), heard_s, "J2000", self.correction, site)[1])

    def elevation_rad(self, ground: str, place: Observer, heard_s: float) -> float:
        """How high what is heard at an instant came in."""
        site = str(self._site(ground))
        ray_km = spiceypy.spkpos(str(CRAFT), heard_s, "J2000", self.correction, site)[0]
        up = place.up(np.array([heard_s]))[0]
        return float(np.arcsin(ray_km @ up / np.linalg.norm(ray_km)))

    def _site(self, ground: str) -> int:
        return SITE - self.sites.index(ground)

    def _confined(self) -> spiceypy.SpiceCell:
        cell = spiceypy.cell_double(2)
        spiceypy.wninsd(*self.span_s, cell)
        return cell


@contextmanager
def toolkit(
    folder: Path,
    orbit: Conic,
    sites: Mapping[str, Observer],
    span_s: Span,
    correction: str = "NONE",
) -> Iterator[Toolkit]:
    """SPICE with those kernels, unloaded in the end. Its kernels are one pool: one at a time."""
    file = folder / f"sky-{correction}.bsp"
    handle = spiceypy.spkopn(str(file), "sky", 0)
    wide = (span_s[0] - 3600.0, span_s[1] + 3600.0)
    at_s = np.arange(wide[0], wide[1] + STEP_S, STEP_S)
    states = np.hstack((orbit.position_km(at_s), orbit.velocity_km_s(at_s)))
    gm = SPHERES[orbit.centre].gm_km3_s2
    centre = NUMBERS[orbit.centre]
    count = len(at_s)
    first, last = float(at_s[0]), float(at_s[-1])
    spiceypy.spkw05(handle, CRAFT, centre, "J2000", first, last, "craft", gm, count, states, at_s)
    for at, site in enumerate(sites.values()):
        place = site.position_km(at_s)
        _write(handle, SITE - at, 399, at_s, place)
        _write(handle, ZENITH - at, 399, at_s, place + ZENITH_KM * site.up(at_s))
    # The ephemeris knows Mars by the centre of mass of it and its moons: less than 1 m off.
    _write(handle, 499, 4, at_s, np.zeros((len(at_s), 3)))
    spiceypy.spkcls(handle)
    try:
        spiceypy.furnsh([str(ASSET), str(file)])
        for body, number in ((Body.MOON, 301), (Body.MARS, 499)):
            spiceypy.pdpool(f"BODY{number}_RADII", [SPHERES[body].radius_km] * 3)
            for key in ("POLE_RA", "POLE_DEC", "PM"):
                spiceypy.pdpool(f"BODY{number}_{key}", [0.0, 0.0, 0.0])
        yield Toolkit(tuple(sites), span_s, correction)
    finally:
        spiceypy.kclear()


def _write(handle: int, number: int, centre: int, at_s: np.ndarray, place_km: Vectors) -> None:
    """A kernel of places about a body, interpolated by polynomials of high degree."""
    states = np.hstack((place_km, np.zeros_like(place_km)))
    count = len(at_s)
    first, last = float(at_s[0]), float(at_s[-1])
    spiceypy.spkw09(
        handle, number, centre, "J2000", first, last, "site", DEGREE, count, states, at_s
    )


def _spans(cell: spiceypy.SpiceCell) -> list[Span]:
    return [tuple(spiceypy.wnfetd(cell, at)) for at in range(spiceypy.wncard(cell))]
