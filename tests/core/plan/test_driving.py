"""Which events a course waits for, and what that means for circles and places."""

from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.driving import drivers
from core.plan.reader import read_plan, read_plan_with_warnings

ARRIVAL = """
limbwatch = 1
title = "Petrel 4"
zones = ["UTC"]

[[event]]
id = "ignition"
{ignition}

[[event]]
id = "first-return"
edge = {{ lane = "voice", change = "back", after = "ignition" }}

[[outcome]]
id = "burned"
of = "ignition"
[[outcome]]
id = "no-burn"
of = "ignition"

[[ground]]
id = "tarn"
lanes = ["voice"]
{place}

[[course]]
id = "arrival"
kind = "arrival"
about = "moon"
epoch = 2031-05-14T18:00:00Z
position_km = [6235.5, -752.4, -273.8]
velocity_km_s = [-1.487, -0.522, -0.190]
burn = {{ event = "ignition", duration = "374s", along_m_s = -854.0 }}
outcomes = {{ burned = "burned", without = "no-burn" }}
"""

AT = "at = 2031-05-14T19:58:05Z"
PLACE = "latitude = 34.2\nlongitude = -112.4\nmask = 10"


def written(folder: Path, ignition: str = AT, place: str = PLACE) -> Path:
    path = folder / "plan.toml"
    path.write_text(ARRIVAL.format(ignition=ignition, place=place), encoding="utf-8")
    return path


def test_an_arrival_waits_for_its_burn(tmp_path: Path) -> None:
    (course,) = read_plan(written(tmp_path)).courses
    assert drivers(course) == ("ignition",)


def test_an_orbit_waits_for_its_epoch_and_its_bounds(tmp_path: Path) -> None:
    orbit = """
[[event]]
id = "cutoff"
after = "ignition"
offset = "374s"
[[course]]
id = "low"
kind = "orbit"
about = "moon"
epoch = { event = "cutoff", offset = "10s" }
altitude_km = 111.12
inclination = 90
node = 0
from = "cutoff"
until = "ignition"
"""
    path = written(tmp_path)
    path.write_text(path.read_text(encoding="utf-8") + orbit, encoding="utf-8")
    low = next(course for course in read_plan(path).courses if course.id == "low")
    assert drivers(low) == ("cutoff", "ignition")


def test_a_burn_that_waits_for_the_signal_it_decides_is_a_circle(tmp_path: Path) -> None:
    with pytest.raises(PlanProblems) as caught:
        read_plan(written(tmp_path, 'after = "first-return"\noffset = "5m"'))
    assert any("course arrival" in problem.what for problem in caught.value.problems)


def test_stations_without_a_place_are_warned_of(tmp_path: Path) -> None:
    _, warnings = read_plan_with_warnings(written(tmp_path, place=""))
    assert "no ground station has a place" in warnings[0].what


def test_with_a_place_there_is_nothing_to_warn_of(tmp_path: Path) -> None:
    assert read_plan_with_warnings(written(tmp_path))[1] == ()


def test_a_trajectory_that_ends_before_the_plan_does_is_told(tmp_path: Path) -> None:
    oem = """CCSDS_OEM_VERS = 2.0
CREATION_DATE = 2031-05-01T00:00:00
ORIGINATOR = PETREL
META_START
OBJECT_NAME = PETREL 4
OBJECT_ID = 2031-001A
CENTER_NAME = MOON
REF_FRAME = ICRF
TIME_SYSTEM = UTC
START_TIME = 2031-05-14T10:00:00
STOP_TIME = 2031-05-14T10:02:00
META_STOP
2031-05-14T10:00:00 2000 0 0 0 1.5 0
2031-05-14T10:02:00 1995 180 0 -0.1 1.5 0
"""
    (tmp_path / "petrel.oem").write_text(oem, encoding="utf-8")
    path = written(tmp_path)
    head = path.read_text(encoding="utf-8").partition("[[course]]")[0]
    course = '[[course]]\nid = "flown"\nkind = "trajectory"\nfile = "petrel.oem"\n'
    path.write_text(head + course, encoding="utf-8")
    with pytest.raises(PlanProblems) as caught:
        read_plan(path)
    assert "the course 'flown' ends before the plan does: 2031-05-14T10:02:00" in str(caught.value)


def test_a_course_that_shifts_with_nothing_is_warned_of(tmp_path: Path) -> None:
    path = written(tmp_path)
    text = path.read_text(encoding="utf-8")
    path.write_text(
        text.replace('kind = "arrival"', 'kind = "arrival"\nfollows = "ignition"'), encoding="utf-8"
    )
    (warning,) = read_plan_with_warnings(path)[1]
    assert "a course of kind 'arrival' does not shift with an event" in warning.what
    assert text.splitlines()[warning.where.line - 2] == 'kind = "arrival"'


def test_one_station_without_a_place_is_warned_of_among_others(tmp_path: Path) -> None:
    path = written(tmp_path)
    more = '\n[[ground]]\nid = "moor"\nlanes = ["voice"]\n'
    path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")
    (warning,) = read_plan_with_warnings(path)[1]
    assert "the ground station 'moor' has no place and stands in no table" in warning.what
