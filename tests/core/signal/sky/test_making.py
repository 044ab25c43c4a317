"""From the keys of a course to its paths."""

import math
from pathlib import Path

import numpy as np
import pytest

from core.errors import SkyProblem
from core.plan.model import Course
from core.plan.reader import read_plan_text
from core.signal.sky import making
from core.signal.sky.arrival import Arrival
from core.signal.sky.model import SPHERES, Body
from core.signal.sky.poles import equator, turned
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms

HEAD = """limbwatch = 1
title = "Petrel 4"
zones = ["America/Halifax"]
[[event]]
id = "ignition"
at = 2031-05-14T20:20:00Z
[[event]]
id = "cutoff"
after = "ignition"
offset = "374s"
[[outcome]]
id = "burned"
of = "ignition"
[[outcome]]
id = "no-burn"
of = "ignition"
[[ground]]
id = "tarn"
lanes = ["voice"]
[[course]]
id = "course"
about = "moon"
"""
STATE = """kind = "arrival"
epoch = 2031-05-14T18:00:00Z
position_km = [6235.5, -752.4, -273.8]
velocity_km_s = [-1.487, -0.522, -0.190]
"""
LOW_POINT = """kind = "arrival"
epoch = { event = "ignition", offset = "3m" }
frame = "equator"
v_infinity_km_s = 0.9
low_point_km = 1848.52
inclination = 168
node = 200.0
argument = -12.5
"""
BURN = 'burn = { event = "ignition", duration = "374s", along_m_s = -854 }\n'
ORBIT = 'kind = "orbit"\ninclination = 168\nnode = 200\n'
AT_CLOCK = "epoch = 2031-05-14T20:30:00Z\n"
AT_CUTOFF = 'epoch = { event = "cutoff", offset = "-2m" }\n'
EPOCH_MS = rfc3339_to_ms("2031-05-14T20:30:00Z")
EPOCH_S = tt_s_of_utc_ms(EPOCH_MS)
IGNITION_MS = rfc3339_to_ms("2031-05-14T20:20:00Z")
MOON = SPHERES[Body.MOON]


def course(keys: str, folder: Path) -> Course:
    (found,) = read_plan_text(HEAD + keys, "plan.toml", folder).courses
    return found


def arrival(keys: str, folder: Path, epoch_ms: int = EPOCH_MS) -> Arrival:
    return making.arrival_paths(course(keys, folder), IGNITION_MS, epoch_ms)


def test_it_tells_what_a_course_hangs_on(tmp_path: Path) -> None:
    orbit = course(ORBIT + AT_CUTOFF + "altitude_km = 108", tmp_path)
    assert making.epoch_of(orbit) == ("cutoff", -120_000)
    assert making.events_of(orbit) == ("cutoff",)
    assert making.burn_of(orbit) is None
    assert making.outcomes_of(orbit) is None
    assert making.about_of(orbit) is Body.MOON


def test_an_epoch_on_the_clock_hangs_on_nothing(tmp_path: Path) -> None:
    orbit = course(ORBIT + AT_CLOCK + "altitude_km = 108", tmp_path)
    assert making.epoch_of(orbit) == (None, EPOCH_MS)
    assert making.events_of(orbit) == ()


def test_an_arrival_tells_its_burn_and_its_outcomes(tmp_path: Path) -> None:
    outcomes = 'outcomes = { burned = "burned", without = "no-burn" }'
    found = course(STATE + BURN + outcomes, tmp_path)
    assert making.burn_of(found) == ("ignition", 374_000)
    assert making.outcomes_of(found) == ("burned", "no-burn")
    assert making.events_of(found) == ("ignition",)


def test_an_event_that_is_named_twice_is_told_once(tmp_path: Path) -> None:
    assert making.events_of(course(LOW_POINT + BURN, tmp_path)) == ("ignition",)


@pytest.mark.parametrize(
    ("size", "low_km", "high_km"),
    [
        ("altitude_km = 108", 1_845.4, 1_845.4),
        ("altitude_km = [108, 315]", 1_845.4, 2_052.4),
        ("periapsis_km = 1848.5", 1_848.5, 1_848.5),
        ("periapsis_km = 2000\neccentricity = 0.5", 2_000, 6_000),
    ],
)
def test_an_orbit_has_the_size_that_is_written(
    size: str, low_km: float, high_km: float, tmp_path: Path
) -> None:
    orbit = making.orbit_path(course(ORBIT + AT_CLOCK + size, tmp_path), EPOCH_MS)
    at_s = EPOCH_S + np.linspace(0, orbit.period_s, 10_001)
    away_km = np.linalg.norm(orbit.position_km(at_s), axis=1)
    assert away_km.min() == pytest.approx(low_km, abs=1e-3)
    assert away_km.max() == pytest.approx(high_km, abs=1e-3)
    assert float(np.linalg.norm(orbit.position_km(at_s[:1])[0])) == pytest.approx(low_km)


