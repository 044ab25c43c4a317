"""What one cell of a table says: a time, a day, a length, yes or no."""

import re
from dataclasses import dataclass, replace
from datetime import date, timedelta

from core.errors import TimeProblem
from core.plan.imports.clocks import Dial
from core.plan.imports.dates import DATE, said_day
from core.plan.imports.elapsed import elapsed_at
from core.plan.imports.model import TwoParts
from core.plan.imports.moments import Found, Reading, TimeColumn, found_at
from core.plan.imports.serials import day_of, length_ms, number_of
from core.times.durations import parse_duration

_YES = frozenset({"yes", "y", "true", "x", "1", "live", "✓", "✔", "must see"})
_NO = frozenset({"no", "n", "false", "0", "-", "–", "", "not live"})
_FRACTION = re.compile(r"[.,]\d{4}")
"""So many decimals make a number of days out of a bare figure; others lack their unit."""

_MIDNIGHT = re.compile(r"[T ]\s?0?0:00(?::00(?:\.0+)?)?$|[T ]\s?12:00(?::00)? AM$", re.I)


@dataclass(frozen=True, slots=True)
class Grid:
    """How the cells of a table are read: what no single cell says."""

    reading: Reading
    from_1904: bool = False


def clock_cell(cell: str, grid: Grid) -> Found:
    """The clock time in a cell, with its day where it has one. TimeProblem where it is none."""
    text = cell.strip()
    serial = number_of(text)
    if serial is not None and not (len(text) == 4 and text.isdigit()):
        return _from_serial(text, grid)
    found = found_at(text, 0, replace(grid.reading, column=TimeColumn(elapsed=False)))
    if found is None or text[found.end :].strip(" .()"):
        raise TimeProblem(f"'{_clip(text)}' is no clock time", "Write it like 2031-05-14 16:46:00")
    return found


def _from_serial(text: str, grid: Grid) -> Found:
    serial = number_of(text)
    if serial is None:
        raise ValueError("no number in this cell")
    if not ("." in text or "," in text) and serial >= 1:
        raise TimeProblem(f"'{text}' is a day without a time", "Add the time of day")
    day = day_of(serial, from_1904=grid.from_1904) if serial >= 1 else None
    whole_ms = length_ms(serial % 1)
    if whole_ms >= 86_400_000:
        day, whole_ms = (day + timedelta(days=1) if day else None), 0
    seconds, ms = divmod(whole_ms, 1_000)
    minutes, second = divmod(seconds, 60)
    dial = Dial(minutes // 60, minutes % 60, second, ms, padded=True)
    return Found(len(text), dial, day)


def date_cell(cell: str, grid: Grid) -> tuple[date, str]:
    """The day in a cell, and what must be told of it. TimeProblem where it is none."""
    text = _MIDNIGHT.sub("", cell.strip()).strip()
    serial = number_of(text)
    if serial is not None and serial >= 1:
        return day_of(serial, from_1904=grid.from_1904), ""
    match = DATE.match(text)
    if match is None or text[match.end() :].strip(" ,.;"):
        raise TimeProblem(f"'{_clip(text)}' is no date", "Write it like 2031-05-14")
    said = said_day(match, grid.reading.near, day_first=grid.reading.day_first)
    return said.day, said.told


def elapsed_cell(cell: str, grid: Grid) -> int:
    """The elapsed time in a cell, in milliseconds. TimeProblem where it is none."""
    text = cell.strip()
    serial = number_of(text)
    if serial is not None and _FRACTION.search(text):
        return length_ms(serial)
    two = grid.reading.two_parts or grid.reading.setting.two_parts
    found = elapsed_at(text, 0, expected=True, two_parts=two)
    if found is not None and not text[found.end :].strip(" ."):
        return found.length_ms
    return _length(text, two)


def length_cell(cell: str, grid: Grid) -> int:
    """The length in a cell, in milliseconds, not negative. TimeProblem where it is none."""
    text = cell.strip().removeprefix("±").removeprefix("+/-").removeprefix("+-").strip()
    if text in ("0", ""):
        return 0
    taken_ms = elapsed_cell(text, grid)
    if taken_ms < 0:
        raise TimeProblem(f"'{_clip(text)}' is negative", "Leave the minus sign out")
    return taken_ms


def yes_or_no(cell: str) -> bool:
    """What a cell answers. TimeProblem where it is neither yes nor no."""
    word = cell.strip().casefold()
    if word in _YES:
        return True
    if word in _NO:
        return False
    raise TimeProblem(f"'{_clip(cell)}' is neither yes nor no", "Write yes, or leave it empty")


def _length(text: str, two: TwoParts | None) -> int:
    spelled = re.sub(r"\b(\d+(?:\.\d+)?)\s*(?:hours?|hrs?)\b\.?", r"\1h", text, flags=re.I)
    spelled = re.sub(r"\b(\d+(?:\.\d+)?)\s*(?:minutes?|mins?)\b\.?", r"\1m", spelled, flags=re.I)
    spelled = re.sub(r"\b(\d+(?:\.\d+)?)\s*(?:seconds?|secs?)\b\.?", r"\1s", spelled, flags=re.I)
    spelled = re.sub(r"\b(\d+(?:\.\d+)?)\s*days?\b", r"\1d", spelled, flags=re.I)
    if two is not None and re.fullmatch(r"\d{1,4}:[0-5]\d", spelled, re.ASCII):
        first, second = spelled.split(":")
        minutes = two is TwoParts.MINUTES_SECONDS
        spelled = f"{first}{'m' if minutes else 'h'} {second}{'s' if minutes else 'm'}"
    return parse_duration(spelled.replace(",", " "))


def _clip(text: str) -> str:
    plain = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    return plain if len(plain) <= 40 else f"{plain[:37]}..."
