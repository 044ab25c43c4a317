"""The table of broken input of each kind: what is told, where, and what to do instead."""

import time
from collections.abc import Callable
from datetime import date

import pytest

from core.errors import PlanProblems
from core.plan.imports.calendar import read_calendar
from core.plan.imports.model import Imported, Setting
from core.plan.imports.opening import text_of
from core.plan.imports.orbits import read_orbit
from core.plan.imports.table import open_table, read_table
from core.plan.imports.timeline import read_timeline
from tests.core.plan.orbitdata.petrel import OEM, OMM, TWO_LINES

HALIFAX = Setting("America/Halifax", date(2031, 5, 14))
NO_DAY = Setting("America/Halifax")


def timeline(text: str, setting: Setting = HALIFAX) -> Imported:
    return read_timeline(text, setting)


def table(text: str) -> Imported:
    opened = open_table(text)
    return read_table(opened, opened.proposed, HALIFAX)


def entry(*lines: str) -> Imported:
    body = ("BEGIN:VCALENDAR", "BEGIN:VEVENT", *lines, "END:VEVENT", "END:VCALENDAR")
    return read_calendar("\r\n".join(body), HALIFAX)


START = "DTSTART:20310514T164600Z"

LINES: dict[str, tuple[str, str, str]] = {
    "no time": ("Wheels stop", "no time in this line", "Write a time in front"),
    "not known yet": ("TBD  Press talk", "not known yet", "Add it when it is"),
    "no such minute": ("16:75 A", "is no time of day", "23:59:59"),
    "no such hour": ("25:00 A", "is no time of day", "23:59:59"),
    "two halves": ("16:46 p.m. A", "an hour of 24", "Keep one"),
    "half open": ("4:46 A", "may be a.m. or p.m.", "Write 4:46 p.m., or 04:46"),
    "two figures": ("T+2:30 A", "may be hours and minutes", "h:mm:ss"),
    "sixty seconds": ("T+03:29:61 A", "sixty or more", "75:27:30"),
    "too long": ("T+9999999 h A", "longer than a hundred years", "Check the figures"),
    "no such day": ("30 Feb 16:46 A", "does not exist", "Check the date"),
    "day or month": ("5/6/2031 16:46 A", "may be 5 June or 6 May", "2031-05-06"),
    "zone of many": ("16:46 IST A", "more than one zone", "Write it in UTC"),
    "skipped": ("2031-03-09 02:30 A", "clocks skip it", "in UTC with Z"),
    "twice": ("2031-11-02 01:30 A", "comes twice", "Write which"),
    "do not agree": ("16:46 ADT (1200 UTC) A", "do not agree", "Keep the right one"),
    "several": ("From 16:46 A and then 17:00 B", "more than one time", "a line of its own"),
    "only a time": ("16:46", "a time without words", "Write what happens"),
    "day 400": ("GMT 400/16:46 A", "does not exist", "Check the day's number"),
    "looks like one": ("16.46 A", "could not be read", "4:46 p.m."),
    "backwards": ("T+2:00:00 to T+1:00:00 A", "ends before it begins", "earlier time first"),
    "a page": ("x" * 3_000, "over 2,000 characters", "Break it up"),
}


@pytest.mark.parametrize("name", LINES)
def test_a_broken_line_of_a_timeline_is_told(name: str) -> None:
    line, what, hint = LINES[name]
    imported = timeline(f"\n{line}")
    (one,) = imported.not_read
    assert not imported.rows
    assert (one.line, one.text) == (2, line)
    assert what in one.why
    assert hint in one.hint
    assert one.hint


def test_a_time_without_any_day_asks_for_one() -> None:
    for line, what in (
        ("16:46 A", "has no day"),
        ("May 14 16:46 A", "no year"),
        ("Mon 16:46 A", "no date"),
    ):
        (one,) = timeline(line, NO_DAY).not_read
        assert what in one.why
        assert "Give the first day" in one.hint


