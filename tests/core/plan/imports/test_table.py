from dataclasses import replace
from datetime import date

import pytest

from core.plan.imports.columns import Columns
from core.plan.imports.model import Imported, Meaning, Row, Setting, TwoParts
from core.plan.imports.opened import Table
from core.plan.imports.opening import text_of
from core.plan.imports.table import open_table, read_table
from core.times.instants import ms_to_rfc3339, rfc3339_to_ms

HALIFAX = Setting("America/Halifax", date(2031, 5, 14), ("America/New_York",))


def read(text: str, setting: Setting = HALIFAX) -> Imported:
    """The rows with the columns as they are proposed."""
    table = open_table(text)
    return read_table(table, table.proposed, setting)


def meanings(text: str) -> list[str]:
    return [meaning.value for meaning in open_table(text).proposed.meanings]


def at(row: Row) -> str:
    assert row.at_ms is not None
    return ms_to_rfc3339(row.at_ms).removesuffix(".000Z")


# ------------------------------------------------------------------ columns


def test_columns_are_found_by_their_headings() -> None:
    text = "What,Date,Start time,End time,MET,Give,Duration,Live,Lane,Place\nA,,,,,,,,,"
    assert meanings(text)[:9] == [
        "event",
        "date",
        "clock time",
        "end",
        "elapsed time",
        "give",
        "how long",
        "live moment",
        "lane",
    ]


def test_columns_are_found_by_their_cells_where_there_is_no_heading() -> None:
    text = "14/05/2031\t16:46\tyes\t±30 s\tT+03:29:33\tIgnition\n" * 3
    table = open_table(text)
    assert not table.proposed.heading
    assert [one.value for one in table.proposed.meanings] == [
        "date",
        "clock time",
        "live moment",
        "give",
        "elapsed time",
        "event",
    ]
    assert table.proposed.day_first is True


def test_a_heading_that_is_unknown_does_not_hide_what_stands_under_it() -> None:
    assert meanings("Alpha;Beta\n16:46;Ignition\n16:52;Cutoff") == ["clock time", "event"]


def test_a_clock_column_with_hours_no_clock_has_counts_from_something() -> None:
    assert meanings("10:00:00,Liftoff\n74:16:29,Burn")[0] == "elapsed time"


def test_bare_times_that_begin_in_the_first_hour_of_no_day_are_proposed_as_elapsed() -> None:
    assert meanings("Time\tMilestone\n00:01:12\tMax Q\n00:02:25\tCutoff")[0] == "elapsed time"
    assert meanings("Time (UTC)\tMilestone\n00:01:12\tMax Q")[0] == "clock time"
    assert meanings("Date\tTime\tMilestone\n2031-05-14\t00:01:12\tMax Q")[1] == "clock time"


def test_columns_that_are_unknown_are_kept_as_a_note() -> None:
    (row,) = read("Event,Time,Room,Notes\nTalk,16:46,North hall,long").rows
    assert row.note == "Room: North hall; long"


def test_a_person_may_change_what_a_column_is() -> None:
    table = open_table("Event,Time,Room\nTalk,16:46,North hall")
    changed = (Meaning.NOTE, Meaning.CLOCK, Meaning.NAME)
    (row,) = read_table(table, replace(table.proposed, meanings=changed), HALIFAX).rows
    assert (row.name, row.note) == ("North hall", "Event: Talk")


def test_what_each_column_was_taken_for_is_given_back() -> None:
    columns = read("Event,Time\nTalk,16:46").columns
    assert [(one.heading, one.meaning.value) for one in columns] == [
        ("Event", "event"),
        ("Time", "clock time"),
    ]


def test_titles_above_the_heading_are_set_aside() -> None:
    imported = read("Petrel 4, as planned\t\t\n\t\t\nTime\tEvent\tPlace\n16:46\tBurn\tTarn Hill")
    assert [(row.line, row.name, row.note) for row in imported.rows] == [
        (4, "Burn", "Place: Tarn Hill")
    ]
    assert [head.meaning for head in imported.headings] == [
        "above the table",
        "above the table",
        "the heading",
    ]


def test_a_unit_in_the_heading_holds_for_bare_figures() -> None:
    text = "Event,Time,Uncertainty (s),Duration [min]\nA,16:46,10,2\nB,16:50,1 min,90 s"
    rows = read(text).rows
    assert [(row.give_ms, row.length_ms) for row in rows] == [(10_000, 120_000), (60_000, 90_000)]


# ------------------------------------------------------------------ marks, quotes, encodings


