"""Gap: something may be happening that nobody can hear. Never in the indicative."""

from core.saying.audience import Audience
from core.saying.clocks import down_minute_ms
from core.saying.lengths import rounded_words
from core.saying.making import make
from core.saying.model import TWENTY_MS, Claim, Kind, Subject, Told, speaking_ms
from core.saying.numbers import capital
from core.saying.rounding import HALF_MS, HALVES_UNTIL_MS, LEAD_MS, Rounded, step_ms
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
    rounded = _down(left_ms, gap.give_ms)
    if rounded is not None:
        return _with_wait(gap, body, rounded, gap.word_ms)
    return _by_the_clock(gap, body, gap.word_ms, audience)


def _down(left_ms: int, give_ms: int) -> Rounded | None:
    """Rounded down as it will be when it is understood: never above the countdown beside it."""
    then_ms = left_ms - LEAD_MS
    halves = then_ms < HALVES_UNTIL_MS and give_ms <= HALF_MS
    step = HALF_MS if halves else step_ms(max(then_ms, HALVES_UNTIL_MS), give_ms)
    said_ms = then_ms // step * step
    if said_ms < MINUTE_MS:
        return None
    return Rounded(said_ms, said_ms + LEAD_MS - TWENTY_MS, said_ms + step + LEAD_MS)


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
    told = f"{body} The first chance of any word is {length} away."
    shown_until_ms = word_ms - rounded.said_ms - LEAD_MS
    return make(
        Subject.GAP,
        f"{_line(gap)} First word, at best, in {length}.",
        told,
        (shown_until_ms + speaking_ms(told), gap.ends_ms),
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
