"""Mean elements: against the published runs of SGP4, and against another reduction to the ICRF."""

import math
from collections.abc import Iterator
from dataclasses import replace
from importlib.resources import files
from itertools import pairwise

import numpy as np
import pytest
from sgp4.api import WGS72, Satrec
from skyfield.api import EarthSatellite, load

from core.errors import SkyProblem
from core.plan.orbitdata.model import MeanElements
from core.signal.sky.earth import teme_to_icrf
from core.signal.sky.kepler import Numbers
from core.signal.sky.mean import Mean
from core.signal.sky.model import Body
from core.signal.sky.timescale import tt_s

UNIX_EPOCH_JD = 2_440_587.5
DAY_MS = 86_400_000.0
PER_DAY = 1_440 / math.tau

# Two-line elements, made up.
LINES = (
    "1 00001U 31001A   26134.50000000  .00001200  00000-0  30000-4 0  9993",
    "2 00001  51.6000 100.0000 0011000  10.0000 350.0000 15.50000000    10",
)


def elements_of(craft: Satrec) -> MeanElements:
    """The elements as the readers give them, from the package's own record."""
    days = (craft.jdsatepoch - UNIX_EPOCH_JD) + craft.jdsatepochF
    return MeanElements(
        "",
        craft.satnum,
        days * DAY_MS,
        craft.no_kozai * PER_DAY,
        craft.ecco,
        math.degrees(craft.inclo),
        math.degrees(craft.nodeo),
        math.degrees(craft.argpo),
        math.degrees(craft.mo),
        craft.bstar,
        craft.ndot * PER_DAY * 1_440,
        craft.nddot * PER_DAY * 1_440**2,
    )


def published() -> Iterator[tuple[str, Satrec, Numbers]]:
    """The craft of the test cases of Vallado and others (2006), and rows of minutes, x, y, z."""
    folder = files("sgp4")
    crafts: dict[int, Satrec] = {}
    for first, second in pairwise((folder / "SGP4-VER.TLE").read_text().splitlines()):
        if first.startswith("1 ") and second.startswith("2 "):
            craft = Satrec.twoline2rv(first, second[:69], WGS72)
            crafts.setdefault(craft.satnum, craft)
    rows: dict[int, list[list[float]]] = {}
    for line in (folder / "tcppver.out").read_text().splitlines():
        words = line.split()
        if words[1:] == ["xx"]:
            rows.setdefault(number := int(words[0]), [])
        else:
            rows[number].append([float(word) for word in words[:4]])
    for number, found in rows.items():
        yield str(number), crafts[number], np.array(found)


CASES = {name: (craft, rows) for name, craft, rows in published()}


@pytest.mark.parametrize("name", CASES)
def test_it_flies_as_the_published_runs(name: str) -> None:
    craft, rows = CASES[name]
    elements = elements_of(craft)
    at_s = tt_s(elements.epoch_utc_ms + rows[:, 0] * 60_000)
    found = Mean(elements).position_km(at_s)
    expected = teme_to_icrf(at_s, rows[:, 1:])
    if name == "33334":  # at once an error; the published row is what was left of the case before
        assert np.isnan(found).all()
        return
    # A centimetre, most of it the rounding of the time; number 33333 is about to fail, and shaky.
    assert np.abs(found - expected).max() < (2e-4 if name == "33333" else 1e-5)


def test_its_place_is_that_of_another_reduction_to_a_few_metres() -> None:
    timescale = load.timescale(builtin=True)
    other = EarthSatellite(*LINES, ts=timescale)
    path = Mean(elements_of(Satrec.twoline2rv(*LINES, WGS72)))
    times = timescale.utc(2026, 5, 14, 12, np.arange(0, 3_000, 7))
    at_s = np.asarray((times.whole - 2_451_545.0) + times.tt_fraction) * 86_400
    expected = other.at(times).position.km.T
    assert np.linalg.norm(path.position_km(at_s) - expected, axis=1).max() < 0.02


def test_a_craft_that_has_come_down_has_no_place() -> None:
    elements = elements_of(Satrec.twoline2rv(*LINES, WGS72))
    falling = replace(elements, mean_motion=16.4, eccentricity=0.0, ballistic=0.05)
    begin_s = float(tt_s(np.array([falling.epoch_utc_ms]))[0])
    found = Mean(falling).position_km(begin_s + np.array([0.0, 60.0, 40 * 86_400.0]))
    assert np.isfinite(found[0]).all()
    assert np.isnan(found[2]).all()


def test_elements_that_make_no_sense_have_no_place() -> None:
    elements = elements_of(Satrec.twoline2rv(*LINES, WGS72))
    broken = Mean(replace(elements, eccentricity=1.2))
    assert np.isnan(broken.position_km(np.array([8.3e8, 8.4e8]))).all()
    assert len(broken.grid_s(8.3e8, 8.4e8)) > 2


def test_elements_without_a_motion_are_told() -> None:
    elements = elements_of(Satrec.twoline2rv(*LINES, WGS72))
    with pytest.raises(SkyProblem, match="mean motion"):
        Mean(replace(elements, mean_motion=0.0))


@pytest.mark.parametrize(("a_day", "eccentricity"), [(15.5, 0.001), (2.006, 0.74), (1.0, 0.9)])
def test_the_grid_is_close_even_at_the_low_point(a_day: float, eccentricity: float) -> None:
    elements = elements_of(Satrec.twoline2rv(*LINES, WGS72))
    path = Mean(replace(elements, mean_motion=a_day, eccentricity=eccentricity))
    grid_s = path.grid_s(8.3e8, 8.3e8 + 86_400)
    fastest = math.sqrt(1 + eccentricity) / (1 - eccentricity) ** 1.5 * a_day / 86_400
    assert np.diff(grid_s).max() * fastest < 0.1
    assert list(grid_s[[0, -1]]) == [8.3e8, 8.3e8 + 86_400]


def test_it_is_about_the_earth_and_keeps_to_its_span() -> None:
    path = Mean(elements_of(Satrec.twoline2rv(*LINES, WGS72)), 8.3e8, 8.4e8)
    assert path.centre is Body.EARTH
    assert list(path.grid_s(0, 9e9)[[0, -1]]) == [8.3e8, 8.4e8]
    assert list(path.grid_s(0, 1)) == []
    assert path.position_km(np.empty(0)).shape == (0, 3)
