"""Dates and times as spreadsheets count them: days and parts of a day, as a plain number.

The 1900 system counts from 1 for 1 January 1900 and has a 29 February in that year, day 60, which
never was; the 1904 system counts from 0 for 1 January 1904 (both by ECMA-376, part 1, 18.17.4.1,
from memory).
"""

import re
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal

from core.errors import TimeProblem

_NUMBER = re.compile(r"-?\d{1,7}(?:[.,]\d{1,20})?", re.ASCII)
_FALSE_LEAP_DAY = 60
_DAY_MS = 86_400_000
_TO_THE_MS = 8
"""With fewer decimals a serial is known to the second only."""


def number_of(cell: str) -> Decimal | None:
    """The number in a cell, with a point or a comma; None where it holds something else."""
    text = cell.strip()
    return Decimal(text.replace(",", ".")) if _NUMBER.fullmatch(text) else None


def day_of(serial: Decimal, *, from_1904: bool) -> date:
    """The day of a serial; TimeProblem for one that is none."""
    count = int(serial)
    if serial < 0 or count > 2_958_465:
        raise TimeProblem(f"{serial} is no day of a spreadsheet", "Format the column as a date")
    if from_1904:
        return date(1904, 1, 1) + timedelta(days=min(count, 2_957_003))
    if count == _FALSE_LEAP_DAY:
        raise TimeProblem("60 is 29 February 1900, which never was", "Write the date in words")
    base = date(1899, 12, 31) if count < _FALSE_LEAP_DAY else date(1899, 12, 30)
    return base + timedelta(days=count)


def length_ms(serial: Decimal) -> int:
    """A number of days in milliseconds, rounded as far as its decimals reach."""
    exact = serial * _DAY_MS
    exponent = serial.as_tuple().exponent
    fine = isinstance(exponent, int) and -exponent >= _TO_THE_MS
    step = Decimal(1) if fine else Decimal(1_000)
    return int((exact / step).to_integral_value(ROUND_HALF_UP) * step)
