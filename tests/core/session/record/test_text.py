"""The record as text: calm columns within a hundred characters."""

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from core.session.record.columns import table
from core.session.record.tables import parts
from core.session.record.text import record_text
from core.session.record.words import EDITORIAL
from core.times.writing import Hours
from tests.core.session.record.days import Day, long_day

_cells = st.text(st.sampled_from("abc de-12"), max_size=60)


def lines_of(day: Day) -> list[str]:
    return record_text(day.record()).splitlines()


def test_no_line_is_longer_than_a_hundred_characters() -> None:
    assert max(map(len, lines_of(long_day()))) <= 100
    assert max(map(len, lines_of(long_day(rehearsal=True)))) <= 100


def test_a_rehearsal_is_marked_on_every_line() -> None:
    assert all(line.startswith("REHEARSAL") for line in lines_of(long_day(rehearsal=True)))
    assert not any(line.startswith("REHEARSAL") for line in lines_of(long_day()))


def test_it_says_what_it_is_not_for() -> None:
    assert EDITORIAL in lines_of(long_day())


def test_an_event_stands_in_one_line_with_its_four_times() -> None:
    line = next(line for line in lines_of(long_day()) if line.startswith("Ignition  "))
    assert line.split() == [
        "Ignition", "17:00:00", "17:01:15", "17:00:45", "17:01:16", "1", "min", "16", "later",
        "agency", "KM",
    ]  # fmt: skip


def test_no_clock_time_is_broken_in_twelve_hour_columns_either() -> None:
    lines = record_text(long_day(rehearsal=True).record(hours=Hours.TWELVE)).splitlines()
    assert max(map(len, lines)) <= 100
    told = " ".join(" ".join(lines).split())
    assert not re.search(r"[ap]\.m(?!\.)|\b[ap]\.(?!m)", told)
    row = next(line for line in lines if "Ignition  " in line)
    assert row.count("p.m.") == 4


def test_what_follows_alike_is_told_in_one_line() -> None:
    (moved,) = [part for part in parts(long_day().record()) if part.title == "How times moved"]
    assert [row[5] for row in moved.rows][:2] == ["typed", "followed, with 2 more"]


def test_there_is_no_heading_without_anything_under_it() -> None:
    day = Day()
    day.type("16:31:00", "note begun")
    titles = [part.title for part in parts(day.record())]
    assert "Corrections" not in titles
    assert "Outcomes" not in titles
    assert "Notes" in titles


def test_the_day_in_a_few_lines_stands_at_the_top() -> None:
    lines = lines_of(long_day())
    assert "To be made good: 1 min 30 s (Break 2)" in lines
    assert "Edges of the signal: 2 of 2 observed; at most 52 s off what was computed" in lines
    assert lines.index("EVENTS") > lines.index("Items: 1 of 3 ran")


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(*[_cells] * 4), min_size=1, max_size=6), st.integers(40, 100))
def test_a_table_keeps_to_its_width_and_loses_no_sign(
    rows: list[tuple[str, ...]], width: int
) -> None:
    lines = list(table(rows, width))
    assert max(len(line) for line in lines) <= width
    told = "".join("".join(cell.split()) for row in rows for cell in row)
    assert sorted("".join("".join(line.split()) for line in lines)) == sorted(told)
