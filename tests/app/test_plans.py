"""Plans whose courses cannot be computed: the place of the course, what is wrong, what to do."""

from pathlib import Path

import pytest

from app.cli import main
from app.plans import take_plan
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


@pytest.mark.parametrize("command", ["check", "times", "signal"])
def test_each_command_tells_it_as_bad_input(
    tmp_path: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, str(written(tmp_path, "2031-05", "2051-05"))]) == 2
    assert "cannot be computed" in capsys.readouterr().err
