"""Plans whose courses cannot be computed: the place of the course, what is wrong, what to do."""

from pathlib import Path

import pytest

from app.cli import main
from app.plans import take_plan, take_plan_with_warnings
from app.resources import sample_plan
from core.errors import PlanProblems
from tests.core.plan.test_driving import ARRIVAL, AT, PLACE


def written(folder: Path, old: str = "", new: str = "") -> Path:
    path = folder / "plan.toml"
    text = ARRIVAL.format(ignition=AT, place=PLACE)
    path.write_text(text.replace(old, new) if old else text, encoding="utf-8")
    return path


def test_a_plan_that_can_be_computed_is_taken(tmp_path: Path) -> None:
    assert take_plan(written(tmp_path)).courses[0].id == "arrival"


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("2031-05", "2051-05", "the positions at hand reach from 2019-12-31"),
        ("2031-05", "1999-05", "the positions at hand reach from 2019-12-31"),
        ("[-1.487, -0.522, -0.190]", "[0, 0, 0]", "has no orbit"),
    ],
)
def test_a_course_that_cannot_be_computed_is_told_with_its_place(
    tmp_path: Path, old: str, new: str, words: str
) -> None:
    path = written(tmp_path, old, new)
    with pytest.raises(PlanProblems) as caught:
        take_plan(path)
    (problem,) = caught.value.problems
    assert path.read_text(encoding="utf-8").splitlines()[problem.where.line - 1] == "[[course]]"
    assert "the course 'arrival' cannot be computed" in problem.what
    assert words in problem.what
    assert problem.hint


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("-854.0", "-1400.0", "km under the surface of the Moon"),
        ("-854.0", "-0.854", "is not held by the Moon, and flies past"),
        ("-854.0", "854.0", "is not held by the Moon, and flies past"),
    ],
)
def test_a_burn_that_is_hardly_meant_is_warned_of(
    tmp_path: Path, old: str, new: str, words: str
) -> None:
    (warning,) = take_plan_with_warnings(written(tmp_path, old, new))[1]
    assert "the course 'arrival' is odd: after its burn" in warning.what
    assert words in warning.what
    assert warning.where.line > 1


@pytest.mark.parametrize("name", ["petrel-arrival", "petrel-low-orbit", "curlew-landing"])
def test_of_what_is_well_nothing_is_said(name: str) -> None:
    assert take_plan_with_warnings(sample_plan(name))[1] == ()


def test_an_orbit_through_the_ground_is_warned_of(tmp_path: Path) -> None:
    path = written(tmp_path)
    orbit = """
[[course]]
id = "low"
kind = "orbit"
about = "moon"
epoch = 2031-05-14T20:00:00Z
periapsis_km = 1000
eccentricity = 0.8
inclination = 90
node = 0
"""
    path.write_text(path.read_text(encoding="utf-8") + orbit, encoding="utf-8")
    warning = take_plan_with_warnings(path)[1][-1]
    assert "the course 'low' is odd: its low point lies 737 km under" in warning.what


@pytest.mark.parametrize("command", ["check", "times", "signal"])
def test_each_command_tells_it_as_bad_input(
    tmp_path: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, str(written(tmp_path, "2031-05", "2051-05"))]) == 2
    assert "cannot be computed" in capsys.readouterr().err
