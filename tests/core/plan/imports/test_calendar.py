import time as clock
from datetime import UTC, date, datetime, time, timedelta

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given, settings
from hypothesis import strategies as st

from core.plan.imports.calendar import read_calendar
from core.plan.imports.model import Imported, Row, Setting
from core.plan.imports.opening import lines_of
from core.times.instants import ms_to_rfc3339
from core.times.zones import find_zone

HALIFAX = Setting("America/Halifax", date(2031, 5, 14))

OWN_ZONE = """BEGIN:VTIMEZONE
TZID:Skerry Time
BEGIN:STANDARD
DTSTART:19701101T020000
TZOFFSETFROM:-0300
TZOFFSETTO:-0400
RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU
END:STANDARD
BEGIN:DAYLIGHT
DTSTART:19700308T020000
TZOFFSETFROM:-0400
TZOFFSETTO:-0300
RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU
END:DAYLIGHT
END:VTIMEZONE"""


def entry(*lines: str) -> str:
    return "\n".join(("BEGIN:VEVENT", *lines, "END:VEVENT"))


def calendar(*parts: str) -> str:
    whole = "\n".join(("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//X//Y//EN", *parts))
    return whole.replace("\n", "\r\n") + "\r\nEND:VCALENDAR\r\n"


def read(*parts: str, all_day_at: time | None = None) -> Imported:
    return read_calendar(calendar(*parts), HALIFAX, all_day_at=all_day_at)


def times(imported: Imported) -> list[str]:
    return [ms_to_rfc3339(row.at_ms or 0)[:19] for row in imported.rows]


def only(*parts: str) -> Row:
    imported = read(*parts)
    assert not imported.not_read
    (row,) = imported.rows
    return row


# ------------------------------------------------------------------ times


@pytest.mark.parametrize(
    ("start", "when", "told"),
    [
        ("DTSTART:20310514T164600Z", "2031-05-14T16:46:00", ""),
        (
            "DTSTART:20310514T164600",
            "2031-05-14T19:46:00",
            "no zone: read in America/Halifax",
        ),
        ("DTSTART;TZID=America/New_York:20310514T164600", "2031-05-14T20:46:00", ""),
        ("DTSTART;TZID=Eastern Standard Time:20310514T164600", "2031-05-14T20:46:00", ""),
        ("DTSTART;TZID=Skerry Time:20310514T164600", "2031-05-14T19:46:00", ""),
        ("DTSTART;TZID=Skerry Time:20311214T164600", "2031-12-14T20:46:00", ""),
        (
            "DTSTART;TZID=America/Halifax:20310309T023000",
            "2031-03-09T06:30:00",
            "clocks skip this time: taken as if they did not",
        ),
        (
            "DTSTART;TZID=America/Halifax:20311102T013000",
            "2031-11-02T04:30:00",
            "clocks show this time twice: the first was taken",
        ),
    ],
)
def test_zoned_universal_and_floating_times_are_read(start: str, when: str, told: str) -> None:
    imported = read(OWN_ZONE, entry("SUMMARY:A", start))
    assert times(imported) == [when]
    assert imported.rows[0].told == told


def test_the_rules_of_one_calendar_do_not_hold_in_the_next() -> None:
    start = entry("SUMMARY:A", "DTSTART;TZID=Skerry Time:20310514T164600")
    assert times(read(OWN_ZONE, start)) == ["2031-05-14T19:46:00"]
    assert "Skerry Time" in read(start).not_read[0].why


def test_a_whole_day_is_no_instant_unless_a_time_is_given() -> None:
    day = entry("SUMMARY:A", "DTSTART;VALUE=DATE:20310514")
    (one,) = read(day).not_read
    assert one.why == "this lasts all day: it has no time"
    assert one.hint == "Give a time of day for such entries"
    given_ = read(day, all_day_at=time(9, 30))
    assert times(given_) == ["2031-05-14T12:30:00"]
    assert given_.rows[0].told == "all day: taken at 09:30"


def test_the_end_or_the_duration_makes_a_length() -> None:
    start = "DTSTART:20310514T164600Z"
    assert only(entry("SUMMARY:A", start, "DURATION:PT6M14S")).length_ms == 374_000
    assert only(entry("SUMMARY:A", start, "DTEND:20310514T165000Z")).length_ms == 240_000
    assert only(entry("SUMMARY:A", start)).length_ms is None


def test_words_are_unfolded_and_unescaped() -> None:
    row = only(
        entry("SUMMARY:Burn\\, the", "  big\\none", "DTSTART:20310514T164600Z", "LOCATION:Tarn")
    )
    assert (row.name, row.note, row.line) == ("Burn, the big one", "Tarn", 4)
    assert row.more_lines == (5, 6, 7, 8, 9)


# ------------------------------------------------------------------ again and again

DAILY = ("UID:sleep", "SUMMARY:Sleep", "DTSTART;TZID=America/Halifax:20310307T223000")


def test_a_rule_keeps_the_clock_time_across_both_changes() -> None:
    spring = read(entry(*DAILY, "RRULE:FREQ=DAILY;COUNT=3"))
    assert times(spring) == ["2031-03-08T02:30:00", "2031-03-09T02:30:00", "2031-03-10T01:30:00"]
    autumn = "DTSTART;TZID=America/Halifax:20311101T223000"
    rows = read(entry("SUMMARY:A", autumn, "RRULE:FREQ=DAILY;COUNT=2"))
    assert times(rows) == ["2031-11-02T01:30:00", "2031-11-03T02:30:00"]


