"""Clock times as they are spoken: 'four fifty-seven', 'three minutes to five'."""

from datetime import datetime

from core.plan.model import Usage
from core.saying.numbers import cardinal
from core.saying.rounding import step_ms
from core.times.writing import MINUTE_MS, is_about

_LEAST_ALONE = (5, 10, 20, 25)
"""British minutes that need no 'minutes' after them."""


def said_minute_ms(at_ms: int, give_ms: int = 0) -> int:
    """The minute that is said: as clocks show it, or the nearest where it is 'about'.

    Never finer than the give.
    """
    if not is_about(give_ms):
        return at_ms // MINUTE_MS * MINUTE_MS
    step = max(MINUTE_MS, step_ms(0, give_ms))
    return (at_ms + step // 2) // step * step


def down_minute_ms(at_ms: int) -> int:
    """The minute before an instant, or at it: for the earlier of two returns."""
    return at_ms // MINUTE_MS * MINUTE_MS


def clock_words(there: datetime, usage: Usage) -> str:
    """The time of day in words, by the usage of the audience."""
    if usage is Usage.HOURS_24:
        return _by_24(there.hour, there.minute)
    if (there.hour, there.minute) in ((0, 0), (12, 0)):
        return "noon" if there.hour else "midnight"
    hour = (there.hour + 11) % 12 + 1
    if usage is Usage.BRITISH:
        return _british(hour, there.minute)
    return _american(hour, there.minute)


def part_of_day(there: datetime) -> str:
    """'in the afternoon', for a time that is not of today."""
    if there.hour < 12:
        return "in the morning"
    return "in the afternoon" if there.hour < 18 else "in the evening"


def _american(hour: int, minute: int) -> str:
    if not minute:
        return f"{cardinal(hour)} o'clock"
    if minute < 10:
        return f"{cardinal(hour)}-oh-{cardinal(minute)}"
    words = cardinal(minute)
    return f"{cardinal(hour)}{' ' if '-' in words else '-'}{words}"


def _british(hour: int, minute: int) -> str:
    if not minute:
        return f"{cardinal(hour)} o'clock"
    if minute > 30:
        return f"{_british_minutes(60 - minute)} to {cardinal(hour % 12 + 1)}"
    return f"{_british_minutes(minute)} past {cardinal(hour)}"


def _british_minutes(minutes: int) -> str:
    if minutes == 30:
        return "half"
    if minutes == 15:
        return "a quarter"
    if minutes == 1:
        return "one minute"
    return cardinal(minutes) if minutes in _LEAST_ALONE else f"{cardinal(minutes)} minutes"


def _by_24(hour: int, minute: int) -> str:
    if not hour and not minute:
        return "midnight"
    first = cardinal(hour) if hour >= 10 or not hour else f"oh-{cardinal(hour)}"
    if not minute:
        return f"{first} hundred"
    words = cardinal(minute) if minute >= 10 else f"oh-{cardinal(minute)}"
    return f"{first} {words}"
