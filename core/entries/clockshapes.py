"""The shapes of clock times as typed: what the figures and the day say, before any zone.

The whole shape is matched first; then one exact form goes to dateutil. Left alone it reads '1658'
as a year and 'May' as a date; it never sees such a line here.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from dateutil.parser import isoparse

from core.entries.words import shown
from core.errors import EntryProblem
from core.times.writing import MONTHS, WEEKDAYS

_MONTHS = tuple(month.lower() for month in MONTHS)
_DAYS = tuple(day.lower() for day in WEEKDAYS)


def _begins(names: Sequence[str]) -> str:
    """A pattern for any of the names, cut short to three letters or more."""
    return "|".join(
        name[:3] + "".join(f"(?:{c}" for c in name[3:]) + ")?" * len(name[3:]) for name in names
    )


_TIME = (
    r"(?:(?P<h>\d{1,2})(?::(?P<m>\d\d)(?::(?P<s>\d\d)(?:\.(?P<f>\d{1,3}))?)?)?"
    r"|(?P<hh>\d\d)(?P<mm>\d\d)(?P<ss>\d\d)?)"
)
CLOCK = re.compile(
    rf"(?:(?:(?P<weekday>{_begins(_DAYS)})\.?"
    rf"|(?P<day>\d{{1,2}}) (?P<month>{_begins(_MONTHS)}|sept)\.?(?: (?P<year>\d{{4}}))?"
    rf"|(?P<month2>{_begins(_MONTHS)}|sept)\.? (?P<day2>\d{{1,2}})(?: (?P<year2>\d{{4}}))?"
    rf"|(?P<date>\d{{4}}-\d\d-\d\d)) )?"
    rf"{_TIME} ?(?P<half>[ap](?:\.?m)?\.?)?(?: ?(?P<utc>z)| (?P<zone>[a-z].*))?",
    re.ASCII,
)
STAMP = re.compile(
    r"(?P<date>\d{4}-\d\d-\d\d)[t ](?P<time>\d\d:\d\d(?::\d\d(?:\.\d{1,9})?)?)"
    r"(?P<offset> ?z|[+-]\d\d:\d\d)?(?: (?P<zone>[a-z].*))?",
    re.ASCII,
)
_RUN = re.compile(r"(?P<a>\d)(?P<b>\d\d)(?P<c>\d\d)?(?P<half> ?[ap]\.?m?\.?)?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Dial:
    """A time of day as clocks show it, and the half of the day it was guessed to be in."""

    hour: int
    minute: int
    second: int
    ms: int
    note: str = ""

    @property
    def iso(self) -> str:
        """As the second half of an ISO 8601 date and time."""
        return f"{self.hour:02d}:{self.minute:02d}:{self.second:02d}.{self.ms:03d}"


def dials_of(match: re.Match[str]) -> list[Dial]:
    """The times of day that the figures may mean: two where the half of the day is open."""
    digits = match["h"] or match["hh"]
    hour, minute = int(digits), int(match["m"] or match["mm"] or 0)
    second = int(match["s"] or match["ss"] or 0)
    ms = int((match["f"] or "0").ljust(3, "0"))
    half = (match["half"] or "")[:1]
    if not half and match["h"] and not match["m"]:
        raise EntryProblem(
            f"'{shown(match[0])}' may be an hour or minutes",
            match[0],
            f"Write {digits}:00p, or in {digits}m",
        )
    if minute > 59 or second > 59 or hour > 23:
        raise EntryProblem(
            f"'{shown(match[0])}' is no time of day", match[0], "The last one is 23:59:59"
        )
    if half and not 1 <= hour <= 12:
        raise EntryProblem(
            f"Hour {digits} is not said with a.m. or p.m.",
            match[0],
            f"Write {hour:02d}:{minute:02d} alone",
        )
    if half:
        return [Dial(hour % 12 + 12 * (half == "p"), minute, second, ms)]
    if len(digits) == 2 or not hour:
        return [Dial(hour, minute, second, ms)]
    return [
        Dial(hour, minute, second, ms, "read as a.m."),
        Dial(hour + 12, minute, second, ms, "read as p.m."),
    ]


def days_of(match: re.Match[str], anchor: datetime) -> Iterator[str]:
    """The dates, as ISO text, that the typed day may mean around an anchor."""
    if match["date"]:
        yield match["date"]
    elif match["day"] or match["day2"]:
        yield from _dates(match, anchor.year)
    else:
        reach = 7 if match["weekday"] else 1
        for days in range(-reach, reach + 1):
            day = anchor + timedelta(days=days)
            if not match["weekday"] or _DAYS[day.weekday()].startswith(match["weekday"]):
                yield day.date().isoformat()


def _dates(match: re.Match[str], year: int) -> Iterator[str]:
    month = _month(match["month"] or match["month2"])
    day = int(match["day"] or match["day2"])
    typed = match["year"] or match["year2"]
    for each in [int(typed)] if typed else range(year - 4, year + 5):
        try:
            yield date(each, month, day).isoformat()
        except ValueError:
            continue  # 29 February comes in some years only


def _month(name: str) -> int:
    return next(number for number, month in enumerate(_MONTHS, 1) if month.startswith(name[:3]))


def exact(text: str, part: str) -> datetime:
    """The date and time of an ISO 8601 text, naive without an offset; else EntryProblem."""
    problem = EntryProblem(
        f"'{shown(part)}' names a day or a time that does not exist",
        part,
        "Write it like 2031-05-15T16:58",
    )
    try:
        moment = isoparse(text)
    except (ValueError, OverflowError) as error:
        raise problem from error
    if moment.date().isoformat() != text[:10]:
        raise problem  # 24:00, which dateutil takes for the next day
    return moment


def refuse_odd_digits(text: str) -> None:
    """Say what three or five figures in a row could have been."""
    if match := _RUN.fullmatch(text):
        hour, rest, half = match["a"], match["b"], match["half"] or ""
        tail = f":{match['c']}" if match["c"] else ""
        four = f", or 0{hour}{rest}{match['c'] or ''} for 24 h" if not half else ""
        raise EntryProblem(
            f"'{shown(text)}' has not the figures of a clock time",
            text,
            f"Write {hour}:{rest}{tail}{half.strip()}{four}",
        )
