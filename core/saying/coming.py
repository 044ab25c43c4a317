"""Next: what comes, when, and whether it will be heard."""

from dataclasses import replace

from core.saying.against import against_words
from core.saying.audience import Audience
from core.saying.clocks import said_minute_ms
from core.saying.lengths import minutes_words, rounded_words
from core.saying.making import LEAST_LIFE_MS, lasting, make
from core.saying.model import Claim, Kind, Reach, Subject, Told, speaking_ms
from core.saying.rounding import (
    HALF_MS,
    HALVES_UNTIL_MS,
    Rounded,
    at_least,
    step_ms,
    wait,
)
from core.saying.situations import Next
from core.times.writing import MINUTE_MS, apart_ms, is_about

WAIT_WITHIN_MS = 15 * MINUTE_MS
"""What is farther off is told by the clock alone: that lasts."""
REACH = {
    Reach.SEEN: "We should see it.",
    Reach.HEARD: "We should hear it, but not see it.",
    Reach.OUT: "We will not hear it.",
    Reach.OPEN: "",
}
"""What is said of whether the audience will have it."""


def coming(next_: Next, audience: Audience, now_ms: int) -> Told | None:
    """The next event with its clock time, and how long until it where both are right.

    None in the last minute: then the countdown says it.
    """
    left_ms = apart_ms(next_.at_ms, now_ms)
    if left_ms < MINUTE_MS:
        return None
    clock = at_clock(next_.at_ms, next_.give_ms, audience, now_ms)
    rounded = wait(left_ms, next_.give_ms) if left_ms < WAIT_WITHIN_MS else None
    if rounded is not None and adds_up(next_, rounded, now_ms):
        told = _with_wait(next_, clock, rounded, now_ms)
        if lasting(told, now_ms):
            return told
    return _by_the_clock(next_, clock, now_ms)


def adds_up(next_: Next, rounded: Rounded, now_ms: int) -> bool:
    """Whether the minutes said and the minute on the wall make the clock time said."""
    minute_ms = said_minute_ms(next_.at_ms, next_.give_ms)
    return now_ms // MINUTE_MS * MINUTE_MS + rounded.said_ms == minute_ms


def at_clock(at_ms: int, give_ms: int, audience: Audience, now_ms: int) -> str:
    """'at four fifty-seven Atlantic', 'at about five-thirty Atlantic'."""
    about = "about " if is_about(give_ms) else ""
    return f"at {about}{audience.all(said_minute_ms(at_ms, give_ms), now_ms)}"


def clock_claim(event: str, at_ms: int, give_ms: int) -> Claim:
    """What such a clock time claims."""
    minute_ms = said_minute_ms(at_ms, give_ms)
    if not is_about(give_ms):
        return Claim(Kind.CLOCK, event, minute_ms, minute_ms + MINUTE_MS - 1)
    half_ms = max(MINUTE_MS, step_ms(0, give_ms)) // 2
    return Claim(Kind.CLOCK, event, minute_ms - half_ms, minute_ms + half_ms)


def _opening(next_: Next) -> str:
    """'Next, the firing meant to put ...', by the plan's own words where it has some."""
    when = "Next" if next_.first else "Still to come"
    if next_.named.described:
        return f"{when}, {next_.named.words}"
    return f"{when} on the flight plan: {next_.named.words}"


def _with_wait(next_: Next, clock: str, rounded: Rounded, now_ms: int) -> Told:
    event, length = next_.named.event, rounded_words(rounded)
    claims = (
        Claim(Kind.WAIT, event, rounded.low_ms, rounded.high_ms),
        clock_claim(event, next_.at_ms, next_.give_ms),
    )
    minute_ends_ms = now_ms // MINUTE_MS * MINUTE_MS + MINUTE_MS
    return make(
        Subject.NEXT,
        f"{_opening(next_)}, {clock}.",
        f"{_opening(next_)}. It is due in {length}, {clock}.{_reach(next_)}",
        (next_.at_ms - rounded.low_ms, minute_ends_ms),
        claims,
        ((event, next_.at_ms),),
        _more(next_),
        next_.fact,
    )


def _by_the_clock(next_: Next, clock: str, now_ms: int) -> Told:
    """Without the wait. It would last, but gives way as soon as both can be right again."""
    event = next_.named.event
    body = f"{_opening(next_)}. It is due {clock}.{_reach(next_)}"
    told = make(
        Subject.QUIET if next_.quiet else Subject.NEXT,
        f"{_opening(next_)}, {clock}.",
        body,
        (next_.at_ms - MINUTE_MS + speaking_ms(body),),
        (clock_claim(event, next_.at_ms, next_.give_ms),),
        ((event, next_.at_ms),),
        _more(next_),
        next_.fact,
    )
    better_ms = max(_both_again_ms(next_.at_ms, now_ms), now_ms + LEAST_LIFE_MS)
    if next_.at_ms - better_ms >= HALVES_UNTIL_MS:
        return replace(told, until_ms=min(told.until_ms, better_ms))
    return told


def _both_again_ms(at_ms: int, now_ms: int) -> int:
    """When, after a turn of the minute, the nearest minutes and the clock add up."""
    near_ms = max(now_ms, at_ms - WAIT_WITHIN_MS)
    turn_ms = near_ms // MINUTE_MS * MINUTE_MS + MINUTE_MS
    return turn_ms + max(0, at_ms % MINUTE_MS - HALF_MS)


def _reach(next_: Next) -> str:
    words = REACH[next_.reach]
    if next_.reach is Reach.HEARD and not next_.pictures:
        words = "We should hear it."
    return f" {words}" if words else ""


def _more(next_: Next) -> tuple[str, ...]:
    """How it runs against the plan, and how long word of it takes."""
    told = []
    if next_.change_ms is not None:
        by = against_words(next_.change_ms, next_.give_ms)
        side = "later" if next_.change_ms > 0 else "earlier"
        told.append(f"Its time is now {by} {side} than planned." if by else "")
    way = at_least(next_.way_ms)
    if way is not None:
        length = minutes_words(way.said_ms)
        told.append(f"Word of it needs more than {length} to get here.")
    return tuple(told)
