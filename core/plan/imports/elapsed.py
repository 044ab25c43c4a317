"""Elapsed times as papers write them: 'T+03:29:33', '2/12:23:00 MET', 'GET 074:16:29'."""

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from core.errors import TimeProblem
from core.plan.imports.model import TwoParts
from core.times.durations import LONGEST_MS, UNITS_MS

_UNIT = r"(?:d(?:ays?)?|h(?:ours?|rs?)?|m(?:in(?:ute)?s?)?|s(?:ec(?:ond)?s?)?)\b\.?"
_PART = rf"\d{{1,7}}(?:\.\d{{1,3}})?[ -]?{_UNIT}"

_BEFORE = re.compile(
    r"(?:(?P<letter>[TL])\s?(?:(?P<sign>[+−–-])\s?|(?P<minus>minus)\s+|plus\s+)"
    r"|(?:MET|GET)\b\s?[:=]?\s?(?P<sign2>[+−–-]?)\s?)",
    re.I,
)
_SIGN = re.compile(r"(?P<sign>[+−–-])(?=\d)")
_FIGURES = re.compile(
    r"(?:(?P<d>\d{1,4})(?:\s?d(?:ays?)?[ ,]+|/))?"
    r"(?P<h>\d{1,5}):(?P<m>\d\d)(?::(?P<s>\d\d)(?:\.(?P<f>\d{1,6}))?)?(?![\d:/])(?!\s?[ap]\.?m\b)",
    re.I | re.ASCII,
)
_PARTS = re.compile(rf"{_PART}(?:,?\s?{_PART}){{0,3}}", re.I | re.ASCII)
_ONE = re.compile(rf"(?P<n>\d+(?:\.\d+)?)[ -]?(?P<unit>{_UNIT})", re.I | re.ASCII)
_ZERO = re.compile(r"0+(?![\d:/.])", re.ASCII)
_AFTER = re.compile(r"\s?\(?(?:MET|GET)\)?(?!\w)")


@dataclass(frozen=True, slots=True)
class Length:
    """An elapsed time, negative before the zero, and where it ends in its text."""

    length_ms: int
    end: int


def elapsed_at(
    text: str, at: int, *, expected: bool | None = None, two_parts: TwoParts | None = None
) -> Length | None:
    """The elapsed time at a place of a text; None where there is none.

    With `expected` a figure that does not say so counts as one ('03:29:33'); with False none does.
    Raises TimeProblem where it could be hours and minutes, or a day of the year.
    """
    before = _BEFORE.match(text, at) or _SIGN.match(text, at)
    start = before.end() if before else at
    body = _FIGURES.match(text, start) or (before and _lengths(text, start))
    if not body:
        return None
    after = _AFTER.match(text, body.end())
    if not (before or after or expected) and (expected is False or not _only_elapsed(body)):
        return None
    size_ms = _size_ms(body, two_parts)
    if size_ms > LONGEST_MS:
        raise TimeProblem(f"'{body[0]}' is longer than a hundred years", "Check the figures")
    minus = before is not None and _negative(before)
    return Length(-size_ms if minus else size_ms, after.end() if after else body.end())


def _lengths(text: str, start: int) -> re.Match[str] | None:
    return _PARTS.match(text, start) or _ZERO.match(text, start)


def _negative(before: re.Match[str]) -> bool:
    said = before.groupdict()
    sign = said.get("sign") or said.get("sign2") or ""
    return bool(said.get("minus")) or sign in ("-", "−", "–")


def _only_elapsed(body: re.Match[str]) -> bool:
    """Whether figures can be no time of day: with days, or with hours no clock has."""
    if "/" in body[0]:
        raise TimeProblem(
            f"'{body[0]}' may count elapsed days or days of the year", "Write MET or GMT before it"
        )
    return bool(body["d"]) or (int(body["h"]) > 24 and body["s"] is not None)


def _size_ms(body: re.Match[str], two_parts: TwoParts | None) -> int:
    said = body.groupdict()
    if "h" not in said:
        return _sum_ms(body[0])
    days, first, second = int(body["d"] or 0), int(body["h"]), int(body["m"])
    third, fraction = int(body["s"] or 0), (body["f"] or "")
    if second > 59 or third > 59:
        raise TimeProblem(
            f"'{body[0]}' has sixty or more behind a colon", "Write it like 75:27:30 (h:mm:ss)"
        )
    if body["s"] is None and not days and (first or second):
        return _two_ms(body[0], first, second, two_parts)
    whole_s = ((days * 24 + first) * 60 + second) * 60 + third
    return whole_s * 1_000 + int((fraction + "000")[:3])


def _two_ms(written: str, first: int, second: int, two_parts: TwoParts | None) -> int:
    if two_parts is None:
        raise TimeProblem(
            f"'{written}' may be hours and minutes, or minutes and seconds",
            "Say which, or write it with all three: h:mm:ss",
        )
    unit = "s" if two_parts is TwoParts.MINUTES_SECONDS else "m"
    return (first * 60 + second) * UNITS_MS[unit]


def _sum_ms(written: str) -> int:
    total = sum(
        Decimal(one["n"]) * UNITS_MS[one["unit"][0].lower()] for one in _ONE.finditer(written)
    )
    return int(Decimal(total).to_integral_value(ROUND_HALF_UP))
