"""The record as comma-separated values: RFC 4180, and back with the same instants and names."""

import csv
import io
from datetime import datetime

from hypothesis import given, settings

from core.session.record.model import DayRecord
from core.session.record.sheet import COLUMNS, INSTANTS, record_csv
from core.session.record.words import EDITORIAL
from core.times.instants import rfc3339_to_ms
from core.times.zones import local_instants_ms
from tests.core.session.record.days import at, long_day
from tests.core.session.record.drawn import records

Row = dict[str, str]


def rows_of(record: DayRecord, kind: str = "") -> list[Row]:
    """The lines read back by the standard library."""
    found = csv.DictReader(io.StringIO(record_csv(record), newline=""))
    return [row for row in found if row["kind"] == kind or not kind]


def instant(row: Row, column: str) -> int | None:
    return rfc3339_to_ms(row[column]) if row[column] else None


@settings(max_examples=30, deadline=None)
@given(records())
def test_what_is_read_back_has_the_same_instants_and_names(record: DayRecord) -> None:
    rows = rows_of(record, "event")
    assert [
        (r["id"], r["name"], *(instant(r, c) for c in ("planned", "expected", "said", "happened")))
        for r in rows
    ] == [
        (e.id, e.name, e.planned_ms, e.expected_ms, e.said_ms, e.happened_ms) for e in record.events
    ]
    assert [(r["name"], instant(r, "from"), instant(r, "to")) for r in rows_of(record, "item")] == [
        (row.name, row.from_ms, row.to_ms) for row in record.items
    ]
    assert [(instant(r, "from"), instant(r, "to")) for r in rows_of(record, "move")] == [
        (move.from_ms, move.to_ms) for move in record.moves
    ]
    assert [r["text"] for r in rows_of(record, "note")] == [n.words for n in record.notes]


@settings(max_examples=30, deadline=None)
@given(records())
def test_the_local_time_beside_an_instant_is_what_clocks_there_show(record: DayRecord) -> None:
    for row in rows_of(record):
        for column in INSTANTS:
            at_ms = instant(row, column)
            if at_ms is not None:
                naive = datetime.fromisoformat(row[f"{column}_local"])
                possible = local_instants_ms(naive, record.style.zone)
                assert at_ms // 1000 * 1000 in possible


def test_every_line_has_every_column_and_ends_as_the_standard_has_it() -> None:
    text = record_csv(long_day().record())
    assert text.startswith(",".join(COLUMNS) + "\r\n")
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")
    assert {len(row) for row in csv.reader(io.StringIO(text, newline=""))} == {len(COLUMNS)}


def test_the_first_line_says_what_it_is_of_and_what_it_is_not_for() -> None:
    first, *_ = rows_of(long_day().record())
    assert (first["kind"], first["name"], first["text"]) == (
        "about",
        "Petrel 4, arrival",
        EDITORIAL,
    )


def test_a_rehearsal_is_marked_on_every_line_and_nothing_else_is() -> None:
    assert {r["rehearsal"] for r in rows_of(long_day(rehearsal=True).record())} == {"REHEARSAL"}
    assert {r["rehearsal"] for r in rows_of(long_day().record())} == {""}


def test_every_kind_of_line_is_there() -> None:
    kinds = {row["kind"] for row in rows_of(long_day().record())}
    wanted = "about event move said correction edge item outcome check note taken-back desk entry"
    assert kinds == set(wanted.split())


def test_an_edge_has_computed_and_observed_with_the_difference() -> None:
    first, _ = rows_of(long_day().record(), "edge")
    assert instant(first, "expected") == at("16:50:00")
    assert instant(first, "happened") == at("16:50:12")
    assert float(first["difference_s"]) == 12.0
    assert (first["lane"], first["state"], first["by"]) == ("voice", "lost", "KM")


def test_what_is_to_be_made_good_is_given_in_seconds() -> None:
    good = {r["id"]: r["make_good_s"] for r in rows_of(long_day().record(), "item")}
    assert good == {"break-1": "", "break-2": "90.0", "tape": ""}