@pytest.mark.parametrize("mark", [",", ";", "\t", "|"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_mark_and_any_line_end_is_read(mark: str, end: str) -> None:
    text = end.join(mark.join(cells) for cells in (("Event", "Time"), ("Burn", "16:46")))
    (row,) = read(text + end).rows
    assert (row.name, at(row), row.line) == ("Burn", "2031-05-14T19:46:00", 2)


def test_the_mark_may_be_said_in_the_first_line() -> None:
    imported = read("sep=;\nEvent;Time\nBurn;16:46")
    assert [row.name for row in imported.rows] == ["Burn"]
    assert imported.headings[0].meaning == "the mark between the cells"


def test_cells_in_quotation_marks_may_hold_marks_and_lines() -> None:
    imported = read('Event,Time\n"Burn, the ""big"" one\nof two",16:46\nOff,16:52')
    assert [row.name for row in imported.rows] == ['Burn, the "big" one of two', "Off"]
    assert imported.rows[0].more_lines == (3,)
    assert imported.rows[1].line == 4


def test_a_quotation_mark_within_a_cell_is_a_sign_like_others() -> None:
    (row,) = read('Event,Time\n5" valve opens,16:46').rows
    assert row.name == '5" valve opens'


def test_a_quotation_mark_never_closed_costs_its_own_line_only() -> None:
    imported = read('Event,Time\n"Burn,16:46\nOff,16:52')
    assert [one.line for one in imported.not_read] == [2]
    assert "not closed" in imported.not_read[0].why
    assert [row.name for row in imported.rows] == ["Off"]


@pytest.mark.parametrize(
    "data",
    [
        "Événement,Time\nÉclipse,16:46\n".encode("utf-8-sig"),
        "Événement,Time\nÉclipse,16:46\n".encode("utf-16"),
        "Événement,Time\nÉclipse,16:46\n".encode("utf-16-le"),
        "Événement,Time\nÉclipse,16:46\n".encode("utf-16-be"),
        "Événement,Time\nÉclipse,16:46\n".encode("cp1252"),
    ],
)
def test_files_and_clipboards_in_any_encoding_are_read(data: bytes) -> None:
    opened = text_of(data, "plan.csv")
    (row,) = read(opened.text).rows
    assert row.name == "Éclipse"


def test_a_guess_at_the_encoding_is_told() -> None:
    opened = text_of("A\nÉclipse,16:46\n".encode("cp1252"), "plan.csv")
    assert opened.told[0].startswith("Line 2 is not UTF-8: all was read as Windows-1252")


def test_empty_columns_at_the_end_and_rows_of_nothing_are_passed_over() -> None:
    imported = read("Event,Time,,,\nBurn,16:46,,,\n,,,,\nOff,16:52,,,\n")
    assert [row.name for row in imported.rows] == ["Burn", "Off"]
    assert [head.meaning for head in imported.headings] == ["the heading", "an empty row"]


# ------------------------------------------------------------------ times in cells


@pytest.mark.parametrize(
    ("serial", "from_1904", "when"),
    [
        ("48347.69861", False, "2032-05-13T19:46:00"),
        ("48347,69861", False, "2032-05-13T19:46:00"),
        ("48347.6986111111", False, "2032-05-13T19:46:00"),
        ("46885.69861", True, "2032-05-13T19:46:00"),
        ("48347.9999999999", False, "2032-05-14T03:00:00"),
        ("0.69861", False, "2031-05-14T19:46:00"),
    ],
)
def test_days_that_are_numbers_are_read(serial: str, from_1904: bool, when: str) -> None:
    table = open_table(f"Event;When\nBurn;{serial}\n")
    columns = replace(table.proposed, from_1904=from_1904)
    (row,) = read_table(table, columns, HALIFAX).rows
    assert at(row) == when


def test_the_day_that_never_was_is_no_day() -> None:
    table = open_table("Event;When\nA;59.5\nB;60.5\nC;61.5\n")
    columns = Columns((Meaning.NAME, Meaning.CLOCK), heading=True)
    imported = read_table(table, columns, Setting("UTC"))
    assert [at(row)[:10] for row in imported.rows] == ["1900-02-28", "1900-03-01"]
    assert imported.not_read[0].why == "60 is 29 February 1900, which never was"


def test_a_date_of_its_own_goes_with_the_time_of_its_row() -> None:
    text = "Event,Date,Time\nA,2031-05-15,4:46 PM\nB,48348,16:46\nC,5/15/2031 0:00,16:46"
    rows = read(text).rows
    assert [at(row) for row in rows] == [
        "2031-05-15T19:46:00",
        "2032-05-14T19:46:00",
        "2031-05-15T19:46:00",
    ]


def test_a_date_that_may_be_two_is_read_as_its_column_tells() -> None:
    alone = open_table("Event,Date,Time\nA,5/6/2031,16:46")
    (one,) = read_table(alone, alone.proposed, HALIFAX).not_read
    assert one.why == "'5/6/2031' may be 5 June or 6 May"
    (row,) = read_table(alone, replace(alone.proposed, day_first=True), HALIFAX).rows
    assert at(row) == "2031-06-05T19:46:00"
    beside = read("Event,Date,Time\nA,5/6/2031,16:46\nB,5/16/2031,16:46").rows
    assert at(beside[0]) == "2031-05-06T19:46:00"


def test_rows_without_a_date_run_on_past_midnight() -> None:
    rows = read("Time,Event\n4:46 PM,A\n12:10 AM,B").rows
    assert at(rows[1]) == "2031-05-15T03:10:00"
    assert "next day" in rows[1].told


def test_an_elapsed_time_beside_a_clock_time_tells_its_day() -> None:
    text = "MET\tEDT\tEvent\n0/00:00:00\t1:28 PM\tA\n3/03:27:30\t4:56 PM\tB\n3/04:00:00\t9:00 PM\tC"
    rows = read(text).rows
    assert [at(row)[:16] for row in rows] == [
        "2031-05-14T17:28",
        "2031-05-17T20:56",
        "2031-05-18T01:00",
    ]
    assert rows[2].told.startswith("clock and elapsed time do not agree")
    known = Setting(
        "America/Halifax", date(2031, 5, 14), zero_ms=rfc3339_to_ms("2031-05-11T17:28:00Z")
    )
    assert at(read(text, known).rows[1])[:10] == "2031-05-14"


def test_a_zone_in_the_heading_holds_for_its_column() -> None:
    (row,) = read("Event,Time (UTC)\nBurn,16:46").rows
    assert at(row) == "2031-05-14T16:46:00"


def test_both_changes_of_the_clocks_are_told() -> None:
    text = "Event,Time\nA,2031-03-09 02:30\nB,2031-11-02 01:30\nC,2031-11-02 01:30 AST"
    imported = read(text)
    assert [one.line for one in imported.not_read] == [2, 3]
    assert at(imported.rows[0]) == "2031-11-02T05:30:00"


def test_lengths_give_and_live_are_read() -> None:
    text = "Event,Time,Duration,Give,Live\nA,16:46,6m 14s,30 sec,Yes\nB,17:00,1:10:00,±2 min,"
    first, second = read(text).rows
    assert (first.length_ms, first.give_ms, first.live) == (374_000, 30_000, True)
    assert (second.length_ms, second.give_ms, second.live) == (4_200_000, 120_000, False)


def test_an_end_makes_a_length_also_past_midnight() -> None:
    rows = read("Event,Start,End\nA,23:50,00:10\nB,2031-05-15 23:50,2031-05-16 00:20").rows
    assert [row.length_ms for row in rows] == [1_200_000, 1_800_000]


def test_an_elapsed_time_alone_is_kept_as_one() -> None:
    text = "MET,Event\n2/12:23:00,A\n-00:10:00,B\n0.00694444,C"
    assert [row.elapsed_ms for row in read(text).rows] == [217_380_000, -600_000, 600_000]


def test_two_figures_are_read_as_a_person_says() -> None:
    table = open_table("MET,Event\nT+2:30,A")
    assert "may be hours" in read_table(table, table.proposed, HALIFAX).not_read[0].why
    said = replace(table.proposed, two_parts=TwoParts.MINUTES_SECONDS)
    assert read_table(table, said, HALIFAX).rows[0].elapsed_ms == 150_000


# ------------------------------------------------------------------ long and stopped


def long_table(rows: int) -> Table:
    return open_table("Event,Time\n" + "".join(f"E{at},{at % 24:02d}:00\n" for at in range(rows)))


def test_a_long_table_shows_progress_and_can_be_stopped() -> None:
    table = long_table(3_000)
    seen: list[int] = []

    def until_half(done: int, _of: int) -> bool:
        seen.append(done)
        return done < 1_500

    imported = read_table(table, table.proposed, HALIFAX, until_half)
    assert imported.stopped
    assert len(imported.rows) == 1_499
    assert seen == list(range(0, 1_501, 100))


def test_every_line_of_a_table_is_accounted_for() -> None:
    text = 'a;b\n\nBurn;16:46\n;;\n"x;1\n"y\nz";17:00\nBad;25:00\na;b\nOff;17:30'
    imported = read(text)
    seen = [one.line for one in imported.headings]
    for row in imported.rows:
        seen += [row.line, *row.more_lines]
    for one in imported.not_read:
        seen += [one.line, *one.more_lines]
    assert sorted(seen) == [1, 3, 4, 5, 6, 7, 8, 9, 10]
