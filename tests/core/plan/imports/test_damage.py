"""Whatever is pasted, a reader gives rows and reasons, or refuses the whole: no more than that."""

from contextlib import suppress
from dataclasses import replace
from datetime import date, time

from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import PlanProblems
from core.plan.imports.calendar import read_calendar
from core.plan.imports.events import events_of
from core.plan.imports.kinds import kind_of
from core.plan.imports.model import Imported, Setting, TwoParts
from core.plan.imports.opening import lines_of, text_of
from core.plan.imports.orbits import read_orbit
from core.plan.imports.table import open_table, read_table
from core.plan.imports.timeline import read_timeline
from core.plan.model import Event, Plan

PLAN = Plan(
    "Petrel 4",
    ("America/Halifax",),
    elapsed_from="liftoff",
    events=(Event("liftoff", "Liftoff", at_ms=0),),
)

_SETTINGS = st.builds(
    Setting,
    st.sampled_from(["America/Halifax", "UTC", "Pacific/Apia", "Europe/Dublin"]),
    st.none() | st.sampled_from([date.min, date.max, date(2031, 3, 9), date(2031, 11, 2)]),
    st.sampled_from([(), ("America/New_York",)]),
    st.none() | st.sampled_from(TwoParts),
    st.none() | st.sampled_from([0, -(2**62), 2**62, 1_900_000_000_000]),
)

_WORDS = st.sampled_from(
    [
        *("16:46", "4:46", "p.m.", "a.m.", "T+", "L-", "MET", "GET", "GMT", "UTC", "EDT", "IST"),
        *("0:00:00", "74:16:29", "003/00:52:28", "134/17:21", "24:00", "00:00", "99:99", "2400Z"),
        *(
            "May 14",
            "14 May 2031",
            "2031-05-14",
            "0001-01-01",
            "9999-12-31",
            "31/12/9999",
            "Feb 29",
        ),
        *("0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00", "2031-03-09 02:30", "Sunday"),
        *("Time", "Event", "Date", "Give", "Live", "yes", "Ignition", "±", "2 min", "to", "–", "("),
        *(
            ")",
            "....",
            "  ",
            "\t",
            ",",
            ";",
            '"',
            "|",
            "*",
            "noon",
            "48347.69861",
            "0.5",
            "60",
            "-1",
        ),
        *(
            "9" * 400,
            "1e9",
            "∞",
            "٣:٤٥",
            "²",
            "\u2028",
            "\u00a0",
            "ı",
            "about",
            "NET",
            "day 4",
            ":",
        ),
    ]
)
_TEXTS = st.lists(st.lists(_WORDS, max_size=7).map(" ".join), max_size=8).map("\n".join)
_LINES = st.sampled_from(
    [
        *("UID:1", "SUMMARY:A", "SUMMARY", "STATUS:CANCELLED", "DTEND:20310514", "DTSTART:"),
        *("DTSTART:20310514T164600Z", "DTSTART;VALUE=DATE:20310514", "DTSTART:00010101T000000"),
        *("DTSTART;TZID=America/Halifax:99991231T235959", "DTSTART;TZID=Odd:20310514T164600"),
        *("DTSTART:99991231T235959Z", "DTSTART;TZID=:20310514T164600", "DTSTART;VALUE=TIME:101010"),
        *("DTSTART;VALUE=PERIOD:20310514T164600Z/PT5M", "DTSTART;TZID=..:20310514T164600"),
        *("DTEND:20310514T170000Z", "DTEND;VALUE=DATE:20310515", "DTEND:99991231T235959"),
        *("DURATION:PT5M", "DURATION:P99999999D", "DURATION:-P1W", "DURATION:x"),
        *(
            "RRULE:FREQ=DAILY;COUNT=3",
            "RRULE:FREQ=WEEKLY;UNTIL=99991231",
            "RRULE:",
            "RRULE:COUNT=2",
        ),
        *("RRULE:FREQ=YEARLY;BYMONTHDAY=-31;BYSETPOS=-1", "RRULE:FREQ=MONTHLY;INTERVAL=99999999"),
        *(
            "RRULE:FREQ=YEARLY;BYWEEKNO=99",
            "RRULE:FREQ=DAILY;BYHOUR=99",
            "RRULE:FREQ=DAILY;COUNT=x",
        ),
        *("RRULE:FREQ=WEEKLY;BYDAY=XX", "RRULE:FREQ=HOURLY", "RRULE:FREQ=YEARLY;UNTIL=00010101"),
        *("RDATE:20310601T000000Z", "RDATE;VALUE=PERIOD:20310601T000000Z/PT1H", "RDATE:99991231"),
        *("EXDATE:20310514T164600Z", "EXDATE;VALUE=DATE:20310514", "EXDATE:x", "RECURRENCE-ID:x"),
        *(
            "RECURRENCE-ID:20310514T164600Z",
            "RECURRENCE-ID;VALUE=DATE:20310514",
            "X-LIMBWATCH-AT:x",
        ),
        *("X-LIMBWATCH-GIVE:x", "X-LIMBWATCH-GIVE:-5s", "X-LIMBWATCH-AT:9999-12-31T23:59:59Z"),
        *("BEGIN:VALARM", "END:VALARM", "BEGIN:VEVENT", "END:VEVENT", "no colon", " folded", ";=:"),
    ]
)
_STARTS = _LINES.filter(lambda line: line.startswith("DTSTART"))
_OTHERS = st.lists(_LINES, max_size=4)
_ENTRIES = st.lists(
    st.builds(lambda start, others: ["SUMMARY:A", start, *others], _STARTS, _OTHERS)
    | st.lists(_LINES, max_size=7),
    max_size=3,
)


