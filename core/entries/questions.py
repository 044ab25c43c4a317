"""What is asked before a line is taken, as far as the line and the moment alone decide it."""

from core.entries.context import Context, EventNow
from core.times.writing import apart_ms, dated_clock_text, difference_words, short_duration_words

_FAR_MS = 15 * 60_000
_FAR_GIVES = 10


def past_words(instant_ms: int, context: Context) -> str:
    """The question at a new time that is already past, or empty."""
    ago_ms = apart_ms(context.now_ms, instant_ms)
    if ago_ms <= 0:
        return ""
    clock = dated_clock_text(instant_ms, context.style, context.now_ms)
    return f"{clock} is {short_duration_words(ago_ms)} ago"


def ahead_words(instant_ms: int, context: Context) -> str:
    """The question at a fact that is still to come, or empty."""
    away_ms = apart_ms(instant_ms, context.now_ms)
    if away_ms <= 0:
        return ""
    clock = dated_clock_text(instant_ms, context.style, context.now_ms)
    return f"{clock} is still {short_duration_words(away_ms)} away"


def far_words(event: EventNow, instant_ms: int) -> str:
    """The question at a move of over ten times the give and at least fifteen minutes, or empty."""
    if event.expected_ms is None:
        return ""
    by_ms = instant_ms - event.expected_ms
    if abs(by_ms) < _FAR_MS or abs(by_ms) <= _FAR_GIVES * event.give_ms:
        return ""
    return f"That is {difference_words(by_ms)} than now expected"
