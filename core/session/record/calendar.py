"""The record as a calendar (RFC 5545): an entry for each event, and one with a length for items.

A calendar's own times are whole seconds; the exact instants stand in properties of ours, in RFC
3339. Times are the desk's zone's, with the rules of that zone in the file. An hour that clocks show
twice is written in UTC: the standard reads such a time as the earlier of the two.
"""

from collections.abc import Iterable
from datetime import date, datetime, timedelta

import icalendar
from dateutil import tz

from core.session.record.model import DayRecord, Ended, EventRow, ItemRow, Stood
from core.session.record.words import (
    EDITORIAL,
    REHEARSAL,
    against,
    clock,
    credit_words,
    heading,
    joined,
    ran_words,
    stood,
)
from core.times.instants import ms_to_aware, ms_to_rfc3339
from core.times.writing import floor_second_ms, local_time

_OFF = frozenset({Stood.CALLED_OFF, Stood.OTHER_OUTCOME, Stood.GONE})
_A_YEAR = timedelta(days=366)


def record_calendar(record: DayRecord) -> bytes:
    """The calendar. What never had a time is not in it."""
    calendar = icalendar.Calendar()
    calendar.add("prodid", "-//Limbwatch//Record//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", _marked(record, heading(record)))
    calendar.add("x-wr-caldesc", EDITORIAL)
    calendar.add("x-wr-timezone", record.style.zone)
    entries = [
        *(_event(record, row) for row in record.events if _event_ms(row) is not None),
        *(_item(record, row) for row in record.items if _item_ms(row) is not None),
    ]
    zone = _rules(record, entries)
    if zone is not None:
        calendar.add_component(zone)
    for entry in entries:
        calendar.add_component(entry)
    text: bytes = calendar.to_ical()
    return text


def _event_ms(row: EventRow) -> int | None:
    return row.planned_ms if row.last_ms is None else row.last_ms


def _item_ms(row: ItemRow) -> int | None:
    return row.placed_ms if row.from_ms is None else row.from_ms


def _event(record: DayRecord, row: EventRow) -> icalendar.Event:
    at_ms = _event_ms(row) or 0
    entry = _begun(record, "event", row.id, row.name, at_ms)
    happened = row.stood is Stood.HAPPENED
    entry.add(
        "status", "CANCELLED" if row.stood in _OFF else "CONFIRMED" if happened else "TENTATIVE"
    )
    times = {
        "planned": row.planned_ms,
        "expected": row.expected_ms,
        "said": row.said_ms,
        "happened": row.happened_ms,
    }
    _add_own(entry, times, row.credit.source, row.credit.by, row.stood)
    told = [f"{word} {clock(record, ms)}" for word, ms in times.items() if ms is not None]
    told += [against(row), stood(row), credit_words(row.credit)]
    entry.add("description", _described(told))
    return entry


def _item(record: DayRecord, row: ItemRow) -> icalendar.Event:
    at_ms = _item_ms(row) or 0
    entry = _begun(record, "item", row.id, row.name, at_ms)
    end_ms = at_ms + row.length_ms if row.to_ms is None else row.to_ms
    whole_s = max(0, floor_second_ms(end_ms) - floor_second_ms(at_ms)) // 1000
    entry.add("duration", timedelta(seconds=whole_s))
    ran = row.ended in (Ended.RAN, Ended.ON_AIR)
    lost = row.ended in (Ended.LOST, Ended.DROPPED)
    entry.add("status", "CONFIRMED" if ran else "CANCELLED" if lost else "TENTATIVE")
    times = {"placed": row.placed_ms, "from": row.from_ms, "to": row.to_ms}
    _add_own(entry, times, row.credit.source, row.credit.by, row.ended)
    sponsor = f"sponsor {row.sponsor}" if row.sponsor else ""
    entry.add("description", _described([row.kind, sponsor, ran_words(row)]))
    return entry


def _begun(record: DayRecord, kind: str, name: str, words: str, at_ms: int) -> icalendar.Event:
    entry = icalendar.Event()
    entry.add("uid", f"{kind}.{name}.{record.session or record.begin_ms}@limbwatch.invalid")
    entry.add("dtstamp", ms_to_aware(floor_second_ms(record.end_ms)))
    entry.add("dtstart", _there(record, at_ms))
    entry.add("summary", _marked(record, words))
    entry.add("categories", [kind.upper()])
    entry.add("transp", "TRANSPARENT")
    entry.add("x-limbwatch-id", name)
    entry.add("x-limbwatch-at", ms_to_rfc3339(at_ms))
    entry.add("x-limbwatch-rehearsal", "TRUE" if record.rehearsal else "FALSE")
    return entry


def _add_own(
    entry: icalendar.Event, times: dict[str, int | None], source: str, by: str, state: str
) -> None:
    for word, at_ms in times.items():
        if at_ms is not None:
            entry.add(f"x-limbwatch-{word}", ms_to_rfc3339(at_ms))
    for word, text in (("source", source), ("by", by), ("state", str(state))):
        if text:
            entry.add(f"x-limbwatch-{word}", text)


def _described(parts: Iterable[str]) -> str:
    return f"{joined(parts)}\n{EDITORIAL}"


def _marked(record: DayRecord, words: str) -> str:
    return f"{REHEARSAL}: {words}" if record.rehearsal else words


def _there(record: DayRecord, at_ms: int) -> datetime:
    """The whole second on the desk's clock; in UTC where that clock shows it twice."""
    whole_ms = floor_second_ms(at_ms)
    there = local_time(whole_ms, record.style.zone)
    return ms_to_aware(whole_ms) if tz.datetime_ambiguous(there) else there


def _rules(record: DayRecord, entries: Iterable[icalendar.Event]) -> icalendar.Timezone | None:
    """When clocks of the desk's zone are changed, round the days of the record; UTC needs none."""
    days: list[date] = [
        start.date() for entry in entries if _is_local(start := entry.decoded("dtstart"))
    ]
    if not days:
        return None
    zone = local_time(record.begin_ms, record.style.zone).tzinfo
    if zone is None:
        return None
    return icalendar.Timezone.from_tzinfo(
        zone, record.style.zone, min(days) - _A_YEAR, max(days) + _A_YEAR
    )


def _is_local(start: datetime) -> bool:
    return start.tzname() != "UTC"
