"""The samples whose signal is computed: their figures, beside those of other toolkits."""

import json
import math
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
import spiceypy
from skyfield.api import EarthSatellite, load, wgs84

from app.cli import main
from app.resources import sample_plan
from app.skies import skies_for
from core.plan.model import Course, Plan
from core.plan.reader import read_plan
from core.signal.computing import Spell
from core.signal.sky.making import arrival_paths, epoch_of
from core.signal.sky.model import SPHERES, Body
from core.signal.sky.skies import sites_of
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms
from tests.core.signal.sky.toolkit import ASSET, toolkit

HOUR_S = 3600.0
MOON = SPHERES[Body.MOON]

Seconds = dict[str, float]


def expected_s(capsys: pytest.CaptureFixture[str], name: str, now: str, *entries: str) -> Seconds:
    """When each event of a sample is expected, as the command tells it, in seconds of UTC."""
    typed = [word for entry in entries for word in ("--enter", entry)]
    assert main(["times", str(sample_plan(name)), "--now", now, "--json", *typed]) == 0
    told = json.loads(capsys.readouterr().out)["events"]
    return {event["id"]: rfc3339_to_ms(event["expected"]) / 1000 for event in told}


def utc_s(text: str) -> float:
    return rfc3339_to_ms(text) / 1000


def course_of(plan: Plan, name: str) -> Course:
    return next(course for course in plan.courses if course.id == name)


def spell_of(plan: Plan, name: str, *times_ms: int) -> Spell:
    """When a course that forks nowhere is seen."""
    skies = skies_for(plan)
    assert skies is not None
    (branch,) = skies.branches(course_of(plan, name))
    spell = skies.spell(branch, times_ms)
    assert spell is not None
    return spell


# ------------------------------------------------------------ the arrival at the Moon

ARRIVAL = ("petrel-arrival", "2031-05-14T16:38:00")


def test_a_late_burn_brings_the_arrival_back_early_and_nothing_else_of_the_pair_moves(
    capsys: pytest.CaptureFixture[str],
) -> None:
    planned = expected_s(capsys, *ARRIVAL)
    late = expected_s(capsys, *ARRIVAL, "ignition +2m")
    assert late["ignition"] - planned["ignition"] == 120
    assert late["return"] - planned["return"] == pytest.approx(-127.7, abs=0.2)
    for steady in ("loss", "closest", "return-none"):
        assert late[steady] == planned[steady]
    assert late["photo"] - late["return"] == planned["photo"] - planned["return"]


def test_a_later_low_point_takes_the_whole_arrival_with_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    planned = expected_s(capsys, *ARRIVAL)
    late = expected_s(capsys, *ARRIVAL, "closest +78s")
    # Not to the second: the Moon goes on by 78 km meanwhile.
    for event in ("loss", "return-none", "return"):
        assert late[event] - planned[event] == pytest.approx(78, abs=0.5)


def test_the_arrival_leads_to_the_orbit_it_names_and_has_its_low_point_at_the_time_it_names() -> (
    None
):
    plan = read_plan(sample_plan("petrel-arrival"))
    closest_s = tt_s_of_utc_ms(rfc3339_to_ms("2031-05-14T20:00:40Z"))
    ignition_ms = rfc3339_to_ms("2031-05-14T19:57:20Z")
    arrival = arrival_paths(course_of(plan, "arrival"), ignition_ms, _epoch_ms(plan))
    near_s = closest_s + np.arange(-30.0, 30.0, 0.1)
    away_km = np.linalg.norm(arrival.without.position_km(near_s), axis=1)
    assert near_s[np.argmin(away_km)] == pytest.approx(closest_s, abs=1)
    assert away_km.min() - MOON.radius_km == pytest.approx(115, abs=1)
    position, velocity = arrival.burned.after.state(arrival.burned.cutoff_s)
    low_km, eccentricity, *_ = spiceypy.oscelt((*position, *velocity), 0.0, MOON.gm_km3_s2)
    high_km = low_km * (1 + eccentricity) / (1 - eccentricity)
    assert low_km - MOON.radius_km == pytest.approx(108, abs=0.1)
    assert high_km - MOON.radius_km == pytest.approx(315, abs=0.1)


