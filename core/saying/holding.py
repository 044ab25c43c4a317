"""Hold: what is left on a count that stands still, and for how long it has stood."""

from core.saying.audience import Audience
from core.saying.lengths import exact_words, minutes_words
from core.saying.making import make
from core.saying.model import NO_TIME_MS, Claim, Kind, Subject, Told
from core.saying.rounding import at_least
from core.saying.situations import Held
from core.times.writing import MINUTE_MS, apart_ms

_JUST_MS = 90_000


def holding(held: Held, audience: Audience, now_ms: int) -> Told:
    """The count is exact, its age rounds down; a published limit has its source. No estimate."""
    since_ms = apart_ms(now_ms, held.since_ms)
    aged = at_least(since_ms)
    event = held.named.event
    claims = [Claim(Kind.LENGTH, event, held.left_ms, held.left_ms)]
    stopped, ends_ms = "It has only just stopped.", held.since_ms + _JUST_MS
    if aged is not None:
        stopped = f"It stopped more than {minutes_words(aged.said_ms)} ago."
        # 'More than six minutes ago' stays true; it is made anew when it could be more.
        ends_ms = max(held.since_ms + aged.high_ms, now_ms + MINUTE_MS)
        claims.append(Claim(Kind.AGE, f"hold:{event}", aged.low_ms, ends_ms - held.since_ms))
    new = "There is no new launch time yet." if held.launch else "There is no new time yet."
    return make(
        Subject.HOLD,
        f"{_count(held)}.",
        f"{_count(held)}. {stopped} {new}",
        (ends_ms,),
        claims,
        ((event, NO_TIME_MS),),
        (_limit(held, audience, now_ms),),
    )


def _count(held: Held) -> str:
    """'The count is holding, with nine minutes left on it'."""
    what = "The count" if held.launch else f"The count to {held.named.words}"
    if not held.left_ms:
        return f"{what} is holding"
    return f"{what} is holding, with {exact_words(held.left_ms)} left on it"


def _limit(held: Held, audience: Audience, now_ms: int) -> str:
    """What was published about how late it may be."""
    if held.limit_ms is None or held.limit_ms <= now_ms:
        return ""
    clock = audience.one(held.limit_ms // MINUTE_MS * MINUTE_MS, now_ms)
    return f"By {held.limit_source} it can be no later than {clock}."
