"""Courses whose orbit stands in a file beside the plan, or in two lines in it."""

from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.orbitdata.elements import elements_of, elements_of_lines
from core.plan.orbitdata.trajectory import trajectory_of
from core.plan.reader import read_plan, read_plan_text
from core.plan.writer import write_plan
from tests.core.plan.marked import HEAD, check_told
from tests.core.plan.orbitdata.petrel import LINE_1, LINE_2, OEM, OMM, OMM_JSON, TWO_LINES

TRAJECTORY = '[[course]]\nid = "in"\nkind = "trajectory"\nfile = "in.oem"\nuntil = "ignition"\n'
ELEMENTS = '[[course]]\nid = "station"\nkind = "elements"\n'


def write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_course_has_what_its_file_says(tmp_path: Path) -> None:
    write(tmp_path, "in.oem", OEM)
    write(tmp_path, "station.omm", OMM)
    path = write(tmp_path, "plan.toml", HEAD + TRAJECTORY + ELEMENTS + 'file = "station.omm"\n')
    flight, station = read_plan(path).courses
    assert flight.trajectory == trajectory_of(OEM, "p")
    assert flight.elements is None
    assert station.elements == elements_of(OMM, "p")
    assert station.trajectory is None


@pytest.mark.parametrize("text", [OMM_JSON, TWO_LINES])
def test_the_notation_is_told_by_the_file_and_not_by_its_name(text: str, tmp_path: Path) -> None:
    write(tmp_path, "station.txt", text)
    plan = read_plan_text(HEAD + ELEMENTS + 'file = "station.txt"\n', "p", tmp_path)
    assert plan.courses[0].elements == elements_of(text, "p")


def test_two_lines_in_the_plan_are_read(tmp_path: Path) -> None:
    lines = f'tle = ["{LINE_1}", "{LINE_2}"]\n'
    plan = read_plan_text(HEAD + ELEMENTS + lines, "p", tmp_path)
    assert plan.courses[0].elements == elements_of_lines(LINE_1, LINE_2)
    assert read_plan_text(write_plan(plan), "written", tmp_path) == plan


def test_problems_of_a_file_join_those_of_the_plan(tmp_path: Path) -> None:
    write(tmp_path, "in.oem", OEM.replace("EARTH", "SUN").replace("379910.5", "NaN"))
    path = write(tmp_path, "plan.toml", HEAD + TRAJECTORY + "colour = 1\n")
    with pytest.raises(PlanProblems) as caught:
        read_plan(path)
    told = [
        (Path(one.where.file).name, one.where.line, one.where.column)
        for one in caught.value.problems
    ]
    assert told == [("in.oem", 10, 15), ("in.oem", 21, 25), ("plan.toml", 24, 1)]


def test_a_wrong_checksum_is_told_at_its_line_in_the_plan(tmp_path: Path) -> None:
    wrong = LINE_2[:-1] + str((int(LINE_2[-1]) + 1) % 10)
    lines = f'tle = [\n  "{LINE_1}",\n  ⟦"{wrong}",\n]'
    check_told(ELEMENTS + lines, "the checksum", "copy", tmp_path)


def test_a_line_too_short_is_told_at_its_place_in_the_plan(tmp_path: Path) -> None:
    lines = f'tle = [⟦"1 00005", "{LINE_2}"]'
    check_told(ELEMENTS + lines, "69 characters", "copy it whole", tmp_path)


def test_an_omm_for_a_trajectory_is_told(tmp_path: Path) -> None:
    write(tmp_path, "in.oem", OMM)
    with pytest.raises(PlanProblems, match="this is an OMM, and an OEM is wanted here"):
        read_plan_text(HEAD + TRAJECTORY, "p", tmp_path)
