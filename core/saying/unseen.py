"""Gap: something may be happening that nobody can hear. Never in the indicative."""

from core.saying.audience import Audience
from core.saying.clocks import down_minute_ms
from core.saying.lengths import rounded_words
from core.saying.making import lasting, make
from core.saying.model import Claim, Kind, Subject, Told
from core.saying.numbers import capital
from core.saying.rounding import HALF_MS, HALVES_UNTIL_MS, Rounded, step_ms, wait
from core.saying.situations import Gap
from core.times.writing import MINUTE_MS, apart_ms

_IF = "If all is going to plan"
_IF_SO_FAR = "If all has gone to plan"
_BEHIND = "behind "


def unseen(gap: Gap, audience: Audience, now_ms: int) -> Told:
    """What should be happening now, and when the first word of it can come."""
    body = _over(gap) if gap.over else f"{_IF}, {gap.doing}{_silence(gap.cause)}."
    if gap.word_ms is None:
        return make(Subject.GAP, _line(gap), body, (gap.ends_ms,))
    left_ms = apart_ms(gap.word_ms, now_ms)
    rounded = wait(left_ms, gap.give_ms) if gap.only else _down(left_ms, gap.give_ms)
    if rounded is not None:
        told = _with_wait(gap, body, rounded, gap.word_ms)
        if lasting(told, now_ms):
            return told
    return _by_the_clock(gap, body, gap.word_ms, audience)


def _down(left_ms: int, give_ms: int) -> Rounded | None:
    """The earlier of two returns rounds down, and is true as long as that is the nearest."""
    halves = left_ms < HALVES_UNTIL_MS and give_ms <= HALF_MS
    step = HALF_MS if halves else step_ms(max(left_ms, HALVES_UNTIL_MS), give_ms)
    said_ms = left_ms // step * step
    if said_ms < MINUTE_MS:
        return None
    return Rounded(said_ms, said_ms - step // 2, said_ms + step)


def _silence(cause: str) -> str:
    where = f", {cause}, where" if cause.startswith(_BEHIND) else ", and"
    return f"{where} nobody on Earth can hear it"


def _line(gap: Gap) -> str:
    return f"{_IF_SO_FAR if gap.over else _IF}, {gap.doing}."


def _over(gap: Gap) -> str:
    where = f"{capital(gap.cause)}, nobody" if gap.cause.startswith(_BEHIND) else "Nobody"
    return f"{_line(gap)} {where} on Earth could hear it."


def _with_wait(gap: Gap, body: str, rounded: Rounded, word_ms: int) -> Told:
    length = rounded_words(rounded)
    return make(
        Subject.GAP,
        f"{_line(gap)} First word, at best, in {length}.",
        f"{body} The first chance of any word is {length} away.",
        (word_ms - rounded.low_ms, gap.ends_ms),
        (Claim(Kind.WAIT, f"word:{gap.named.event}", rounded.low_ms, rounded.high_ms),),
    )


def _by_the_clock(gap: Gap, body: str, word_ms: int, audience: Audience) -> Told:
    minute_ms = down_minute_ms(word_ms)
    clock = audience.bare(minute_ms)
    return make(
        Subject.GAP,
        f"{_line(gap)} First word, at best, at about {clock}.",
        f"{body} The first chance of any word is at about {clock}.",
        (minute_ms, gap.ends_ms),
        (Claim(Kind.CLOCK, f"word:{gap.named.event}", minute_ms, minute_ms + MINUTE_MS - 1),),
    )
