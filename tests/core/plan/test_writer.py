"""Plans written and read again."""

from pathlib import Path

import pytest
from hypothesis import given

from core.plan.model import Event, Plan, Tie
from core.plan.reader import read_plan, read_plan_text
from core.plan.writer import write_plan
from core.times.instants import rfc3339_to_ms
from tests.core.plan.orbitdata.petrel import OEM
from tests.strategies import plans


@given(plans())
def test_a_written_plan_reads_back_the_same(plan: Plan) -> None:
    assert read_plan_text(write_plan(plan), "written", Path()) == plan


@pytest.mark.parametrize(
    "tie",
    [
        Tie("a", None, 0, None),
        Tie("a", None, None, None),
        Tie("a", None, None, -5_000),
        Tie("a", 0, 0, None),
        Tie("a", 0, 0, 0),
        Tie("a", 60_000, 0, None),
        Tie("a", 60_000, None, None),
        Tie("a", 60_000, 60_000, 60_000),
        Tie("a", 60_000, -1_000, 90_000),
        Tie("a", -60_000, None, 0),
        Tie("a", -60_000, None, None),
        Tie("a", -60_000, None, -30_000),
        Tie("a", -60_000, -90_000, 0),
        Tie("a", -60_000, 0, None),
        Tie("a", -60_000, 5, 6),
    ],
)
def test_every_kind_of_tie_reads_back_the_same(tie: Tie) -> None:
    start = Event("a", "a", at_ms=rfc3339_to_ms("2031-05-14T12:00:00Z"))
    plan = Plan("t", ("UTC",), events=(start, Event("b", "b", ties=(tie,), pinned=False)))
    assert read_plan_text(write_plan(plan), "written", Path()) == plan


def test_a_repeated_hour_is_written_in_utc() -> None:
    """1:30 comes twice in Halifax on 2 November 2031: common practice, no source."""
    plan = Plan(
        "t",
        ("America/Halifax",),
        events=(
            Event("first", "first", at_ms=rfc3339_to_ms("2031-11-02T04:30:00Z")),
            Event("second", "second", at_ms=rfc3339_to_ms("2031-11-02T05:30:00.250Z")),
        ),
    )
    text = write_plan(plan)
    assert "at = 2031-11-02T04:30:00Z\n" in text
    assert "at = 2031-11-02T05:30:00.250Z\n" in text
    assert read_plan_text(text, "written", Path()) == plan


def test_computed_courses_and_files_read_back_the_same(tmp_path: Path) -> None:
    (tmp_path / "a.oem").write_text(OEM, encoding="utf-8")
    (tmp_path / "b.csv").write_text("lane,back,lost\nvoice,1h,2h\n", encoding="utf-8")
    (tmp_path / "plan.toml").write_text(COMPUTED, encoding="utf-8")
    plan = read_plan(tmp_path / "plan.toml")
    assert read_plan_text(write_plan(plan), "written", tmp_path) == plan


COMPUTED = """
limbwatch = 1
title = "Every kind"
zones = ["America/Halifax"]
[[event]]
id = "ignition"
at = 2031-05-14T17:00:00
[[outcome]]
id = "burned"
of = "ignition"
[[outcome]]
id = "no-burn"
of = "ignition"
[[ground]]
id = "earth"
geocentre = true
lanes = ["voice"]
[[course]]
id = "low-orbit"
kind = "orbit"
about = "moon"
epoch = { event = "ignition", offset = "6m" }
frame = "icrf"
periapsis_km = 1848.52
eccentricity = 0.0
inclination = 168
node = 200.0
[[course]]
id = "arrival"
kind = "arrival"
about = "moon"
epoch = 2031-05-14T18:00:00
position_km = [6235.5, -752.4, -273.8]
velocity_km_s = [-1.487, -0.522, -0.190]
burn = { event = "ignition", duration = "374s", along_m_s = -854.0 }
outcomes = { burned = "burned", without = "no-burn" }
[[course]]
id = "by-low-point"
kind = "arrival"
about = "moon"
epoch = { event = "ignition", offset = "2m" }
frame = "equator"
v_infinity_km_s = 0.9
low_point_km = 1848.52
inclination = 168
node = 200.0
argument = -12.5
burn = { event = "ignition", duration = "0s", delta_v_m_s = [1.0, -2.0, 800] }
[[course]]
id = "two-lines"
kind = "elements"
tle = [
  "1 00001U 31001A   31134.00000000  .00000000  00000-0  00000-0 0  0001",
  "2 00001  51.6000 100.0000 0001000  10.0000 350.0000 15.50000000    07",
]
[[course]]
id = "trajectory"
kind = "trajectory"
file = "a.oem"
until = "ignition"
[[course]]
id = "table"
kind = "passes"
times = "offset"
follows = "ignition"
file = "b.csv"
from = 2031-05-14T18:00:00
"""