CELLS: dict[str, tuple[str, str, str]] = {
    "no name": (",2031-05-14 16:46,,,", "no name", "Write what happens"),
    "no time": ("A,,,,", "no time", "a clock time or an elapsed time"),
    "no clock time": ("A,soon,,,", "'soon' is no clock time", "2031-05-14 16:46:00"),
    "a day alone": ("A,48347,,,", "a day without a time", "Add the time of day"),
    "no unit": ("A,16:46,30,,", "no unit", "30s for seconds"),
    "negative give": ("A,16:46,-30s,,", "negative", "minus sign"),
    "neither yes nor no": ("A,16:46,,perhaps,", "neither yes nor no", "Write yes"),
    "ends too early": ("A,2031-05-14 16:46,,,2031-05-13 16:00", "ends before it begins", "earlier"),
    "a figure too many": ("A,16:46:00:00,,,", "no clock time", "2031-05-14 16:46:00"),
    "five thousand figures": ("A," + "9" * 5_000 + ",,,", "no clock time", "2031-05-14"),
}


@pytest.mark.parametrize("name", CELLS)
def test_a_broken_row_of_a_table_is_told(name: str) -> None:
    row, what, hint = CELLS[name]
    imported = table(f"Event,Start,Give,Live,End\nB,16:00,,,\n{row}")
    (one,) = imported.not_read
    assert (one.line, one.text) == (3, row)
    assert what in one.why
    assert hint in one.hint


ENTRIES: dict[str, tuple[tuple[str, ...], str, str]] = {
    "no beginning": (("SUMMARY:A",), "no DTSTART", "Give it a beginning"),
    "no name": ((START,), "no SUMMARY", "Give it a name"),
    "nonsense": (("SUMMARY:A", "DTSTART:soon"), "DTSTART on line 4", "RFC 5545"),
    "no such day": (("SUMMARY:A", "DTSTART:20310230T100000Z"), "DTSTART on line 4", "RFC 5545"),
    "all day": (("SUMMARY:A", "DTSTART;VALUE=DATE:20310514"), "lasts all day", "time of day"),
    "strange zone": (("SUMMARY:A", "DTSTART;TZID=Mars/Base:20310514T164600"), "Mars/Base", "UTC"),
    "cancelled": (("SUMMARY:A", START, "STATUS:CANCELLED"), "cancelled", "Nothing to do"),
    "backwards": (("SUMMARY:A", START, "DURATION:-PT5M"), "ends before it begins", "Mend"),
    "no such rule": (("SUMMARY:A", START, "RRULE:FREQ=NEVER"), "RRULE on line 5", "RFC 5545"),
    "every second": (("SUMMARY:A", START, "RRULE:FREQ=SECONDLY"), "every second", "Write out"),
    "every nought": (("SUMMARY:A", START, "RRULE:FREQ=DAILY;INTERVAL=0"), "nought", "1 or more"),
    "hours picked": (
        ("SUMMARY:A", START, "RRULE:FREQ=HOURLY;BYMONTH=2;BYMONTHDAY=30"),
        "picks among hours",
        "FREQ=DAILY",
    ),
    "week 99": (("SUMMARY:A", START, "RRULE:FREQ=YEARLY;BYDAY=99MO"), "past the weeks", "53"),
    "deep rule": (
        ("SUMMARY:A", START, "RRULE:FREQ=DAILY;BYDAY=" + ",".join(["MO"] * 20_000)),
        "very long",
        "Write its times out",
    ),
    "vast count": (("SUMMARY:A", START, "RRULE:FREQ=DAILY;COUNT=" + "9" * 5_000), "RRULE", "5545"),
    "twice": (("SUMMARY:A", START, START), "stands twice", "Keep one"),
    "all later": (
        ("UID:1", "SUMMARY:A", START, "RECURRENCE-ID;RANGE=THISANDFUTURE:20310514T164600Z"),
        "all later times",
        "Write an entry",
    ),
}


@pytest.mark.parametrize("name", ENTRIES)
def test_a_broken_entry_of_a_calendar_is_told_within_a_second(name: str) -> None:
    lines, what, hint = ENTRIES[name]
    began = time.process_time()
    (one,) = entry(*lines).not_read
    assert time.process_time() - began < 1
    assert one.line == 2
    assert what in one.why
    assert hint in one.hint
    assert len(one.why) < 200


