"""A live moment itself: just before it, while it is due, and when it has come."""

from core.saying.audience import Audience
from core.saying.clocks import said_minute_ms
from core.saying.coming import REACH, clock_claim
from core.saying.making import make
from core.saying.model import Subject, Told, speaking_ms
from core.saying.numbers import capital
from core.saying.situations import Moment
from core.times.writing import MINUTE_MS, is_about


def at_the_moment(moment: Moment, audience: Audience, now_ms: int) -> Told:
    """What one says while the countdown is read with it, and right after."""
    words = moment.named.words
    if now_ms < moment.at_ms:
        return _made(moment, f"Coming up now: {words}.", moment.at_ms, REACH[moment.reach])
    about = "about " if is_about(moment.give_ms) else ""
    clock = about + audience.bare(said_minute_ms(moment.at_ms, moment.give_ms))
    if moment.came:
        return _made(moment, f"It came at {clock}: {words}.", moment.until_ms, timed=True)
    if now_ms < moment.at_ms + MINUTE_MS:
        return _made(moment, f"Due now: {words}.", moment.at_ms + MINUTE_MS)
    line = f"{capital(words)} was due at {clock}."
    return _made(moment, line, moment.until_ms, "Nobody has confirmed it yet.", timed=True)


def _made(moment: Moment, line: str, until_ms: int, more: str = "", *, timed: bool = False) -> Told:
    """As long as that is so, one may begin to say it."""
    event, at_ms = moment.named.event, moment.at_ms
    body = f"{line} {more}" if more else line
    return make(
        Subject.MOMENT,
        line,
        body,
        (until_ms + speaking_ms(body),),
        (clock_claim(event, at_ms, moment.give_ms),) if timed else (),
        ((event, at_ms),) if timed else (),
        fact=moment.fact,
    )
