"""The forms that steer a simulated clock from the bar."""

import re
from fractions import Fraction

from core.entries.clocktimes import Asking, checked_ms, read_clock
from core.entries.context import Context
from core.entries.forms import nearest_form
from core.entries.formshape import About
from core.entries.readings import ClockGo, ClockJump, ClockMove, ClockPause, ClockRate, Reading
from core.entries.timed import read_length, when_words
from core.entries.words import shown
from core.errors import EntryProblem
from core.times.clocks import FASTEST, SLOWEST
from core.times.writing import short_duration_words

_BEFORE_NEXT_MS = 60_000
_RATE = re.compile(r"(?P<rate>\d{1,4}(?:\.\d{1,4}|/\d{1,4})?)(?: ?x| times)?", re.ASCII)


def read_on_clock(tail: str, context: Context) -> tuple[Reading, ...]:
    """The readings of what follows 'clock'; EntryProblem where there is none, or it is real."""
    if not context.simulated:
        raise EntryProblem(
            "This board runs on the real clock, which nobody sets from here",
            "clock",
            "Open the board with --at to run it on a simulated one",
        )
    word, _, more = tail.lower().partition(" ")
    match word:
        case "pause":
            return _bare("pause", more, Reading(ClockPause(), "The clock stands"))
        case "go":
            return _bare("go", more, Reading(ClockGo(), "The clock runs"))
        case "next":
            return _bare("next", more, _next(context))
        case "rate":
            return (_rate(more),)
        case "step":
            return (_step(more, context),)
        case _:
            return _set(tail.lower(), context)


def _set(text: str, context: Context) -> tuple[Reading, ...]:
    moments = read_clock(text, Asking(context.now_ms, context.zones)) if text else None
    if moments is None:
        what = f"'{shown(text)}' is nothing a clock does" if text else "What of the clock?"
        raise EntryProblem(what, text, nearest_form(About.CLOCK, "clock", text))
    return tuple(
        Reading(ClockJump(moment.at_ms), f"The clock is set to {when_words(moment, context)}")
        for moment in moments
    )


def _rate(more: str) -> Reading:
    match = _RATE.fullmatch(more)
    rate = _number(match["rate"]) if match else None
    if rate is None or not SLOWEST <= float(rate) <= FASTEST:
        what = f"'{shown(more)}' is no rate" if more else "At what rate?"
        raise EntryProblem(what, more, "From 1/10 to 600: clock rate 60")
    return Reading(ClockRate(float(rate)), f"The clock runs at {rate} times the real one")


def _step(more: str, context: Context) -> Reading:
    length_ms = read_length(more.removeprefix("-").removeprefix("+"))
    by_ms = -length_ms if more.startswith("-") else length_ms
    checked_ms(context.now_ms + by_ms, more)
    side = "on" if by_ms >= 0 else "back"
    return Reading(ClockMove(by_ms), f"The clock goes {short_duration_words(by_ms)} {side}")


def _next(context: Context) -> Reading:
    ahead = [
        (event.expected_ms, event.name)
        for event in context.events
        if event.expected_ms is not None
        and not event.happened
        and event.expected_ms - _BEFORE_NEXT_MS > context.now_ms
    ]
    if not ahead:
        raise EntryProblem("No event is more than a minute ahead", "next", "Set it: clock 4:30p")
    expected_ms, name = min(ahead)
    return Reading(ClockJump(expected_ms - _BEFORE_NEXT_MS), f"A minute before: {name}")


def _bare(word: str, more: str, reading: Reading) -> tuple[Reading, ...]:
    if more:
        raise EntryProblem(f"'{shown(more)}' is too much", more, f"Write clock {word}")
    return (reading,)


def _number(text: str) -> Fraction | None:
    try:
        return Fraction(text)
    except ZeroDivisionError:
        return None
