"""Rows of the rules about contacts, with a printed table in the place of a made-up signal."""

from pathlib import Path

import pytest

from core.entries.model import Revise
from core.plan.reader import read_plan
from core.signal.tables import Tables
from tests.core.schedule.desk import Desk, at, clash_set, clock

PLAN = """
limbwatch = 1
title = "Contacts"
zones = ["UTC"]
event = [
  { id = "insert", at = 1970-01-01T06:00:00 },
  { id = "ready", at = 1970-01-01T08:11:00 },
  { id = "first", edge = { lane = "voice", change = "back", after = "insert" } },
  { id = "talk", edge = { lane = "voice", change = "back", after = "ready" } },
  { id = "later", edge = { lane = "voice", change = "back", after = "talk", offset = "5m" } },
]

[lane.voice]
name = "VOICE"

[[ground]]
id = "skerry"
name = "Skerry Point"
lanes = ["voice"]

[[course]]
id = "turns"
kind = "passes"
follows = "insert"
times = "offset"
gap = "no ground station in view"
rows = [
  { lane = "voice", ground = "skerry", back = "10m", lost = "20m" },
  { lane = "voice", ground = "skerry", back = "2h 10m", lost = "2h 20m" },
  { lane = "voice", ground = "skerry", back = "4h 10m", lost = "4h 20m" },
  { lane = "voice", ground = "skerry", back = "6h 10m", lost = "6h 20m" },
]
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    path = tmp_path / "contacts.toml"
    path.write_text(PLAN)
    plan = read_plan(path)
    return Desk(plan, Tables(plan), now="05:00")


def test_an_edge_revised_moves_its_courses_later_rows_and_nothing_upstream(desk: Desk) -> None:
    assert desk.times("insert first ready talk later") == "06:00 06:10 08:11 10:10 12:10"
    effect = desk.type(Revise("talk", at("10:14"), edge=desk.board.edge("talk")))
    assert desk.moves(effect) == [
        "talk 10:10>10:14 typed figure talk",
        "later 12:10>12:14 follows edge later",
    ]


def test_no_contact_left_in_a_table_says_what_would_fit(desk: Desk) -> None:
    effect = desk.type(Revise("ready", at("12:11")))
    assert clash_set(effect) == {"figure ready", "edge talk"}
    assert effect.clash is not None
    assert clock(effect.clash.fits_until_ms) == "12:10"


def test_a_later_figure_that_brings_an_earlier_contact_is_looked_up_anew(desk: Desk) -> None:
    effect = desk.type(Revise("insert", at("06:01")))
    assert desk.times("talk") == "08:11"
    assert "talk 10:10>08:11 follows edge talk" in desk.moves(effect)
