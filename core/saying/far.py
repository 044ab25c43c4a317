"""Far away: it is over out there, and word of it is under way."""

from core.saying.audience import Audience
from core.saying.clocks import said_minute_ms
from core.saying.lengths import minutes_words
from core.saying.making import make
from core.saying.model import Claim, Kind, Subject, Told
from core.saying.rounding import HALF_MS, at_least
from core.saying.situations import FarAway
from core.times.writing import MINUTE_MS


def far_away(far: FarAway, audience: Audience, now_ms: int) -> Told | None:
    """Neither way in the indicative. None where word of it is less than a minute off."""
    way = at_least(far.way_ms)
    if way is None or far.heard_ms - now_ms < MINUTE_MS:
        return None
    event, length = far.named.event, minutes_words(way.said_ms)
    heard_ms, there_ms = _nearest(far.heard_ms, far.give_ms), _nearest(far.at_ms, far.give_ms)
    clock = audience.one(heard_ms, now_ms)
    claims = [
        Claim(Kind.LENGTH, f"light:{event}", way.low_ms, way.high_ms),
        Claim(Kind.CLOCK, f"heard:{event}", heard_ms - HALF_MS, heard_ms + HALF_MS),
    ]
    then = f"What we hear at about {clock} will by then be more than {length} old."
    if heard_ms - there_ms == way.said_ms:
        then = (
            f"What we hear at about {clock} will have happened at about {audience.bare(there_ms)}."
        )
        claims.append(Claim(Kind.CLOCK, event, there_ms - HALF_MS, there_ms + HALF_MS))
    over = _over(far)
    return make(
        Subject.FAR,
        over,
        f"{over} The signal takes more than {length} to get here. {then}",
        (far.heard_ms - MINUTE_MS,),
        claims,
        ((event, far.at_ms),),
    )


def _over(far: FarAway) -> str:
    """All of it is over, whichever way; or one thing of several has come, if nothing is amiss."""
    where = f"On {far.where}" if far.where else "Out there"
    if far.last:
        return f"{where} it is already over, one way or the other."
    return f"{where}, if all is going to plan, {far.named.words} has already come."


def _nearest(at_ms: int, give_ms: int) -> int:
    return said_minute_ms(at_ms, max(give_ms, HALF_MS))
