"""Clock times as one types them into a table, and as the table shows them: '14 May 17:50:00'."""

import re
from datetime import UTC, date, datetime, time, timedelta, timezone

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

_MONTH = r"(?P<month{0}>[A-Za-z]{{3,9}})\.?"
_FORM = re.compile(
    r"(?:(?P<ahead>UTC|[+-]\d\d:?\d\d)\s+)?"
    r"(?:(?P<weekday>[A-Za-z]{3,9})\.?,?\s+)??"
    r"(?:(?:(?P<iso>\d{4}-\d\d-\d\d)"
    r"|(?P<day1>\d{1,2})\s+" + _MONTH.format(1) + r"(?:\s+(?P<year1>\d{4}))?"
    r"|" + _MONTH.format(2) + r"\s+(?P<day2>\d{1,2})(?:,?\s+(?P<year2>\d{4}))?"
    r")(?:,?\s+|[Tt]))?"
    r"(?P<h>\d{1,2})(?::(?P<m>\d\d)(?::(?P<s>\d\d)(?:\.(?P<f>\d{1,6}))?)?)?"
    r"\s*(?P<half>[AaPp]\.?[Mm]\.?)?"
    r"\s*(?P<zone>[Zz]|UTC|[+-]\d\d:?\d\d)?",
    re.ASCII,
)


def read_clock(typed: str, near: date | None) -> datetime | None:
    """The date and time that is typed; without a day that of `near`. None where it is none.

    An offset or Z is kept; without one it is the desk's clock.
    """
    match = _FORM.fullmatch(typed.strip()[:80])
    if match is None or not (match["m"] or match["half"]):
        return None
    day = _day(match, near)
    clock = _time(match)
    if day is None or clock is None:
        return None
    if match["weekday"] and _DAYS[day.weekday()].lower() != match["weekday"][:3].lower():
        return None
    if match["ahead"] and match["zone"]:
        return None
    return datetime.combine(day, clock, _offset(match["zone"] or match["ahead"]))


def _day(match: re.Match[str], near: date | None) -> date | None:
    try:
        if match["iso"]:
            return date.fromisoformat(match["iso"])
        month = match["month1"] or match["month2"]
        if not month:
            return near
        year = match["year1"] or match["year2"]
        if (year is None and near is None) or month[:3].lower() not in _MONTHS:
            return None
        number = int(year) if year else (near.year if near else 0)
        day = int(match["day1"] or match["day2"])
        return date(number, _MONTHS.index(month[:3].lower()) + 1, day)
    except ValueError:
        return None


def _time(match: re.Match[str]) -> time | None:
    hour = int(match["h"])
    half = (match["half"] or "")[:1].lower()
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    micro = int((match["f"] or "0").ljust(6, "0"))
    try:
        return time(hour, int(match["m"] or 0), int(match["s"] or 0), micro)
    except ValueError:
        return None


def _offset(written: str | None) -> timezone | None:
    if not written:
        return None
    if written.upper() in {"Z", "UTC"}:
        return UTC
    sign = -1 if written[0] == "-" else 1
    digits = written[1:].replace(":", "")
    return timezone(sign * timedelta(hours=int(digits[:2]), minutes=int(digits[2:])))


def clock_words(when: datetime, year: int | None, *, weekday: bool = True) -> str:
    """A date and time as a table shows it: 'Wed 14 May 17:50:00', with a year that is another.

    A zone of its own takes the place of the weekday, where a narrow column does not cut it off:
    'UTC 14 May 20:50:00'. Without the weekday it stands behind, as one types it.
    """
    day = f"{when.day} {_NAMES[when.month - 1]}"
    day += "" if when.year == year else f" {when.year:04d}"
    clock = when.strftime("%H:%M:%S")
    if when.microsecond:
        clock += f".{when.microsecond:06d}".rstrip("0")
    offset = when.utcoffset()
    if offset is not None:
        zone = when.strftime("%z") if offset else "UTC"
        return f"{zone} {day} {clock}" if weekday else f"{day} {clock} {zone}"
    return f"{_DAYS[when.weekday()]} {day} {clock}" if weekday else f"{day} {clock}"


def as_clock(value: object) -> datetime | None:
    """The date and time that a value of a plan is, written as one or as text."""
    if isinstance(value, datetime):
        return value
    if not isinstance(value, str) or not re.match(r"\d{4}-\d\d-\d\d[Tt ]\d\d:\d\d", value):
        return None
    try:
        return datetime.fromisoformat(value)
    except ValueError:
        return None