WHOLE: dict[str, tuple[Callable[[], object], str, str]] = {
    "too much": (lambda: text_of(b"x" * 50_000_000, "paste"), "over 20 MB", "the times only"),
    "too much text": (lambda: timeline("x\n" * 15_000_000), "over 20 MB", "the times only"),
    "nothing": (lambda: text_of(b"", "paste"), "this is empty", "Copy the lines"),
    "nothing but room": (lambda: timeline(" \n\t\n"), "this is empty", "Copy the lines"),
    "a NUL": (lambda: text_of(b"16:46 A\nB\0C", "paste"), "paste:2:2: here is a NUL", "plain text"),
    "a control sign": (lambda: timeline("16:46 A\x1b"), "a control character", "plain text"),
    "half a sign": (lambda: timeline("16:46 A\ud800"), "a control character", "plain text"),
    "a picture": (
        lambda: text_of(b"\x89PNG\r\n\x1a\n\0\0\0", "p.png"),
        "no text",
        "Save it as text",
    ),
    "half a file": (lambda: text_of(b"\xff\xfeA", "paste"), "breaks off", "again"),
    "no calendar": (lambda: read_calendar("BEGIN:VCARD", HALIFAX), "no calendar", "VCALENDAR"),
    "no orbit": (lambda: read_orbit("hello", "a.txt"), "a.txt:1:1: this holds no orbit", "OEM"),
    "cut trajectory": (lambda: read_orbit(OEM[:300], "a.oem"), "a.oem", "again"),
    "odd trajectory": (lambda: read_orbit(OEM.replace("EARTH", "VENUS"), "a.oem"), "a.oem:10", ""),
    "odd elements": (lambda: read_orbit(OMM.replace("TEME", "GCRF"), "a.omm"), "TEME", "SGP4"),
    "bad two lines": (lambda: read_orbit(TWO_LINES.replace("15.5", "15.6"), "a.tle"), "a.tle", ""),
    "broken XML": (lambda: read_orbit("<?xml?><ndm><oem", "a.xml"), "a.xml", ""),
}


@pytest.mark.parametrize("name", WHOLE)
def test_a_text_that_cannot_be_taken_is_refused_within_a_second(name: str) -> None:
    read, what, hint = WHOLE[name]
    began = time.process_time()
    with pytest.raises(PlanProblems) as raised:
        read()
    assert time.process_time() - began < 2
    assert what in str(raised.value)
    assert hint in str(raised.value)
    assert raised.value.problems[0].hint


@pytest.mark.parametrize(
    "rule",
    [
        "FREQ=SECONDLY",
        "FREQ=HOURLY",
        "FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30",
        "FREQ=DAILY;INTERVAL=0",
        "FREQ=YEARLY;BYDAY=99MO",
        "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30",
        "FREQ=YEARLY;BYMONTH=3;BYDAY=2SU;COUNT=" + "9" * 5_000,
        "FREQ=YEAR\r\n LY;BYDAY=99MO",
    ],
)
def test_a_zone_with_rules_that_no_zone_has_is_told_within_a_second(rule: str) -> None:
    change = "TZOFFSETFROM:-0300\r\nTZOFFSETTO:-0400\r\n"
    text = "BEGIN:VCALENDAR\r\nBEGIN:VTIMEZONE\r\nTZID:Odd\r\n"
    for kind in ("STANDARD", "DAYLIGHT"):
        text += f"BEGIN:{kind}\r\nDTSTART:19700101T020000\r\n{change}RRULE:{rule}\r\nEND:{kind}\r\n"
    text += "END:VTIMEZONE\r\nBEGIN:VEVENT\r\nSUMMARY:A\r\nDTSTART;TZID=Odd:20310514T164600\r\n"
    began = time.process_time()
    imported = read_calendar(f"{text}END:VEVENT\r\nEND:VCALENDAR", HALIFAX)
    assert time.process_time() - began < 1
    assert imported.told == ("Line 2: the rules of this zone cannot be followed",)
    assert "the zone 'Odd' is not known here" in imported.not_read[0].why


@pytest.mark.parametrize(
    "line",
    [
        "9" * 1_900,
        "1:" * 900,
        "T+" + "9" * 1_900,
        "16:46 " + "(" * 1_900,
        ". " * 900,
        "4:46 to " * 200,
        "May " * 450,
        "16:46" + " " * 1_900 + "A",
        "a" * 1_900 + "16:46",
        "-" * 1_900,
        "*" * 1_900 + " 16:46",
        "[1]" * 600,
    ],
)
def test_no_line_takes_long(line: str) -> None:
    began = time.process_time()
    imported = timeline("\n".join([line] * 20))
    assert time.process_time() - began < 2
    assert len(imported.rows) + len(imported.not_read) + len(imported.headings) == 20


def test_no_table_takes_long() -> None:
    for text in ('"' * 30_000, '"a\n' * 3_000, "," * 50_000, "a,b\n" * 20_000):
        began = time.process_time()
        table(text)
        assert time.process_time() - began < 4