def is_whole(imported: Imported) -> None:
    """What any reading must give."""
    for row in imported.rows:
        assert row.name.strip()
        assert (row.at_ms is None) != (row.elapsed_ms is None)
        assert row.give_ms >= 0
        assert row.length_ms is None or row.length_ms >= 0
    assert all(one.why and one.hint for one in imported.not_read)
    made = events_of(imported.rows, PLAN)
    assert len(made.events) + len(made.same) + len(made.not_taken) == len(imported.rows)


@settings(max_examples=150, deadline=None)
@given(_TEXTS, _SETTINGS)
def test_no_timeline_breaks_its_reader(text: str, setting: Setting) -> None:
    with suppress(PlanProblems):
        is_whole(read_timeline(text, setting))


def seen_lines(imported: Imported) -> list[int]:
    """Every line that a row, a heading or a reason stands for."""
    seen = [one.line for one in imported.headings]
    for row in imported.rows:
        seen += [row.line, *row.more_lines]
    for one in imported.not_read:
        seen += [one.line, *one.more_lines]
    return sorted(seen)


@settings(max_examples=150, deadline=None)
@given(_TEXTS, st.booleans())
def test_no_line_of_a_table_is_dropped_or_told_twice(text: str, heading: bool) -> None:
    if not text.strip():
        return
    table = open_table(text)
    columns = replace(table.proposed, heading=heading)
    seen = seen_lines(read_table(table, columns, Setting("UTC", date(2031, 5, 14))))
    assert len(seen) == len(set(seen))
    written = [at for at, line in enumerate(lines_of(text), 1) if line.strip()]
    assert set(written) <= set(seen)


@settings(max_examples=150, deadline=None)
@given(_TEXTS, _SETTINGS)
def test_no_table_breaks_its_reader(text: str, setting: Setting) -> None:
    with suppress(PlanProblems):
        table = open_table(text)
        is_whole(read_table(table, table.proposed, setting))


@settings(max_examples=200, deadline=None)
@given(_ENTRIES, _SETTINGS, st.none() | st.just(time(9, 30)))
def test_no_calendar_breaks_its_reader(
    entries: list[list[str]], setting: Setting, all_day_at: time | None
) -> None:
    body = [line for entry in entries for line in ("BEGIN:VEVENT", *entry, "END:VEVENT")]
    text = "\r\n".join(["BEGIN:VCALENDAR", *body, "END:VCALENDAR"])
    is_whole(read_calendar(text, setting, all_day_at=all_day_at))


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=200) | _TEXTS.map(str.encode))
def test_no_bytes_break_what_looks_at_them(data: bytes) -> None:
    with suppress(PlanProblems):
        text = text_of(data, "paste").text
        kind_of(text)
        read_orbit(text, "paste")