@pytest.mark.parametrize("frame", ["icrf", "equator"])
def test_an_orbit_lies_in_the_plane_that_is_written(frame: str, tmp_path: Path) -> None:
    keys = ORBIT + AT_CLOCK + f'altitude_km = 108\nargument = 90\nframe = "{frame}"'
    orbit = making.orbit_path(course(keys, tmp_path), EPOCH_MS)
    position, velocity = orbit.state(EPOCH_S)
    axes = equator(Body.MOON, EPOCH_S) if frame == "equator" else np.eye(3)
    normal = np.cross(position, velocity) / np.linalg.norm(np.cross(position, velocity))
    assert math.degrees(math.acos(float(normal @ axes[2]))) == pytest.approx(168)
    # 90 degrees past the node: as far north as it goes.
    assert float(np.array(position) @ axes[2]) == pytest.approx(1_845.4 * math.sin(math.pi / 15))


def test_an_anomaly_and_a_late_epoch_move_the_craft_along(tmp_path: Path) -> None:
    keys = ORBIT + AT_CLOCK + "altitude_km = [108, 315]\n"
    orbit = making.orbit_path(course(keys, tmp_path), EPOCH_MS)
    ahead = making.orbit_path(course(keys + "mean_anomaly = 90", tmp_path), EPOCH_MS)
    late = making.orbit_path(course(keys, tmp_path), EPOCH_MS + 60_000)
    at_s = EPOCH_S + np.linspace(0, 9_000, 30)
    found = orbit.position_km(at_s)
    assert np.abs(ahead.position_km(at_s - orbit.period_s / 4) - found).max() < 1e-6
    assert np.abs(late.position_km(at_s + 60) - found).max() < 1e-6


def test_an_arrival_goes_through_its_state(tmp_path: Path) -> None:
    found = arrival(STATE + BURN, tmp_path)
    position, velocity = found.without.state(EPOCH_S)
    assert position == pytest.approx((6_235.5, -752.4, -273.8))
    assert velocity == pytest.approx((-1.487, -0.522, -0.190))
    assert (found.ignition_ms, found.cutoff_ms) == (IGNITION_MS, IGNITION_MS + 374_000)
    assert found.burned.ignition_s == tt_s_of_utc_ms(IGNITION_MS)


def test_an_arrival_by_its_low_point_is_there_at_the_epoch(tmp_path: Path) -> None:
    found = arrival(LOW_POINT + BURN, tmp_path, IGNITION_MS + 180_000).without
    at_s = tt_s_of_utc_ms(IGNITION_MS + 180_000) + np.array([-1e7, -1.0, 0.0, 1.0])
    away_km = np.linalg.norm(found.position_km(at_s), axis=1)
    assert away_km[2] == pytest.approx(1_848.52)
    assert away_km[2] < min(away_km[1], away_km[3])
    fast_km_s = np.linalg.norm(found.velocity_km_s(at_s), axis=1)
    assert fast_km_s[0] == pytest.approx(0.9, abs=1e-3)
    assert fast_km_s[2] == pytest.approx(math.sqrt(0.9**2 + 2 * MOON.gm_km3_s2 / 1_848.52))
    # The low point lies 12.5 degrees before the node, 12 degrees off the equator: to the south.
    north = np.array(equator(Body.MOON, float(at_s[2]))[2])
    south_km = 1_848.52 * math.sin(math.radians(12.5)) * math.sin(math.radians(168))
    assert float(found.position_km(at_s)[2] @ north) == pytest.approx(-south_km)


def test_a_vector_burn_is_on_the_axes_of_the_course(tmp_path: Path) -> None:
    vector = 'burn = { event = "ignition", duration = "0s", delta_v_m_s = [100, -200, 300] }'
    found = arrival(LOW_POINT + vector, tmp_path)
    _, before = found.without.state(found.burned.ignition_s)
    _, after = found.burned.after.state(found.burned.ignition_s)
    axes = equator(Body.MOON, EPOCH_S)
    assert np.subtract(after, before) == pytest.approx(turned(axes, (0.1, -0.2, 0.3)))
    assert found.cutoff_ms == found.ignition_ms


def test_a_later_ignition_is_flown_from_further_along(tmp_path: Path) -> None:
    keys = course(STATE + BURN, tmp_path)
    late = making.arrival_paths(keys, IGNITION_MS + 30_000, EPOCH_MS)
    at_s = np.array([late.burned.ignition_s - 0.001])
    assert np.array_equal(late.burned.position_km(at_s), late.without.position_km(at_s))
    assert late.cutoff_ms == IGNITION_MS + 404_000


def test_an_orbit_that_never_comes_out_of_its_body_is_told(tmp_path: Path) -> None:
    height_for_distance = course(ORBIT + AT_CLOCK + "periapsis_km = 108", tmp_path)
    with pytest.raises(SkyProblem, match="beneath the surface: its high point is 108 km"):
        making.orbit_path(height_for_distance, EPOCH_MS)


def test_an_arrival_inside_its_body_is_told(tmp_path: Path) -> None:
    inside = STATE.replace("[6235.5, -752.4, -273.8]", "[600, -75.4, -27.8]") + BURN
    with pytest.raises(SkyProblem, match="beneath the surface"):
        arrival(inside, tmp_path)


def test_an_orbit_that_only_dips_below_the_surface_is_flown(tmp_path: Path) -> None:
    keys = course(ORBIT + AT_CLOCK + "periapsis_km = 1000\neccentricity = 0.4", tmp_path)
    assert making.orbit_path(keys, EPOCH_MS).high_km == pytest.approx(1_000 * 1.4 / 0.6)
