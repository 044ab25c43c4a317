"""A course of another kind: what goes out with the change, and that each kind becomes good."""

from datetime import date, time
from pathlib import Path

import pytest

from core.plan.drafting.columns import Cell
from core.plan.drafting.draft import Draft
from core.plan.drafting.event_tables import EVENTS
from core.plan.drafting.fresh import Beginning, new_plan
from core.plan.drafting.signal_tables import CONTACTS, COURSES, GROUNDS
from core.plan.positions import Trail
from tests.core.plan.orbitdata.petrel import OEM

_TLE = (
    "1 81031U 31014A   31071.45833333  .00010500  00000-0  19400-3 0  9999 | "
    "2 81031  56.8000 330.0000 0006200  72.0000  80.0000 15.56050000   625"
)
_ROUND = {"about": "moon", "epoch": "liftoff +5m", "inclination": "90", "node": "12.5"}
_BURN = "event burn; duration 374s; along_m_s -850"
KINDS: dict[str, dict[str, str]] = {
    "passes": {},
    "orbit": {**_ROUND, "altitude_km": "100"},
    "orbit ": {**_ROUND, "periapsis_km": "1838", "eccentricity": "0.01", "argument": "0"},
    "arrival": {
        "about": "moon",
        "epoch": "11 May 13:28:32",
        "position_km": "1838, 0, 0",
        "velocity_km_s": "0, 2.4, 0",
        "burn": _BURN,
    },
    "trajectory": {"file": "petrel.oem"},
    "elements": {"tle": _TLE},
}


def new(folder: Path) -> tuple[Draft, Trail]:
    beginning = Beginning("Petrel 4", "America/Halifax", date(2031, 5, 11), time(13, 28, 32))
    d = Draft(new_plan(beginning), "plan.toml", folder)
    event = d.insert(EVENTS, None)
    for key, typed in (("name", "Burn"), ("after", "liftoff"), ("offset", "2h")):
        put(d, event, key, typed)
    for key, typed in (("latitude", "34.2"), ("longitude", "-112.4"), ("height", "900")):
        put(d, ("ground", 0), key, typed)
    assert d.is_good
    return d, d.insert(COURSES, None)


def put(d: Draft, trail: Trail, key: str, typed: str) -> None:
    column = {"event": EVENTS, "ground": GROUNDS, "course": COURSES}[str(trail[0])].column(key)
    assert column is not None
    d.change(Cell(trail, column), typed)


def kind_cell(trail: Trail) -> Cell:
    column = COURSES.column("kind")
    assert column is not None
    return Cell(trail, column)


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_course_of_any_kind_is_good_when_its_cells_are_filled(
    kind: str, tmp_path: Path
) -> None:
    (tmp_path / "petrel.oem").write_text(OEM, encoding="utf-8")
    d, course = new(tmp_path)
    put(d, course, "kind", kind)
    for key, typed in KINDS[kind].items():
        put(d, course, key, typed)
    assert d.is_good, [fault.words for fault in d.now.faults]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("other", KINDS)
def test_a_course_of_one_kind_can_be_made_one_of_another(
    kind: str, other: str, tmp_path: Path
) -> None:
    (tmp_path / "petrel.oem").write_text(OEM, encoding="utf-8")
    d, course = new(tmp_path)
    for one in (kind, other):
        put(d, course, "kind", one)
        for key, typed in KINDS[one].items():
            put(d, course, key, typed)
    wrong = [fault.words for fault in d.now.faults if "cannot stand" in fault.words]
    assert wrong == []


def test_contacts_that_go_with_the_kind_are_told_and_come_back_by_one_undo(tmp_path: Path) -> None:
    d, course = new(tmp_path)
    d.insert(CONTACTS, None, course)
    before = d.text
    assert d.going(kind_cell(course), "orbit") == "Contacts"
    put(d, course, "kind", "orbit")
    assert "rows" not in d.text
    d.undo()
    assert d.text == before


def test_an_empty_list_of_contacts_goes_without_a_word(tmp_path: Path) -> None:
    d, course = new(tmp_path)
    assert d.going(kind_cell(course), "orbit") == ""


def test_half_a_kind_takes_nothing_away(tmp_path: Path) -> None:
    d, course = new(tmp_path)
    put(d, course, "kind", "orb")
    assert "rows = []" in d.text


def test_contacts_under_headings_of_their_own_go_too(tmp_path: Path) -> None:
    d, course = new(tmp_path)
    row = '[[course.rows]]\nlane = "voice"\nground = "station-1"\n'
    rows = f"{row}back = 2031-05-11T14:00:00\nlost = 2031-05-11T18:00:00\n"
    d = Draft(d.text.replace("rows = []\n", rows), "plan.toml", tmp_path)
    assert d.is_good
    put(d, course, "kind", "orbit")
    assert "rows" not in d.text
    assert "back" not in d.text
