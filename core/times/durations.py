"""Lengths of time as written: '75:27:30', '3d 03:27:30', '1h 20m', '-90s', '4.25s', '250ms'."""

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache

from core.errors import TimeProblem

UNITS_MS = {"d": 86_400_000, "h": 3_600_000, "m": 60_000, "s": 1_000, "ms": 1}
LONGEST_MS = 36_525 * UNITS_MS["d"]
"""A hundred years. A longer length is a slip of the hand, whatever it stands for."""

FORMS = "Write it like 75:27:30 (h:mm:ss), 3d 03:27:30, 1h 20m, 90s or 250ms"

_CLOCK = re.compile(
    r"(?P<sign>-?)(?:(?P<d>\d{1,6})d\s{1,4})?"
    r"(?P<h>\d{1,7}):(?P<m>[0-5]\d):(?P<s>[0-5]\d(?:\.\d{1,9})?)",
    re.ASCII,
)
_PARTS = re.compile(
    r"(?P<sign>-?)"
    + r"\s{0,4}".join(rf"(?:(?P<{unit}>\d{{1,12}}(?:\.\d{{1,9}})?)\s?{unit}\b)?" for unit in "dhm")
    + r"\s{0,4}(?:(?P<s>\d{1,12}(?:\.\d{1,9})?)\s?s\b)?"
    + r"\s{0,4}(?:(?P<ms>\d{1,12}(?:\.\d{1,9})?)\s?ms\b)?",
    re.ASCII,
)
_BARE = re.compile(r"-?\d{1,12}(?:\.\d{1,9})?", re.ASCII)
_TWO = re.compile(r"(?P<sign>-?)(?P<a>\d{1,4}):(?P<b>[0-5]\d(?:\.\d{1,9})?)", re.ASCII)


@lru_cache(maxsize=4_096)
def parse_duration(text: str) -> int:
    """The length that `text` writes, in whole milliseconds; further digits are rounded.

    Raises TimeProblem where it is no length, has no unit, or could be read in two ways.
    """
    short = text.strip()
    match = _CLOCK.fullmatch(short) or _PARTS.fullmatch(_spaced(short))
    if match is None or not any(match.groupdict().get(unit) for unit in UNITS_MS):
        raise _refusal(short)
    total = sum(
        Decimal(number) * UNITS_MS[unit]
        for unit, number in match.groupdict().items()
        if unit != "sign" and number
    )
    length_ms = int(Decimal(total).to_integral_value(ROUND_HALF_UP))
    if length_ms > LONGEST_MS:
        raise TimeProblem(f"{_quoted(short)} is longer than a hundred years", FORMS)
    return -length_ms if match["sign"] else length_ms


def write_duration(length_ms: int) -> str:
    """`length_ms` in the units form, as `parse_duration` reads it back: '1h 20m', '-4.250s'."""
    rest_ms = abs(length_ms)
    parts = []
    for unit in "dhm":
        count, rest_ms = divmod(rest_ms, UNITS_MS[unit])
        if count:
            parts.append(f"{count}{unit}")
    if rest_ms or not parts:
        whole_s, odd_ms = divmod(rest_ms, 1_000)
        parts.append(f"{whole_s}.{odd_ms:03d}s" if odd_ms else f"{whole_s}s")
    return ("-" if length_ms < 0 else "") + " ".join(parts)


def _spaced(text: str) -> str:
    """`text` with a space after each unit, so that '1h20m' is read like '1h 20m'."""
    return re.sub(r"(?<=[a-z])(?=\d)", " ", text[:80]) if len(text) <= 80 else text


def _refusal(text: str) -> TimeProblem:
    if _BARE.fullmatch(text):
        return TimeProblem(
            f"{_quoted(text)} has no unit", f"Add one: {text}s for seconds, {text}m for minutes"
        )
    if two := _TWO.fullmatch(text):
        sign, first, second = two["sign"], two["a"], two["b"]
        return TimeProblem(
            f"{_quoted(text)} could be hours and minutes, or minutes and seconds",
            f"Write {sign}{first}h {second}m or {sign}{first}m {second}s",
        )
    if re.search(r":[6-9]\d", text[:80], re.ASCII):
        return TimeProblem(
            f"{_quoted(text)} has sixty or more minutes or seconds behind a colon", FORMS
        )
    return TimeProblem(f"{_quoted(text)} is no length of time", FORMS)


def _quoted(text: str) -> str:
    return f"'{text}'" if len(text) <= 40 else f"'{text[:37]}...'"
