"""How a time runs against the plan, as one says it: never 'one-eighteen'."""

from core.saying.lengths import minutes_words
from core.saying.model import Claim, Kind
from core.saying.rounding import step_ms
from core.times.writing import MINUTE_MS, SECOND_MS

ON_TIME_MS = 30_000
_LITTLE_OVER_MS = 75_000
_WORDED_UNTIL_MS = 2 * MINUTE_MS


def is_on_time(by_ms: int, give_ms: int = 0) -> bool:
    """Whether the difference is none to speak of: under half a minute, or under the give."""
    return abs(by_ms) < max(ON_TIME_MS, give_ms)


def against_words(by_ms: int, give_ms: int = 0) -> str:
    """'about a minute', 'a little over a minute', 'about three minutes'; empty if on time."""
    return "" if is_on_time(by_ms, give_ms) else _told(abs(by_ms), give_ms)[0]


def against_claim(event: str, by_ms: int, give_ms: int = 0) -> Claim:
    """What those words claim of the size of the difference."""
    low_ms, high_ms = _told(abs(by_ms), give_ms)[1]
    return Claim(Kind.LENGTH, event, low_ms, high_ms)


def _told(size_ms: int, give_ms: int) -> tuple[str, tuple[int, int]]:
    if give_ms <= ON_TIME_MS and size_ms < _WORDED_UNTIL_MS:
        if size_ms < _LITTLE_OVER_MS:
            return "about a minute", (ON_TIME_MS, _LITTLE_OVER_MS)
        return "a little over a minute", (MINUTE_MS + SECOND_MS, _WORDED_UNTIL_MS)
    step = max(MINUTE_MS, step_ms(size_ms, give_ms))
    said_ms = max(step, (size_ms + step // 2) // step * step)
    return f"about {minutes_words(said_ms)}", (said_ms - step // 2, said_ms + step // 2)
