"""A source's figure for a loss, in the record: apart from what was computed and what was seen."""

import csv
import io

from core.session.record.model import DayRecord, EdgeRow
from core.session.record.sheet import record_csv
from core.session.record.tables import parts
from tests.core.session.record.days import PLAN, Day, at, edge

WITH_LOSS = (
    PLAN
    + """
[[event]]
id = "loss"
name = "Loss"
edge = { lane = "voice", change = "lost", before = "ignition" }
"""
)


def given_day(*more: tuple[str, str]) -> DayRecord:
    day = Day(text=WITH_LOSS)
    day.type("16:40:00", "loss -30s per flight")
    for clock, line in more:
        day.type(clock, line)
    return day.record()


def times(row: EdgeRow) -> tuple[int | None, int | None, int | None]:
    return row.computed_ms, row.given_ms, row.observed_ms


def test_computed_given_and_observed_stand_apart() -> None:
    row = edge(given_day(("16:50:40", "loss happened 16:49:33 per flight")), "16:50:00")
    assert times(row) == (at("16:50:00"), at("16:49:30"), at("16:49:33"))
    assert row.cause == "behind the Moon"


def test_a_figure_that_nobody_saw_come_true_is_no_computed_time() -> None:
    row = edge(given_day(), "16:50:00")
    assert times(row) == (at("16:50:00"), at("16:49:30"), None)
    assert row.at_ms == at("16:49:30")


def test_a_figure_freed_again_is_none() -> None:
    row = edge(given_day(("16:41:00", "loss free")), "16:50:00")
    assert times(row) == (at("16:50:00"), None, None)


def test_a_figure_has_a_column_of_its_own_and_its_words_on_the_sheet() -> None:
    record = given_day()
    signal = next(part for part in parts(record) if part.title == "Signal")
    told = dict(zip(signal.head, signal.rows[0], strict=True))
    assert (told["Computed"], told["Given"]) == ("16:50:00", "16:49:30")
    rows = [
        each for each in csv.DictReader(io.StringIO(record_csv(record))) if each["kind"] == "edge"
    ]
    assert rows[0]["text"] == "Tarn Hill, behind the Moon, given 16:49:30"
