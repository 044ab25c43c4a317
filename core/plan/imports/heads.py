"""Lines of a timeline that are no events but say how the others are read: days, zones, columns."""

import re
from dataclasses import dataclass
from datetime import date, timedelta

from core.errors import TimeProblem
from core.plan.imports.clocks import zone_words
from core.plan.imports.dates import DATE, said_day, words_of
from core.plan.imports.model import Setting, TwoParts
from core.plan.imports.moments import TimeColumn
from core.plan.imports.zoned import Zone, zone_at

_DAY_OF_FLIGHT = re.compile(r"\s*(?:(?:flight|mission)\s+)?day\s+\d{1,3}\b[\s:,(–—-]*", re.I)
_TIME = re.compile(
    r"\d{1,2}[:h]\d\d|\d\s?[ap]\.?m\b|\bnoon\b|\bmidnight\b|\d{4}\s?(?:Z|UTC|GMT|hrs)\b", re.I
)
_FLIGHT_DAY = re.compile(r"\s*(?:flight|mission) day\s+(\d{1,3})\b[^\d]{0,60}", re.I)
_TOLD = re.compile(
    r"time|elapsed|clock|local|event|activity|milestone|happens|\b[MG]ET\b|[TL]\s?\+", re.I
)
"""A heading over columns has one of these words."""

_ELAPSED = re.compile(
    r"h(?:ou)?rs?[/:]min(?:utes?)?[/:]sec(?:onds?)?"
    r"|mission elapsed(?: time)?|mission time|elapsed(?: time)?|\bMET\b|\bGET\b|\b[TL]\s?\+(?:/-)?",
    re.I,
)
_CLOCK = re.compile(r"(?:local |clock )?times?\b(?: of day)?|\blocal\b|\bclock\b", re.I)
_TWO = (
    (re.compile(r"\b(?:mm?:ss?|min(?:utes)?:sec(?:onds)?)\b", re.I), TwoParts.MINUTES_SECONDS),
    (re.compile(r"\b(?:hh?:mm?|h(?:ou)?rs?:min(?:utes)?)\b", re.I), TwoParts.HOURS_MINUTES),
)
_SHAPES = re.compile(r"\b(?:d+[:/])?h+:m+(?::s+)?\b|\bm+:s+\b|(?<![:/])\bmin:sec\b", re.I)
_ALL_TIMES = re.compile(
    r"\ball (?:clock )?times\b|\btimes (?:are|in|given|shown|listed)\b|\btimes:", re.I
)
_OF_COLUMNS = frozenset(
    ("event", "events", "activity", "activities", "milestone", "milestones", "description")
)
_OF_TIMES = frozenset(
    ("all", "are", "in", "given", "shown", "listed", "approximate", "subject", "change", "unless")
)
_WORDS = (
    _OF_COLUMNS
    | _OF_TIMES
    | frozenset(("otherwise", "noted", "what", "happens", "action", "date", "day", "hour", "hours"))
    | frozenset(("minutes", "seconds", "of", "from", "the", "liftoff", "launch", "mission"))
    | frozenset(("and", "to"))
)


@dataclass(frozen=True, slots=True)
class Head:
    """What a heading says: the day, the zone, or what its columns of times count."""

    meaning: str
    day: date | None = None
    zone: Zone | None = None
    columns: tuple[TimeColumn, ...] = ()
    """What each column of times holds."""
    two_parts: TwoParts | None = None
    loose: str = ""
    """Words after a date's colon: perhaps an event whose time of day is not said."""


def day_head(text: str, near: date | None) -> Head | None:
    """A heading with a date; None where it is none. TimeProblem for a day that is none."""
    flight = _DAY_OF_FLIGHT.match(text)
    start = flight.end() if flight else len(text) - len(text.lstrip())
    match = DATE.match(text, start)
    if match is None or not _alone(text[match.end() :], only=bool(match["alone"])):
        return None
    said = said_day(match, near)
    meaning = f"the day of what follows: {words_of(said.day)}"
    meaning = f"{meaning} ({said.told})" if said.told else meaning
    return Head(
        meaning,
        day=said.day,
        loose=text[match.end() :].lstrip(" :") if _names(text, match.end()) else "",
    )


