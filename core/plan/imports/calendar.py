"""A calendar (iCalendar, RFC 5545): each of its entries a row for every time it comes."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import time, tzinfo

from icalendar import Event

from core.errors import TimeProblem
from core.plan.imports.components import Component, components_of
from core.plan.imports.entry import (
    EXACT,
    GIVE,
    LANE,
    LIVE,
    Clocks,
    When,
    again,
    length_ms,
    parsed,
    start_of,
    when_of,
)
from core.plan.imports.model import CHECK, Heading, Imported, NotRead, Progress, Row, Setting
from core.plan.imports.opening import checked, refused
from core.plan.imports.zonerules import zones_of
from core.times.durations import parse_duration
from core.times.instants import rfc3339_to_ms
from core.times.zones import find_zone

EVERY = 100
"""So many entries are read between two words about the progress."""

MOST_ROWS = 20_000
"""All times of all entries together."""

_CANCELLED = "this is cancelled"


def read_calendar(
    text: str,
    setting: Setting,
    source: str = "calendar",
    progress: Progress | None = None,
    all_day_at: time | None = None,
) -> Imported:
    """The rows of a calendar, in its order; what lasts all day is read only with `all_day_at`.

    Raises PlanProblems where the text is no calendar at all.
    """
    plain = checked(text, source)
    parts = tuple(components_of(plain))
    if not any("BEGIN:VCALENDAR" in part.text.upper() for part in parts if not part.kind):
        raise refused(source, "this is no calendar", "It begins with BEGIN:VCALENDAR", 1, 1)
    zones, told = zones_of(parts)
    clocks = Clocks(lambda name: _zone(name, zones), setting.zone, all_day_at)
    reader = _Reader(clocks, told=list(told))
    entries = [part for part in parts if part.kind == "VEVENT" and not part.wrong]
    for part in parts:
        if part.kind != "VEVENT" or part.wrong:
            reader.other(part)
    for at, part in enumerate(entries):
        if progress is not None and at % EVERY == 0 and not progress(at, len(entries)):
            return reader.imported(source, stopped=True)
        reader.take(part)
    if progress is not None:
        progress(len(entries), len(entries))
    return reader.imported(source, stopped=False)


def _zone(name: str, own: Mapping[str, tzinfo]) -> tzinfo | None:
    try:
        return find_zone(name.strip('"').removeprefix("/"))
    except TimeProblem:
        return own.get(name)


@dataclass(slots=True)
class _Reader:
    """Reads entry by entry; changes to single times are set in at the end."""

    clocks: Clocks
    rows: dict[tuple[str, int], Row] = field(default_factory=dict)
    """By the entry's UID and the instant that its rule gave."""
    not_read: list[NotRead] = field(default_factory=list)
    headings: list[Heading] = field(default_factory=list)
    changes: list[tuple[Component, Event, str]] = field(default_factory=list)
    told: list[str] = field(default_factory=list)

    def other(self, part: Component) -> None:
        """A part of the calendar that is no entry."""
        if part.wrong:
            self._refuse(part, part.wrong, "Save the calendar again, whole")
        elif part.kind in ("", "VTIMEZONE"):
            meaning = "the rules of a zone" if part.kind else "about the calendar itself"
            self.headings += [
                Heading(part.line + at, line, meaning)
                for at, line in enumerate(part.lines)
                if line.strip()
            ]
        else:
            self._refuse(part, f"a {part.kind} is no event", "Make an event of it, if it is one")

    def take(self, part: Component) -> None:
        """An entry: its rows, or why there are none."""
        try:
            event = parsed(part)
            uid = str(event.get("UID", f"line {part.line}"))
            if "RECURRENCE-ID" in event:
                self.changes.append((part, event, uid))
                return
            self._all_times(part, event, uid)
        except TimeProblem as problem:
            self._refuse(part, problem.what, problem.hint or CHECK)

    def imported(self, source: str, *, stopped: bool) -> Imported:
        """All that was read."""
        for part, event, uid in self.changes:
            try:
                self._change(part, event, uid)
            except TimeProblem as problem:
                self._refuse(part, problem.what, problem.hint or CHECK)
        self.changes.clear()
        rows = sorted(self.rows.values(), key=lambda row: (row.line, row.at_ms or 0))
        not_read = sorted(self.not_read, key=lambda one: one.line)
        headings = sorted(self.headings, key=lambda one: one.line)
        return Imported(
            source,
            tuple(rows),
            tuple(not_read),
            tuple(headings),
            told=tuple(self.told),
            stopped=stopped,
        )

    def _all_times(self, part: Component, event: Event, uid: str) -> None:
        row = self._row(part, event)
        start = start_of(event, self.clocks)
        lasts_ms = length_ms(event, start, self.clocks)
        whens, cut = again(event, start)
        if not whens:
            raise TimeProblem("all its times are left out", "Nothing to do")
        room = MOST_ROWS - len(self.rows)
        if len(whens) > room:
            raise TimeProblem(f"there are over {MOST_ROWS:,} times", "Read the calendar in parts")
        for when in whens:
            self.rows[uid, when.at_ms] = _timed(row, when, event, lasts_ms)
        if cut:
            self.told.append(f"Line {part.line}: '{row.name}' repeats; taken for {cut}")

    def _change(self, part: Component, event: Event, uid: str) -> None:
        """One time of a repeated entry, moved, renamed or cancelled."""
        changed = when_of(event["RECURRENCE-ID"], self.clocks)
        if "RANGE" in getattr(event["RECURRENCE-ID"], "params", {}):
            raise TimeProblem("this changes all later times too", "Write an entry for them")
        self.rows.pop((uid, changed.at_ms), None)
        row = self._row(part, event)
        start = start_of(event, self.clocks)
        lasts_ms = length_ms(event, start, self.clocks)
        told = f"in place of the one at {changed.local:%H:%M on %Y-%m-%d}"
        key = (f"{uid} {part.line}", changed.at_ms)
        self.rows[key] = replace(
            _timed(row, start, event, lasts_ms), told="; ".join(filter(None, (told, start.told)))
        )

    def _row(self, part: Component, event: Event) -> Row:
        """The words of an entry; TimeProblem where it has no name, or is called off."""
        if str(event.get("STATUS", "")).upper() == "CANCELLED":
            raise TimeProblem(_CANCELLED, "Nothing to do")
        name = _words(event.get("SUMMARY"))
        if not name:
            raise TimeProblem("this entry has no SUMMARY", "Give it a name")
        notes = (_words(event.get(key)) for key in ("DESCRIPTION", "LOCATION"))
        return Row(
            part.line,
            part.text,
            name,
            give_ms=_give_ms(event),
            live=str(event.get(LIVE, "")).upper() == "TRUE",
            lane=_words(event.get(LANE)),
            note="; ".join(note for note in notes if note),
            more_lines=part.more_lines,
        )

    def _refuse(self, part: Component, why: str, hint: str) -> None:
        self.not_read.append(NotRead(part.line, part.text, why, hint, part.more_lines))


def _timed(row: Row, when: When, event: Event, lasts_ms: int | None) -> Row:
    return replace(row, at_ms=_exact_ms(when.at_ms, event), told=when.told, length_ms=lasts_ms)


def _exact_ms(at_ms: int, event: Event) -> int:
    """The instant to the millisecond, where the entry says it; a calendar's own has no fraction."""
    if EXACT not in event:
        return at_ms
    try:
        exact_ms = rfc3339_to_ms(str(event[EXACT]))
    except TimeProblem:
        return at_ms
    return exact_ms if 0 <= exact_ms - at_ms < 1_000 else at_ms


def _give_ms(event: Event) -> int:
    if GIVE not in event:
        return 0
    give_ms = parse_duration(str(event[GIVE]))
    if give_ms < 0:
        raise TimeProblem(f"{GIVE} is negative", "Leave the minus sign out")
    return give_ms


def _words(value: object) -> str:
    """The words of a property, on one line."""
    several = value if isinstance(value, list) else [value]
    return " ".join(" ".join(str(one).split()) for one in several if one is not None)
