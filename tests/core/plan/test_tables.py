"""Tables of contacts beside a plan: problems carry the table's own name, line and column."""

from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.model import Pass
from core.plan.reader import read_plan
from core.times.instants import rfc3339_to_ms

PLAN = """
limbwatch = 1
title = "x"
zones = ["America/Halifax"]
[[ground]]
id = "tarn"
lanes = ["voice"]
[[course]]
id = "table"
kind = "passes"
file = "table.csv"
"""
HEADING = "lane,ground,back,lost\n"
TIMES = "2031-05-14T17:00:00,2031-05-14T18:00:00"


def _rows(folder: Path, table: bytes) -> tuple[Pass, ...]:
    (folder / "plan.toml").write_text(PLAN, encoding="utf-8")
    (folder / "table.csv").write_bytes(table)
    return read_plan(folder / "plan.toml").courses[0].rows


@pytest.mark.parametrize(
    "table",
    [
        f"{HEADING}voice,tarn,{TIMES}\n",
        f"back,lost,ground,lane\n{TIMES},tarn,voice",
        f'\ufefflane , "ground",back,lost\r\n\r\n "voice",tarn , {TIMES}\r\n',
    ],
)
def test_columns_come_in_any_order_with_spaces_marks_and_empty_lines(
    table: str, tmp_path: Path
) -> None:
    assert _rows(tmp_path, table.encode()) == (
        Pass(
            "voice",
            "tarn",
            rfc3339_to_ms("2031-05-14T20:00:00Z"),
            rfc3339_to_ms("2031-05-14T21:00:00Z"),
        ),
    )


def test_the_ground_station_may_be_left_out(tmp_path: Path) -> None:
    for table in (f"{HEADING}voice,,{TIMES}", f"lane,back,lost\nvoice,{TIMES}"):
        assert _rows(tmp_path, table.encode())[0].ground is None


@pytest.mark.parametrize(
    ("table", "line", "column", "what"),
    [
        ("", 1, 1, "names no column"),
        ("voice,tarn,1,2", 1, 1, "names no column"),
        ("lane;ground;back;lost\n", 1, 1, "names no column"),
        ("lane,ground,back,los\n", 1, 18, "'los' is no column"),
        ("lane,ground,back,lost,lane\n", 1, 23, "'lane' stands twice"),
        ("lane,ground,back\n", 1, 1, "the column 'lost' is missing"),
        (f"{HEADING}voice,tarn,2031-05-14T17:00:00", 2, 1, "3 cells"),
        (f"{HEADING}\nvoice, tran,{TIMES}", 3, 8, "no ground station 'tran'"),
        (f"{HEADING}voice,tarn,soon,2031-05-14T17:00:00", 2, 12, "no date and time"),
        (f"{HEADING}voice,tarn,2031-05-14T17:00:00, 1h", 2, 33, "no date and time"),
        (f"{HEADING}voice,tarn,2031-03-09T02:30:00,2031-05-14T17:00:00", 2, 12, "skip"),
        (f"{HEADING}data,tarn,{TIMES}", 2, 1, "does not carry 'data'"),
        (f"{HEADING},tarn,{TIMES}", 2, 1, "cannot be an id"),
        (f'{HEADING}"voice,tarn,{TIMES}', 2, 1, "not closed"),
        (f"{HEADING}voice,tarn,{TIMES}\nvoice,tarn,{TIMES}", 3, 1, "before another ends"),
        (f"{HEADING}voice,tarn,{TIMES[20:]},{TIMES[:19]}", 2, 1, "lost before it is back"),
        (f"{HEADING}voice,tarn,\0,{TIMES}", 2, 12, "NUL byte"),
    ],
)
def test_a_bad_table_is_told_at_its_own_place(
    table: str, line: int, column: int, what: str, tmp_path: Path
) -> None:
    with pytest.raises(PlanProblems) as caught:
        _rows(tmp_path, table.encode())
    problem = next(one for one in caught.value.problems if what in one.what)
    assert problem.where.file == str(tmp_path / "table.csv")
    assert (problem.where.line, problem.where.column) == (line, column)


def test_a_table_in_another_encoding_is_told(tmp_path: Path) -> None:
    with pytest.raises(PlanProblems) as caught:
        _rows(tmp_path, HEADING.encode("utf-16"))
    assert "UTF-16" in caught.value.problems[0].what
