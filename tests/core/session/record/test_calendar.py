"""The record as a calendar: read back by the library, and by the zone's rules in the file."""

from collections.abc import Iterator
from datetime import datetime, timedelta

import icalendar
import pytest
from hypothesis import given, settings

from core.entries.model import Entry, Happened
from core.plan.model import Event, Plan
from core.session.record.calendar import record_calendar
from core.session.record.making import Source, record_of
from core.session.record.model import DayRecord
from core.session.record.words import EDITORIAL
from core.times.instants import aware_to_ms, rfc3339_to_ms
from core.times.writing import floor_second_ms
from tests.core.session.record.days import long_day
from tests.core.session.record.drawn import records


def events_of(text: bytes) -> Iterator[icalendar.Event]:
    for part in icalendar.Calendar.from_ical(text).walk("VEVENT"):
        assert isinstance(part, icalendar.Event)
        yield part


def start_ms(event: icalendar.Event) -> int:
    start = event.decoded("dtstart")
    assert isinstance(start, datetime)
    return aware_to_ms(start)


def by_its_own_rules(text: bytes) -> bytes:
    """The same calendar under a zone's name that nobody knows: only the rules in it can tell."""
    return text.replace(b"TZID:", b"TZID:limbwatch-").replace(b"TZID=", b"TZID=limbwatch-")


def wanted(record: DayRecord) -> list[tuple[str, int]]:
    """The names and whole seconds that must come back."""
    mark = "REHEARSAL: " if record.rehearsal else ""
    timed = [
        (row.name, row.planned_ms if row.last_ms is None else row.last_ms) for row in record.events
    ]
    timed += [
        (row.name, row.placed_ms if row.from_ms is None else row.from_ms) for row in record.items
    ]
    return [(mark + name, floor_second_ms(ms)) for name, ms in timed if ms is not None]


@settings(max_examples=40, deadline=None)
@given(records())
def test_read_back_it_has_the_same_instants_and_names(record: DayRecord) -> None:
    text = record_calendar(record)
    found = [(str(event["summary"]), start_ms(event)) for event in events_of(text)]
    assert found == wanted(record)


@settings(max_examples=40, deadline=None)
@given(records())
def test_the_rules_of_the_zone_in_the_file_give_the_same_instants(record: DayRecord) -> None:
    text = by_its_own_rules(record_calendar(record))
    assert [start_ms(event) for event in events_of(text)] == [ms for _, ms in wanted(record)]


@settings(max_examples=20, deadline=None)
@given(records())
def test_exact_instants_stand_in_properties_of_ours(record: DayRecord) -> None:
    events = [e for e in events_of(record_calendar(record)) if str(e["uid"]).startswith("event.")]
    rows = [row for row in record.events if row.last_ms is not None or row.planned_ms is not None]
    for event, row in zip(events, rows, strict=True):
        for word, at_ms in (
            ("planned", row.planned_ms),
            ("expected", row.expected_ms),
            ("said", row.said_ms),
            ("happened", row.happened_ms),
        ):
            text = event.get(f"x-limbwatch-{word}")
            assert (None if text is None else rfc3339_to_ms(str(text))) == at_ms


@pytest.mark.parametrize(
    ("at", "local"),
    [
        ("2031-11-02T04:30:00Z", None),  # 1:30 the first time: shown twice, so in UTC
        ("2031-11-02T05:30:00Z", None),  # 1:30 the second time
        ("2031-11-02T06:30:00Z", "2031-11-02T02:30:00-04:00"),
        ("2031-03-09T05:59:59Z", "2031-03-09T01:59:59-04:00"),
        ("2031-03-09T06:00:00Z", "2031-03-09T03:00:00-03:00"),
    ],
)
def test_a_change_of_clocks_leaves_every_instant_where_it_is(at: str, local: str | None) -> None:
    at_ms = rfc3339_to_ms(at)
    plan = Plan("Petrel 4", ("America/Halifax",), events=(Event("a", "A", at_ms=at_ms),))
    entries = (Entry(1, at_ms, "a now", Happened("a", at_ms)),)
    (event,) = events_of(record_calendar(record_of(Source(plan, entries))))
    start = event.decoded("dtstart")
    assert aware_to_ms(start) == at_ms
    assert (start.tzname() == "UTC") is (local is None)
    if local is not None:
        assert start == datetime.fromisoformat(local)
        assert start.replace(tzinfo=None) == datetime.fromisoformat(local).replace(tzinfo=None)


def test_an_item_has_its_length_as_it_ran() -> None:
    text = record_calendar(long_day().record())
    items = [e for e in events_of(text) if str(e["uid"]).startswith("item.")]
    assert [(str(e["summary"]), e.decoded("duration")) for e in items] == [
        ("Break 1", timedelta(seconds=140))
    ]
    assert str(items[0]["status"]) == "CONFIRMED"


def test_what_was_called_off_or_did_not_come_is_cancelled() -> None:
    found = {
        str(e["summary"]): str(e["status"]) for e in events_of(record_calendar(long_day().record()))
    }
    assert found["Ignition"] == "CONFIRMED"
    assert found["Cutoff"] == "TENTATIVE"
    assert found["Signal back, if no burn"] == "CANCELLED"


def test_every_entry_says_what_it_is_not_for_and_whether_it_is_a_rehearsal() -> None:
    events = list(events_of(record_calendar(long_day(rehearsal=True).record())))
    assert events
    for event in events:
        assert EDITORIAL in str(event["description"])
        assert str(event["summary"]).startswith("REHEARSAL: ")
        assert str(event["x-limbwatch-rehearsal"]) == "TRUE"


def test_no_line_is_longer_than_the_standard_allows() -> None:
    text = record_calendar(long_day().record())
    assert max(len(line) for line in text.split(b"\r\n")) <= 75


def test_names_of_entries_are_unlike_each_other() -> None:
    uids = [str(event["uid"]) for event in events_of(record_calendar(long_day().record()))]
    assert len(uids) == len(set(uids))
