"""How a craft stands to who listens: light time, elevation, and the line that passes a limb."""

import math
from pathlib import Path

import numpy as np
import pytest

from core.errors import EphemerisRange
from core.signal.sky.model import LIGHT_KM_S, SPHERES, Body
from core.signal.sky.orbit import Orbit
from core.signal.sky.sight import Look, Sky
from core.signal.sky.sites import Site
from core.times.instants import rfc3339_to_ms
from tests.core.signal.sky.flights import (
    CENTRE,
    KERNEL,
    LOW_LUNAR,
    SITES,
    START_MS,
    START_S,
    Still,
    StillSky,
    orbit,
)
from tests.core.signal.sky.toolkit import toolkit

LOW_MARTIAN = orbit(Body.MARS, 400.0, 0.3, 93.0, 30.0, 100.0)
RADIUS_KM = SPHERES[Body.MOON].radius_km


def from_centre(x_km: float, y_km: float, *, body: Body = Body.MOON) -> tuple[Sky, Look]:
    """A still craft beside a still Moon, looked at from the Earth's centre, all at one instant."""
    sky = Sky(StillSky(), CENTRE, light_time=False)
    path = Still(body, (x_km, y_km, 0.0))
    sky.reach(path, START_S, START_S)
    return sky, sky.look(path, np.array([START_S]), np.array([0]))


@pytest.mark.parametrize("path", [LOW_LUNAR, LOW_MARTIAN], ids=["moon", "mars"])
def test_light_time_agrees_with_spice_within_a_millisecond(path: Orbit, tmp_path: Path) -> None:
    sky = Sky(KERNEL, SITES)
    with toolkit(tmp_path, path, SITES, (START_S, START_S + 86_400), "CN") as spice:
        for hour in range(0, 24, 5):
            for ground in SITES:
                light = sky.light(path, ground, START_MS + hour * 3_600_000)
                assert light is not None
                theirs_s = spice.light_time_s(ground, START_S + hour * 3600)
                assert light.light_time_s == pytest.approx(theirs_s, abs=1e-5)


def test_light_takes_over_a_second_from_the_moon_and_minutes_from_mars() -> None:
    moon = Sky(KERNEL, SITES).light(LOW_LUNAR, "west", START_MS)
    mars = Sky(KERNEL, SITES).light(LOW_MARTIAN, "west", START_MS)
    assert moon is not None
    assert mars is not None
    # The spans of both: mean distances and eccentricities, from memory.
    assert 1.17 < moon.light_time_s < 1.37
    assert 180 < mars.light_time_s < 1340
    assert mars.distance_km == pytest.approx(mars.light_time_s * LIGHT_KM_S)


def test_light_from_a_landing_on_mars_took_11_min_22_s() -> None:
    # NASA, Mars 2020 mission blog: the landing on 2021-02-18 at 20:55 UTC, as heard.
    heard_ms = rfc3339_to_ms("2021-02-18T20:55:00Z")
    light = Sky(KERNEL, CENTRE).light(LOW_MARTIAN, "earth", heard_ms)
    assert light is not None
    assert light.light_time_s == pytest.approx(11 * 60 + 22, abs=1)


def test_off_the_path_there_is_no_light() -> None:
    path = orbit(Body.MOON, 100.0, end_s=START_S + 100)
    sky = Sky(KERNEL, SITES)
    assert sky.light(path, "west", START_MS + 101_000) is not None
    assert sky.light(path, "west", START_MS + 102_000) is None
    assert sky.light(path, "west", START_MS - 10_000_000) is not None


def test_what_is_asked_for_by_its_hearing_is_heard_then() -> None:
    sky = Sky(KERNEL, SITES)
    heard_s = START_S + np.linspace(0, 86_400, 50)
    for path in (LOW_LUNAR, LOW_MARTIAN):
        look = sky.heard(path, heard_s, np.arange(50) % 3)
        assert np.abs(look.heard_s - heard_s).max() < 1e-5
        assert (look.light_time_s() > 1).all()
        assert look.distance_km == pytest.approx(look.light_time_s() * LIGHT_KM_S)


def test_in_a_geometric_sky_all_is_at_one_instant() -> None:
    sky = Sky(KERNEL, SITES, light_time=False)
    at_s = START_S + np.linspace(0, 86_400, 50)
    look = sky.heard(LOW_LUNAR, at_s, np.zeros(50, dtype=np.intp))
    assert (look.light_time_s() == 0).all()
    craft_km = KERNEL.from_earth_km(Body.MOON, at_s) + LOW_LUNAR.position_km(at_s)
    assert look.ray_km == pytest.approx(craft_km - SITES["west"].position_km(at_s), abs=2e-4)


def test_a_craft_at_the_zenith_is_90_degrees_high() -> None:
    place = SITES["west"]
    assert isinstance(place, Site)
    over = Site(place.latitude_rad, place.longitude_rad, 1000.0, 0.0)

    class Hovering(Still):
        def position_km(self, at_s: np.ndarray) -> np.ndarray:
            return over.position_km(at_s)

    sky = Sky(KERNEL, {"west": place}, light_time=False)
    look = sky.heard(Hovering(Body.EARTH, (0, 0, 0)), START_S + np.arange(3.0), np.zeros(3, int))
    assert look.elevation_rad() == pytest.approx(math.pi / 2, abs=1e-4)
    assert look.distance_km == pytest.approx(999.5, abs=1e-3)


@pytest.mark.parametrize(
    ("x_km", "y_km", "margin_km"),
    [
        (3000.0, 0.0, -RADIUS_KM),  # straight behind the middle
        (-3000.0, 0.0, 3000.0 - RADIUS_KM),  # straight in front
        (0.0, 2000.0, 2000.0 - RADIUS_KM),  # beside it
        (-100.0, 1800.0, math.hypot(100.0, 1800.0) - RADIUS_KM),  # a little in front
    ],
)
def test_the_margin_is_how_far_the_line_passes_above_the_limb(
    x_km: float, y_km: float, margin_km: float
) -> None:
    sky, look = from_centre(x_km, y_km)
    assert sky.margin_km(look, Body.MOON)[0] == pytest.approx(margin_km, abs=0.05)


def test_the_line_to_a_craft_far_behind_comes_nearer_to_the_middle() -> None:
    # It is twice as far away as the Moon, so its line passes at half its height.
    sky, look = from_centre(384_400.0, 2 * RADIUS_KM + 10.0)
    assert sky.margin_km(look, Body.MOON)[0] == pytest.approx(5.0, abs=0.1)


def test_outside_the_ephemeris_there_is_a_clear_error() -> None:
    with pytest.raises(EphemerisRange, match="not known"):
        Sky(KERNEL, SITES).light(LOW_LUNAR, "west", rfc3339_to_ms("2045-01-01T00:00:00Z"))