def test_loss_and_both_returns_of_the_arrival_are_those_of_spice(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    planned = expected_s(capsys, *ARRIVAL)
    plan = read_plan(sample_plan("petrel-arrival"))
    ignition_ms = round(planned["ignition"] * 1000)
    arrival = arrival_paths(course_of(plan, "arrival"), ignition_ms, _epoch_ms(plan))
    tarn = {"tarn": sites_of(plan.grounds)["tarn"]}
    around_s = (tt_s_of_utc_ms(ignition_ms) - HOUR_S, tt_s_of_utc_ms(ignition_ms) + HOUR_S)
    after_s = (arrival.burned.cutoff_s + 2.0, around_s[1])
    with toolkit(tmp_path, arrival.without, tarn, around_s, "CN") as spice:
        ((lost_s, none_s),) = spice.hidden(Body.MOON, "tarn", 60.0)
    (tmp_path / "sky-CN.bsp").unlink()
    with toolkit(tmp_path, arrival.burned.after, tarn, after_s, "CN") as spice:
        ((_, back_s),) = spice.hidden(Body.MOON, "tarn", 60.0)
    ours_s = [tt_s_of_utc_ms(planned[key] * 1000) for key in ("loss", "return-none", "return")]
    assert ours_s == pytest.approx([lost_s, none_s, back_s], abs=0.05)


def test_between_the_burns_and_after_them_the_arrival_knows_where_it_is(
    capsys: pytest.CaptureFixture[str],
) -> None:
    name, now = ARRIVAL
    assert main(["signal", str(sample_plan(name)), "--now", now, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert "not computed" not in {gap["cause"] for gap in told["gaps"]}
    assert all(gap["from"] != gap["to"] for gap in told["gaps"])


def _epoch_ms(plan: Plan) -> int:
    epoch = epoch_of(course_of(plan, "arrival"))
    assert epoch is not None
    assert epoch[0] == "closest"
    return rfc3339_to_ms("2031-05-14T20:00:40Z") + epoch[1]


# ------------------------------------------------------------ low round the Earth

LOW = ("petrel-low-orbit", "2031-03-12T15:05:00")


def test_the_passes_in_low_orbit_are_those_of_skyfield_within_a_second() -> None:
    plan = read_plan(sample_plan("petrel-low-orbit"))
    spell = spell_of(plan, "orbit")
    scale = load.timescale(builtin=True)
    craft = EarthSatellite(*_lines(plan), ts=scale)
    span = [scale.tt_jd(_tt_day(ms)) for ms in (spell.from_ms, spell.to_ms)]
    passes = 0
    for ground in plan.grounds:
        assert ground.latitude_deg is not None
        assert ground.longitude_deg is not None
        assert ground.mask_deg is not None
        spot = wgs84.latlon(ground.latitude_deg, ground.longitude_deg, elevation_m=ground.height_m)
        at, events = craft.find_events(spot, *span, altitude_degrees=ground.mask_deg)
        theirs = [one.tt for one in at[events != 1]]
        own = [each for each in spell.seen.sightings if each.ground == ground.id]
        ours = [_tt_day(ms) for each in own for ms in (each.from_ms, each.to_ms)]
        assert np.array(ours) * 86_400 == pytest.approx(np.array(theirs) * 86_400, abs=1)
        passes += len(own)
    assert passes == 22


def test_the_live_call_begins_a_minute_into_its_pass_and_ends_before_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    planned = expected_s(capsys, *LOW)
    late = expected_s(capsys, *LOW, "call +3m")
    for times in (planned, late):
        assert times["long-pass-end"] - times["call-end"] >= 30
        assert times["long-pass"] < times["call-picture"] < times["call-end"]
    assert planned["call"] - planned["long-pass"] == 60
    assert planned["long-pass-end"] - planned["long-pass"] == pytest.approx(937, abs=1)
    assert late["call-end"] - late["call"] < planned["call-end"] - planned["call"]
    path = str(sample_plan(LOW[0]))
    assert main(["times", path, "--now", LOW[1], "--enter", "call +7m"]) == 1


def _lines(plan: Plan) -> Iterator[str]:
    tle = dict(course_of(plan, "orbit").settings)["tle"]
    assert isinstance(tle, tuple)
    return map(str, tle)


def _tt_day(utc_ms: float) -> float:
    return 2_451_545.0 + tt_s_of_utc_ms(utc_ms) / 86_400


# ------------------------------------------------------------ the landing on Mars

LANDING = ("curlew-landing", "2031-10-21T15:20:00")


def test_the_light_time_of_the_landing_is_that_of_spice(
    capsys: pytest.CaptureFixture[str],
) -> None:
    planned = expected_s(capsys, *LANDING)
    spiceypy.furnsh(str(ASSET))
    try:
        heard_s = tt_s_of_utc_ms(planned["entry-heard"] * 1000)
        # From the middle of Mars to that of the Earth: either surface is 21 ms away at most.
        way_s = float(spiceypy.spkpos("4", heard_s, "J2000", "CN", "399")[1])
    finally:
        spiceypy.kclear()
    assert way_s == pytest.approx(11 * 60 + 22, abs=1)
    assert planned["entry-heard"] - planned["entry"] == pytest.approx(way_s, abs=1)
    assert planned["landing-heard"] - planned["landing"] == pytest.approx(way_s, abs=1)


def test_two_stations_hear_the_entry_and_the_blackout_follows_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    planned = expected_s(capsys, *LANDING)
    late = expected_s(capsys, *LANDING, "entry +30s")
    for times in (planned, late):
        assert times["plasma"] - times["entry-heard"] == 50
        assert times["through"] - times["plasma"] == 95
    assert late["plasma"] - planned["plasma"] == 30
    heard_ms = round(planned["entry-heard"] * 1000)
    spell = spell_of(read_plan(sample_plan("curlew-landing")), "way-in")
    hearing = {s.ground for s in spell.seen.sightings if s.from_ms < heard_ms < s.to_ms}
    assert hearing == {"hollow", "saddle"}


def test_the_way_in_meets_the_air_at_the_height_and_the_slope_it_names() -> None:
    keys = dict(course_of(read_plan(sample_plan("curlew-landing")), "way-in").settings)
    mars = SPHERES[Body.MARS]
    low_km, eccentricity = keys["periapsis_km"], keys["eccentricity"]
    assert isinstance(low_km, float)
    assert isinstance(eccentricity, float)
    angles = [keys[key] for key in ("inclination", "node", "argument", "mean_anomaly")]
    radians = [math.radians(angle) for angle in angles if isinstance(angle, float)]
    elements = [low_km, eccentricity, *radians, 0.0, mars.gm_km3_s2]
    state = np.array(spiceypy.conics(elements, 0.0))
    away_km, speed_km_s = np.linalg.norm(state[:3]), np.linalg.norm(state[3:])
    assert away_km - mars.radius_km == pytest.approx(125, abs=0.5)
    assert speed_km_s == pytest.approx(5.63, abs=0.01)
    slope = math.degrees(math.asin(state[:3] @ state[3:] / away_km / speed_km_s))
    assert slope == pytest.approx(-10.5, abs=0.1)