def test_a_rule_in_universal_time_does_not_change_with_the_clocks() -> None:
    rows = read(entry("SUMMARY:A", "DTSTART:20310308T023000Z", "RRULE:FREQ=DAILY;COUNT=3"))
    assert {one[11:] for one in times(rows)} == {"02:30:00"}


def test_times_left_out_and_added_are_heeded() -> None:
    rows = read(
        entry(
            *DAILY,
            "RRULE:FREQ=DAILY;COUNT=3",
            "EXDATE;TZID=America/Halifax:20310308T223000",
            "RDATE:20310320T120000Z",
        )
    )
    assert times(rows) == ["2031-03-08T02:30:00", "2031-03-10T01:30:00", "2031-03-20T12:00:00"]


def test_one_time_of_many_may_be_moved_or_cancelled() -> None:
    imported = read(
        entry(*DAILY, "RRULE:FREQ=DAILY;COUNT=3"),
        entry(
            "UID:sleep",
            "SUMMARY:Sleep later",
            "RECURRENCE-ID;TZID=America/Halifax:20310308T223000",
            "DTSTART;TZID=America/Halifax:20310308T233000",
        ),
        entry(
            "UID:sleep",
            "SUMMARY:Sleep",
            "STATUS:CANCELLED",
            "RECURRENCE-ID;TZID=America/Halifax:20310309T223000",
            "DTSTART;TZID=America/Halifax:20310309T223000",
        ),
    )
    assert times(imported) == ["2031-03-08T02:30:00", "2031-03-09T03:30:00"]
    assert imported.rows[1].told == "in place of the one at 22:30 on 2031-03-08"
    assert imported.not_read[0].why == "this is cancelled"


def test_a_rule_without_end_is_cut_and_says_so() -> None:
    imported = read(entry(*DAILY, "RRULE:FREQ=WEEKLY"))
    assert len(imported.rows) == 53
    assert imported.told == ("Line 4: 'Sleep' repeats; taken for a year, until 2032-03-07",)


def test_a_rule_that_ends_within_its_horizon_is_not_called_cut() -> None:
    for until in ("20310401T000000Z", "20310401", "20310401T000000"):
        imported = read(entry(*DAILY, f"RRULE:FREQ=WEEKLY;UNTIL={until}"))
        assert len(imported.rows) == 4
        assert not imported.told


def test_a_rule_that_never_comes_again_leaves_its_first_time_and_says_so() -> None:
    began = clock.process_time()
    imported = read(entry(*DAILY, "RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30"))
    assert clock.process_time() - began < 2
    assert len(imported.rows) == 1
    assert "the rule gives none" in imported.told[0]


_RULES = st.builds(
    lambda often, every, count, extra: f"FREQ={often};INTERVAL={every};COUNT={count}{extra}",
    st.sampled_from(["DAILY", "WEEKLY", "MONTHLY", "YEARLY"]),
    st.integers(1, 3),
    st.integers(1, 12),
    st.sampled_from(["", ";BYDAY=MO,FR", ";BYMONTH=2,5,11", ";BYDAY=WE;WKST=SU"]),
)


@settings(max_examples=60, deadline=None)
@given(
    _RULES,
    st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1)),
    st.sampled_from(["America/Halifax", "Europe/Dublin", "Australia/Sydney"]),
)
def test_a_rule_gives_what_its_library_gives_in_its_own_years(
    rule: str, first: datetime, zone: str
) -> None:
    first = first.replace(microsecond=0)
    start = f"DTSTART;TZID={zone}:{first:%Y%m%dT%H%M%S}"
    imported = read(entry("SUMMARY:A", start, f"RRULE:{rule}"))
    last = first + timedelta(days=366)
    wanted = {first, *(each for each in rrulestr(rule, dtstart=first) if each <= last)}
    there = find_zone(zone)
    instants = {each.replace(tzinfo=there).astimezone(UTC) for each in wanted}
    assert set(times(imported)) == {f"{each:%Y-%m-%dT%H:%M:%S}" for each in instants}


# ------------------------------------------------------------------ nothing lost


def test_every_line_is_in_a_row_a_heading_or_told_as_not_read() -> None:
    text = calendar(
        OWN_ZONE,
        entry("SUMMARY:A", "DTSTART:20310514T164600Z", "RRULE:FREQ=DAILY;COUNT=2"),
        entry("SUMMARY:B", "DTSTART:nonsense"),
        "BEGIN:VTODO\nSUMMARY:C\nEND:VTODO",
        "X-STRAY:long",
        "  and folded",
        "BEGIN:VEVENT\nSUMMARY:open",
    )
    imported = read_calendar(text, HALIFAX)
    lines = {one.line for one in imported.headings}
    lines |= {at for row in imported.rows for at in (row.line, *row.more_lines)}
    lines |= {at for one in imported.not_read for at in (one.line, *one.more_lines)}
    assert lines == {at for at, line in enumerate(lines_of(text), 1) if line.strip()}
    assert [one.why for one in imported.not_read] == [
        "DTSTART on line 26 means nothing",
        "a VTODO is no event",
        "BEGIN:VEVENT has no END:VEVENT",
    ]


def test_a_long_calendar_shows_progress_and_can_be_stopped() -> None:
    parts = [entry(f"SUMMARY:E{at}", "DTSTART:20310514T164600Z") for at in range(300)]
    seen: list[int] = []

    def until_half(done: int, _of: int) -> bool:
        seen.append(done)
        return done < 200

    imported = read_calendar(calendar(*parts), HALIFAX, progress=until_half)
    assert imported.stopped
    assert len(imported.rows) == 200
    assert seen == [0, 100, 200]
