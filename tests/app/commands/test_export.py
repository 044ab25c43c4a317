"""`export`: the plan's events as a table or a calendar, and what bad places get."""

from datetime import date
from pathlib import Path

import pytest

from app.cli import main
from app.resources import sample_plan
from core.plan.imports.calendar import read_calendar
from core.plan.imports.model import Setting
from core.plan.imports.opening import text_of
from core.plan.imports.table import open_table, read_table

FIRST = sample_plan("first-steps")
HALIFAX = Setting("America/Halifax", date(2031, 6, 7))


def exported(path: Path, *words: str) -> str:
    assert main(["export", str(FIRST), "--out", str(path), *words]) == 0
    return text_of(path.read_bytes(), path.name).text


def test_both_ways_out_give_the_same_events(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = open_table(exported(tmp_path / "plan.csv"))
    calendar = read_calendar(exported(tmp_path / "plan.ics"), HALIFAX)
    rows = read_table(table, table.proposed, HALIFAX).rows
    assert [(row.name, row.at_ms) for row in rows] == [
        (row.name, row.at_ms) for row in calendar.rows
    ]
    assert rows[0].name == "Fuelling begins"
    assert "Written to" in capsys.readouterr().out


def test_a_table_comes_out_where_nothing_else_is_said(
    capfdbinary: pytest.CaptureFixture[bytes],
) -> None:
    assert main(["export", str(FIRST)]) == 0
    assert capfdbinary.readouterr().out.decode("utf-8-sig").startswith("Event,Time (UTC)")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--out", "plan.txt"], "end 'plan.txt' in .csv or .ics"),
        (["--out", "plan.ics", "--format", "csv"], "is named like ics, and --format says csv"),
        (["--out", "nowhere/plan.csv"], "there is no folder"),
    ],
)
def test_bad_places_are_told(
    words: list[str],
    said: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["export", str(FIRST), *words]) == 2
    assert said in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_the_plan_itself_is_never_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "plan.csv"
    plan.write_bytes(FIRST.read_bytes())
    assert main(["export", str(plan), "--out", str(plan)]) == 2
    assert "the plan itself" in capsys.readouterr().err
    assert plan.read_bytes() == FIRST.read_bytes()
