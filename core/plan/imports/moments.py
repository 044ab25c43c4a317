"""One time as it stands in a line: a clock time with its day and zone, or an elapsed time."""

import re
from dataclasses import dataclass, replace
from datetime import date, timedelta

from core.errors import TimeProblem
from core.plan.imports.clocks import CLOCK, Dial, dial_of, in_half
from core.plan.imports.dates import DATE, said_day
from core.plan.imports.elapsed import elapsed_at
from core.plan.imports.model import Setting, TwoParts
from core.plan.imports.zoned import Zone, zone_at
from core.times.durations import UNITS_MS
from core.times.writing import ABOUT_GIVE_MS

_ABOUT = re.compile(
    r"(?:(?:about|approximately|approx\.?|around|circa|ca\.|c\.|estimated|est\.|roughly)\s+|[~≈]\s?)",
    re.I,
)
_NO_EARLIER = re.compile(r"(?:no earlier than|not before|NET)\s+", re.I)
_STAMP = re.compile(
    r"(?P<date>\d{4}-\d\d-\d\d)[T ](?P<clock>\d\d:\d\d(?::\d\d(?:[.,]\d{1,9})?)?)"
    r"\s?(?P<zone>Z(?!\w)|[+-]\d\d:?\d\d(?!\d))?"
)
_DAY_OF_YEAR = re.compile(
    r"(?P<said>(?:GMT|UTC)\s?)?(?:(?P<year>\d{4})[-/])?(?P<n>\d{3})/(?P<clock>\d\d:\d\d(?::\d\d(?:\.\d{1,6})?)?)"
)
_FIGURES = re.compile(r"\d{4}(?![\d:/.,-])", re.ASCII)
_AT = re.compile(r"(?:at|by|on)\s+(?=[\dA-Z~])", re.I)
_JOIN = re.compile(r"\s*[,:–—-]?\s*(?:at\s+)?", re.I)
_DAY_AFTER = re.compile(r"\s*,?\s*(?:on\s+)?", re.I)
_TO = re.compile(r"\s*(?:[-–—−]|to\b|until\b|till\b)\s*", re.I)
_GIVE = re.compile(
    r"\s*\(?(?:±|\+/?-)\s?(?P<n>\d{1,4})\s?(?P<unit>s(?:ec(?:ond)?s?)?|m(?:in(?:ute)?s?)?|h(?:ours?|rs?)?)\b\.?\)?",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Found:
    """A time in a text: one of `dial` and `elapsed_ms`, all that was said with it, and its end.

    `until` and `until_ms` end a range, in the same kind.
    """

    end: int
    dial: Dial | None = None
    day: date | None = None
    zone: Zone | None = None
    elapsed_ms: int | None = None
    until: Dial | None = None
    until_ms: int | None = None
    give_ms: int = 0
    told: str = ""


@dataclass(frozen=True, slots=True)
class TimeColumn:
    """What a heading says of a column of times: elapsed, clock (None: neither), and its zone."""

    elapsed: bool | None = None
    zone: Zone | None = None


ANY_TIME = TimeColumn()


@dataclass(frozen=True, slots=True)
class Reading:
    """What a time is read with: the setting, the day so far, and what its place says of it."""

    setting: Setting
    near: date | None
    column: TimeColumn = ANY_TIME
    day_first: bool | None = None
    two_parts: TwoParts | None = None


def found_at(text: str, at: int, reading: Reading) -> Found | None:
    """The time that begins at a place of a text; None where none does.

    Raises TimeProblem where one does but means nothing, or several things.
    """
    link = _AT.match(text, at)
    start = link.end() if link else at
    about = _ABOUT.match(text, start)
    start = about.end() if about else start
    earliest = _NO_EARLIER.match(text, start)
    start = earliest.end() if earliest else start
    found = (
        _stamp(text, start, reading.setting)
        or _by_day_of_year(text, start, reading)
        or _elapsed(text, start, reading)
        or _dated(text, start, reading)
        or _in_figures(text, start, reading)
    )
    if found is None:
        return None
    if found.dial is not None and found.zone is None:
        found = replace(found, zone=reading.column.zone)
    found = _with_give(text, found)
    if about and found.give_ms < ABOUT_GIVE_MS:
        found = replace(found, give_ms=ABOUT_GIVE_MS)
    if earliest:
        found = replace(found, told="no earlier than this")
    return found


def _stamp(text: str, at: int, setting: Setting) -> Found | None:
    match = _STAMP.match(text, at)
    if match is None:
        return None
    clock, day = CLOCK.match(match["clock"]), DATE.match(match["date"])
    if clock is None or day is None:
        return None
    zone, end = _offset(match["zone"]), match.end()
    if zone is None:
        zone, end = _zone(text, match.end("clock"), setting)
    return Found(end, replace(dial_of(clock), padded=True), said_day(day, None).day, zone)


def _offset(written: str | None) -> Zone | None:
    if not written:
        return None
    if written == "Z":
        return Zone(offset_min=0)
    hours, minutes = int(written[1:3]), int(written[-2:])
    return Zone(offset_min=(hours * 60 + minutes) * (-1 if written[0] == "-" else 1))


def _by_day_of_year(text: str, at: int, reading: Reading) -> Found | None:
    """'GMT 134/16:46:00': the 134th day of the year."""
    match = _DAY_OF_YEAR.match(text, at)
    if match is None or not (match["said"] or reading.column.elapsed is False):
        return None
    if not match["year"] and reading.near is None:
        raise TimeProblem(f"'{match[0]}' says no year", "Give the first day, or write the year")
    year = int(match["year"]) if match["year"] else (reading.near or date.min).year
    if not 1 <= int(match["n"]) <= 366 or not 1 <= year <= 9998:
        raise TimeProblem(f"'{match[0]}' is a day that does not exist", "Check the day's number")
    clock = CLOCK.match(match["clock"])
    if clock is None:
        return None
    day = date(year, 1, 1) + timedelta(days=int(match["n"]) - 1)
    return Found(match.end(), dial_of(clock), day, reading.column.zone or Zone(offset_min=0))


def _in_figures(text: str, at: int, reading: Reading) -> Found | None:
    """'1646' under a heading that says clock."""
    match = _FIGURES.match(text, at) if reading.column.elapsed is False else None
    clock = CLOCK.match(f"{match[0]} hrs") if match else None
    if match is None or clock is None:
        return None
    return Found(match.end(), dial_of(clock))


def _elapsed(text: str, at: int, reading: Reading) -> Found | None:
    two = reading.two_parts or reading.setting.two_parts
    length = elapsed_at(text, at, expected=reading.column.elapsed, two_parts=two)
    if length is None:
        return None
    found = Found(length.end, elapsed_ms=length.length_ms)
    to = _TO.match(text, length.end)
    if to is None:
        return found
    last = elapsed_at(text, to.end(), expected=True, two_parts=two)
    if last is None:
        return found
    return replace(found, end=last.end, until_ms=last.length_ms)


def _dated(text: str, at: int, reading: Reading) -> Found | None:
    """A clock time, with a day before or after it."""
    day = DATE.match(text, at)
    join = _JOIN.match(text, day.end()) if day else None
    start = join.end() if join else at
    found = _clock(text, start, reading)
    if found is None:
        return None
    after = None
    if day is None:
        join = _DAY_AFTER.match(text, found.end)
        after = DATE.match(text, join.end()) if join else None
        if after is not None and after["alone"] and not _ends(text, after.end()):
            after = None  # 'Sun' may be the Sun
    written = day or after
    if written is None:
        return found
    said = said_day(written, reading.near, day_first=reading.day_first)
    end = after.end() if after else found.end
    return replace(found, day=said.day, end=end, told=said.told)


def _ends(text: str, at: int) -> bool:
    return not text[at:].strip(" ,.;:)-–") or text[at : at + 2] in (", ", ": ", "  ")


def _clock(text: str, at: int, reading: Reading) -> Found | None:
    match = CLOCK.match(text, at)
    if match is None:
        return None
    dial = dial_of(match)
    zone, end = _zone(text, match.end(), reading.setting)
    to = _TO.match(text, end)
    last = CLOCK.match(text, to.end()) if to else None
    if last is None:
        return Found(end, dial, zone=zone)
    until = dial_of(last)
    late_zone, end = _zone(text, last.end(), reading.setting)
    return Found(end, _first_half(dial, until), zone=zone or late_zone, until=until)


def _first_half(dial: Dial, until: Dial) -> Dial:
    """The beginning of a range whose end alone says the half of the day: '11:30–12:15 p.m.'."""
    if not until.half or not dial.plain:
        return dial
    same = in_half(dial, until.half)
    if (same.hour % 12, same.minute, same.second) <= (until.hour % 12, until.minute, until.second):
        return same
    return in_half(dial, "a" if until.half == "p" else "p")


def _zone(text: str, at: int, setting: Setting) -> tuple[Zone | None, int]:
    """The zone after a clock time, perhaps in brackets; TimeProblem for one that is several."""
    start = at
    while text[start : start + 1] == " ":
        start += 1
    bracket = text[start : start + 1] == "("
    zone, name, end = zone_at(text, start + bracket, setting)
    if zone is None and not name:
        return None, at
    if zone is None:
        raise TimeProblem(f"{name} stands for more than one zone", "Write it in UTC")
    return zone, end + (bracket and text[end : end + 1] == ")")


def _with_give(text: str, found: Found) -> Found:
    match = _GIVE.match(text, found.end)
    if match is None:
        return found
    give_ms = int(match["n"]) * UNITS_MS[match["unit"][0].lower()]
    return replace(found, end=match.end(), give_ms=give_ms)
