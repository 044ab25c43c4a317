"""What a listener takes from a sentence: clock times and lengths, from the words alone."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

MINUTE_MS = 60_000

_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
    "nineteen",
)
_TENS = ("twenty", "thirty", "forty", "fifty")
NUMBERS = {word: number for number, word in enumerate(_ONES)} | {
    f"{tens}-{_ONES[one]}" if one else tens: 10 * (at + 2) + one
    for at, tens in enumerate(_TENS)
    for one in range(10)
}
_NUMBER = "|".join(sorted(NUMBERS, key=len, reverse=True))
_HOUR = "|".join(_ONES[1:13])

_CLOCK = re.compile(
    rf"(?<![\w-])(?:(?P<hour>{_HOUR})"
    rf"(?: o'clock|-oh-(?P<under>{_NUMBER})|[ -](?P<minute>{_NUMBER}))"
    r"|(?P<named>noon|midnight))(?![\w-])(?! (?:minutes|seconds|and a half)\b)"
)
_LENGTH = re.compile(
    r"(?<![\w-])(?P<how>about|just under|more than) "
    rf"(?:(?P<hours>an hour|(?:{_NUMBER}) hours)(?: and )?)?"
    r"(?P<minutes>half a minute|a minute and a half|a minute"
    rf"|(?:{_NUMBER})(?: and a half)?(?: minutes?| of(?= [a-z]))"
    rf")?(?![\w-])"
)


@dataclass(frozen=True)
class Clock:
    """A time of day on a dial of twelve hours."""

    hour: int
    minute: int


@dataclass(frozen=True)
class Length:
    """A length, and how it was said: 'about', 'just under' or 'more than'."""

    how: str
    ms: int


def clocks(text: str) -> list[Clock]:
    """Every clock time of American usage in the text, in its order."""
    return [_clock(found) for found in _CLOCK.finditer(text.casefold())]


def _clock(found: re.Match[str]) -> Clock:
    if found["named"]:
        return Clock(12, 0)
    minute = found["under"] or found["minute"]
    return Clock(NUMBERS[found["hour"]], NUMBERS[minute] if minute else 0)


def lengths(text: str) -> list[Length]:
    """Every rounded length in the text, in its order."""
    return list(_lengths(text.casefold()))


def _lengths(text: str) -> Iterator[Length]:
    for found in _LENGTH.finditer(text):
        if found["hours"] or found["minutes"]:
            yield Length(found["how"], _hours_ms(found["hours"]) + _minutes_ms(found["minutes"]))


def _hours_ms(words: str | None) -> int:
    if not words:
        return 0
    return 60 * MINUTE_MS * (1 if words == "an hour" else NUMBERS[words.split()[0]])


def _minutes_ms(words: str | None) -> int:
    if not words:
        return 0
    half_ms = MINUTE_MS // 2 if "half" in words else 0
    if words == "half a minute":
        return half_ms
    first = words.split()[0]
    return MINUTE_MS * (1 if first == "a" else NUMBERS[first]) + half_ms
