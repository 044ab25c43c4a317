"""Lengths of time in words: 'five and a half minutes', 'a minute and a half', 'twelve'."""

from core.saying.numbers import cardinal
from core.saying.rounding import HALF_MS, Rounded
from core.times.writing import HOUR_MS, MINUTE_MS, SECOND_MS


def minutes_words(length_ms: int) -> str:
    """A length of whole and half minutes: 'eight minutes', 'an hour and ten minutes'."""
    hours, rest_ms = divmod(length_ms, HOUR_MS)
    minutes, half_ms = divmod(rest_ms, MINUTE_MS)
    parts = []
    if hours:
        parts.append("an hour" if hours == 1 else f"{cardinal(hours)} hours")
    if minutes or half_ms >= HALF_MS:
        parts.append(_minutes(minutes, half=half_ms >= HALF_MS))
    return " and ".join(parts)


def _minutes(minutes: int, *, half: bool) -> str:
    if half and minutes < 2:
        return "a minute and a half" if minutes else "half a minute"
    if minutes == 1:
        return "a minute"
    return f"{cardinal(minutes)}{' and a half' if half else ''} minutes"


def bare_words(length_ms: int) -> str:
    """The same where 'minutes' has been said just before: 'eight', 'two and a half'."""
    words = minutes_words(length_ms)
    return words.removesuffix(" minutes") if length_ms < HOUR_MS else words


def rounded_words(rounded: Rounded, *, bare: bool = False) -> str:
    """'about five and a half minutes', 'just under eight', 'more than eight'."""
    words = bare_words(rounded.said_ms) if bare else minutes_words(rounded.said_ms)
    how = "just under" if rounded.under else "more than" if rounded.over else "about"
    return f"{how} {words}"


def exact_words(length_ms: int) -> str:
    """A length to the second: 'nine minutes', 'four minutes and twenty-one seconds'."""
    hours, rest_ms = divmod(length_ms, HOUR_MS)
    minutes, rest_ms = divmod(rest_ms, MINUTE_MS)
    counted = ((hours, "hour"), (minutes, "minute"), (rest_ms // SECOND_MS, "second"))
    parts = [f"{cardinal(n)} {unit}{'' if n == 1 else 's'}" for n, unit in counted if n]
    if not parts:
        return "nothing"
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)