def _names(text: str, at: int) -> bool:
    """Whether words after a date's colon name something that happens that day."""
    rest = text[at:].strip()
    return rest.startswith(":") and bool(rest.strip(" :.,"))


def flight_day(text: str) -> int | None:
    """Which day of the flight a heading without a date begins: 'Flight Day 2'."""
    match = _FLIGHT_DAY.fullmatch(text)
    return int(match[1]) if match else None


def flight_day_head(number: int, first: int, day: date) -> Head:
    """A heading with a day of the flight; `day` is the date of the day `first`."""
    try:
        found = day + timedelta(days=number - first)
    except OverflowError as error:
        raise TimeProblem("this day is at the end of all calendars", "Check the day") from error
    said = f"the day of what follows: {words_of(found)} (day {number} of the flight)"
    return Head(said, day=found)


def _alone(rest: str, *, only: bool) -> bool:
    """Whether what follows a date leaves it a heading: nothing, or words after a mark."""
    rest = rest.strip()
    if not rest.strip(" .,:;()–—-"):
        return True
    if _TIME.search(rest):
        return False
    return not only and rest[0] in ",:;(–—-" and len(rest) <= 80


def column_head(text: str, setting: Setting) -> Head | None:
    """A heading over columns, or a remark on all times; None where it is none."""
    if len(text) > 200 or _TIME.search(text) or not _TOLD.search(text):
        return None
    rest, columns = _split(text, setting)
    words = re.findall(r"[^\W\d_]+", rest.lower())
    if columns and all(word in _WORDS for word in words):
        return _over_columns(text, columns)
    if said := _ALL_TIMES.search(text):
        zone = next(
            (one.zone for one in _split(text[said.start() :], setting)[1] if one.zone), None
        )
        return Head(f"times are {zone_words(zone)}", zone=zone) if zone else None
    return None


def _over_columns(text: str, columns: list[TimeColumn]) -> Head:
    two = next((meant for pattern, meant in _TWO if pattern.search(text)), None)
    if re.search(r"h+:m+:s+|h(?:ou)?rs?[/:]min", text, re.I):
        two = None
    zone = next((one.zone for one in columns if one.zone), None)
    said = [f"times are {zone_words(one.zone)}" for one in columns if one.zone]
    said += ["elapsed times"] if any(one.elapsed for one in columns) else []
    said += [f"two figures are {two}"] if two else []
    return Head(", ".join(said) or "a heading over columns", None, zone, tuple(columns), two)


def _split(text: str, setting: Setting) -> tuple[str, list[TimeColumn]]:
    """What is left of a heading without its words for times; and its columns of times."""
    rest: list[str] = []
    columns: list[TimeColumn] = []
    text = _SHAPES.sub(" ", text)
    at, open_column = 0, False
    while at < len(text):
        column, end = _column_at(text, at, setting)
        if column is None:
            open_column = open_column and text[at] in " (" and text[at - 1 : at + 1] != "  "
            rest.append(text[at])
            at += 1
            continue
        if open_column:
            column = _both(columns.pop(), column)
        columns.append(column)
        at, open_column = end, True
    return "".join(rest), columns


def _column_at(text: str, at: int, setting: Setting) -> tuple[TimeColumn | None, int]:
    """A word for times at a place of a heading."""
    if at and text[at - 1].isalnum():
        return None, at
    if match := _ELAPSED.match(text, at):
        return TimeColumn(elapsed=True), match.end()
    if match := _CLOCK.match(text, at):
        plain = match[0].lower().startswith("time")
        return TimeColumn(elapsed=None if plain else False), match.end()
    zone, _, end = zone_at(text, at, setting)
    return (None, at) if zone is None else (TimeColumn(elapsed=False, zone=zone), end)


def _both(one: TimeColumn, other: TimeColumn) -> TimeColumn:
    """Two words over one column: 'Time (EDT)'."""
    elapsed = one.elapsed if other.elapsed is None else other.elapsed
    return TimeColumn(elapsed, one.zone or other.zone)
