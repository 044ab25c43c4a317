"""A plan's events as a table and as a calendar, for others' programs; both can be read again."""

import csv
import io
from collections.abc import Iterator, Mapping

import icalendar

from core.plan.imports.entry import EXACT, GIVE, LANE, LIVE
from core.plan.imports.model import EDITORIAL
from core.plan.model import Event, Plan
from core.times.durations import write_duration
from core.times.instants import ms_to_aware, ms_to_rfc3339
from core.times.writing import SECOND_MS, elapsed_text, floor_second_ms, local_time

HEADINGS = ("Event", "Time (UTC)", "Date there", "Clock there", "Since zero")
FURTHER = ("Give", "Live", "Lane", "Id", "Notes")

_GUARDED = ("=", "+", "-", "@", "\t", "'")
"""A spreadsheet takes a cell that begins so for a formula; an apostrophe before it says text."""


def plan_csv(plan: Plan, times_ms: Mapping[str, int]) -> str:
    """The plan's events as CSV, in order of time; `times_ms` is when each is planned.

    Lines end as RFC 4180 has it. What has no time comes after
    the others, with its column empty; the last row says what the table is for.
    """
    out = io.StringIO(newline="")
    table = csv.writer(out)
    table.writerow((*HEADINGS, *FURTHER))
    zero_ms = times_ms.get(plan.elapsed_from) if plan.elapsed_from else None
    for event in _in_order(plan, times_ms):
        table.writerow(_cells(event, times_ms.get(event.id), zero_ms, plan.zones[0]))
    table.writerow((EDITORIAL,))
    return out.getvalue()


def _in_order(plan: Plan, times_ms: Mapping[str, int]) -> Iterator[Event]:
    timed = [event for event in plan.events if event.id in times_ms]
    yield from sorted(timed, key=lambda event: times_ms[event.id])
    yield from (event for event in plan.events if event.id not in times_ms)


def _cells(event: Event, at_ms: int | None, zero_ms: int | None, zone: str) -> tuple[str, ...]:
    there = None if at_ms is None else local_time(at_ms, zone)
    since = "" if at_ms is None or zero_ms is None else elapsed_text(at_ms - zero_ms)
    since = since.replace("\N{MINUS SIGN}", "-")  # a spreadsheet takes no other for a minus
    return (
        _guarded(event.name),
        "" if at_ms is None else ms_to_rfc3339(at_ms),
        "" if there is None else there.strftime("%Y-%m-%d"),
        "" if there is None else there.strftime("%H:%M:%S"),
        since,
        write_duration(event.give_ms) if event.give_ms else "",
        "yes" if event.live else "no",
        event.live_with or "",
        event.id,
        _guarded(" ".join(_free(event))),
    )


def _free(event: Event) -> list[str]:
    """The facts that anybody may have: what is under embargo stays in the plan."""
    return [
        fact.text for fact in event.facts if not fact.after_confirmed and fact.not_before_ms is None
    ]


def _guarded(text: str) -> str:
    return f"'{text}" if text.startswith(_GUARDED) else text


def plan_calendar(plan: Plan, times_ms: Mapping[str, int], stamp_ms: int) -> bytes:
    """The plan's events as iCalendar (RFC 5545), in UTC; what has no time is not in it.

    `stamp_ms` is when it was written. Exact instants, give and live moments stand in properties
    of ours, since the standard has whole seconds and no such thing.
    """
    calendar = icalendar.Calendar()
    calendar.add("prodid", "-//Limbwatch//Plan//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", plan.title)
    calendar.add("x-wr-caldesc", EDITORIAL)
    for event in _in_order(plan, times_ms):
        if event.id in times_ms:
            calendar.add_component(_entry(event, times_ms[event.id], stamp_ms))
    text: bytes = calendar.to_ical()
    return text


def _entry(event: Event, at_ms: int, stamp_ms: int) -> icalendar.Event:
    entry = icalendar.Event()
    entry.add("uid", f"event.{event.id}.plan@limbwatch.invalid")
    entry.add("dtstamp", ms_to_aware(floor_second_ms(stamp_ms)))
    entry.add("dtstart", ms_to_aware(floor_second_ms(at_ms)))
    entry.add("summary", event.name)
    entry.add("transp", "TRANSPARENT")
    if at_ms % SECOND_MS:
        entry.add(EXACT, ms_to_rfc3339(at_ms))
    if event.give_ms:
        entry.add(GIVE, write_duration(event.give_ms))
    if event.live:
        entry.add(LIVE, "TRUE")
    if event.live_with:
        entry.add(LANE, event.live_with)
    if facts := _free(event):
        entry.add("description", "\n".join(facts))
    return entry
