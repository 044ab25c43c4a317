"""Dates as papers write them: 'Wednesday, May 14', '14 May 2031', '2031-05-14', '14.05.2031'."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from core.errors import TimeProblem
from core.times.writing import MONTHS, WEEKDAYS


def _begins(names: Sequence[str]) -> str:
    """A pattern for any of the names, in full or cut short to three letters."""
    return "|".join(f"{name[:3]}(?:{name[3:]})?" if name[3:] else name for name in names)


_DAY_NAME = rf"(?:{_begins(WEEKDAYS)}|Tues|Thurs?|Weds)(?![a-z])\.?"
_MONTH = rf"(?:{_begins(MONTHS)}|Sept)(?![a-z])\.?"
_NTH = r"(?:st|nd|rd|th)?"
_YEAR = r"(?:19|20|21)\d\d(?!\d|\s?(?:Z|UTC|GMT|h|hrs|hours)(?!\w))"

DATE = re.compile(
    rf"(?:(?P<weekday>{_DAY_NAME}),?\s+(?:the\s+)?)?(?:"
    r"(?P<iso>\d{4}[-/]\d{1,2}[-/]\d{1,2})"
    rf"|(?P<month>{_MONTH})\s*(?P<day>\d{{1,2}}){_NTH}(?!\d|:\d)(?:,?\s+(?P<year>{_YEAR}))?"
    rf"|(?P<day2>\d{{1,2}}){_NTH}(?:\s+of)?[ -]*(?P<month2>{_MONTH})(?:[,\s-]+(?P<year2>{_YEAR}))?"
    r"|(?P<a>\d{1,2})(?P<mark>[./-])(?P<b>\d{1,2})(?P=mark)(?P<c>\d{4}|\d{2})"
    rf")(?![\w/])|(?P<alone>{_DAY_NAME})(?!\w)",
    re.I | re.ASCII,
)
"""A date at the beginning of a text."""


@dataclass(frozen=True, slots=True)
class Said:
    """A day as it was read, and what must be told of it."""

    day: date
    told: str = ""


def said_day(match: re.Match[str], near: date | None, *, day_first: bool | None = None) -> Said:
    """The day that a match of `DATE` names.

    `near` decides the year where none is written; `day_first` whether 5/6/2031 is in June or in
    May. Raises TimeProblem for a day that no calendar has, or that may be several.
    """
    if match["alone"]:
        return _day_named(match["alone"], near)
    if match["iso"]:
        year, month, day = (int(part) for part in re.split(r"[-/]", match["iso"]))
    elif match["a"]:
        year, month, day = _in_figures(match, day_first=day_first)
    else:
        month = _month(match["month"] or match["month2"])
        day = int(match["day"] or match["day2"])
        written = match["year"] or match["year2"]
        year = int(written) if written else _year_near(month, day, near, match[0])
    found = _existing(year, month, day, match[0])
    return Said(found, _against(match["weekday"], found))


def _existing(year: int, month: int, day: int, written: str) -> date:
    try:
        return date(year, month, day)
    except ValueError as error:
        raise TimeProblem(f"'{written}' is a day that does not exist", "Check the date") from error


def _in_figures(match: re.Match[str], *, day_first: bool | None) -> tuple[int, int, int]:
    first, second = int(match["a"]), int(match["b"])
    year = int(match["c"]) + (2000 if len(match["c"]) == 2 else 0)
    if match["mark"] == "." or first > 12:
        day_first = True
    elif second > 12:
        day_first = False
    elif first == second:
        day_first = True
    if day_first is None:
        raise TimeProblem(
            f"'{match[0]}' may be {first} {MONTHS[second - 1]} or {second} {MONTHS[first - 1]}",
            f"Write it like {year}-{first:02d}-{second:02d} (year, month, day)",
        )
    return (year, second, first) if day_first else (year, first, second)


def _month(name: str) -> int:
    return next(at for at, month in enumerate(MONTHS, 1) if month[:3].lower() == name[:3].lower())


def _year_near(month: int, day: int, near: date | None, written: str) -> int:
    """The year in which that day comes nearest."""
    if near is None:
        raise TimeProblem(f"'{written}' says no year", "Give the first day, or write the year")
    days: list[date] = []
    for year in range(max(1, near.year - 4), near.year + 5):
        try:
            days.append(date(year, month, day))
        except ValueError:
            continue  # 29 February comes in some years only
    if not days:
        raise TimeProblem(f"'{written}' is a day that does not exist", "Check the date")
    return min(days, key=lambda each: abs(each - near)).year


def _day_named(name: str, near: date | None) -> Said:
    """The first such day of the week from `near` on."""
    if near is None:
        raise TimeProblem(f"'{name}' says no date", "Give the first day, or write the date")
    ahead = (_weekday(name) - near.weekday()) % 7
    found = near + timedelta(days=ahead)
    return Said(found, f"{WEEKDAYS[found.weekday()]} taken as {words_of(found)}")


def _weekday(name: str) -> int:
    return next(at for at, day in enumerate(WEEKDAYS) if day[:3].lower() == name[:3].lower())


def _against(named: str | None, found: date) -> str:
    if named is None or _weekday(named) == found.weekday():
        return ""
    return f"{words_of(found)} is a {WEEKDAYS[found.weekday()]}, not a {WEEKDAYS[_weekday(named)]}"


def words_of(day: date) -> str:
    """A day in words: '14 May 2031'."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year:04d}"


_WITHIN = re.compile(
    rf"(?<![\w:.])(?=(?:{'|'.join(WEEKDAYS)})\b|(?:{_MONTH})\s*\d{{1,2}}\b"
    rf"|\d{{1,2}}{_NTH}\s+(?:{_MONTH})|\d{{4}}-\d\d-\d\d)",
    re.I | re.ASCII,
)


def days_within(text: str, near: date | None) -> tuple[date, ...]:
    """The days that a text names, in its order; what means none is passed over."""
    found: list[date] = []
    end = 0
    for start in _WITHIN.finditer(text):
        match = DATE.match(text, start.start()) if start.start() >= end else None
        if match is None:
            continue
        end = match.end()
        try:
            found.append(said_day(match, near).day)
        except TimeProblem:
            continue
    return tuple(dict.fromkeys(found))
