"""Scrub: what is called off, who said so and when, and the next attempt they have named."""

from core.saying.audience import Audience
from core.saying.clocks import down_minute_ms
from core.saying.making import make
from core.saying.model import NO_TIME_MS, Claim, Kind, Subject, Told
from core.saying.numbers import capital
from core.saying.situations import CalledOff
from core.saying.sources import is_named, spoken_source
from core.times.writing import MINUTE_MS

_STANDS_MS = 15 * MINUTE_MS


def calling_off(off: CalledOff, audience: Audience, now_ms: int) -> Told:
    """For a launch 'there will be no launch today'; for anything else 'called off'."""
    minute_ms = down_minute_ms(off.at_ms)
    clock = audience.bare(minute_ms)
    who = capital(spoken_source(off.source)) if is_named(off.source) else ""
    if off.launch:
        what = "There will be no launch today."
        said = f"{who} called it off at {clock}." if who else f"It was called off at {clock}."
    else:
        what = f"{capital(off.named.words)} is called off."
        said = f"{who} said so at {clock}." if who else f"That was at {clock}."
    claims = [Claim(Kind.CLOCK, f"scrub:{off.named.event}", minute_ms, minute_ms + MINUTE_MS - 1)]
    times: tuple[tuple[str, int], ...] = ((off.named.event, NO_TIME_MS),)
    again = "There is no new launch time yet." if off.launch else "There is no new time yet."
    if off.again_ms is not None:
        again_ms = down_minute_ms(off.again_ms)
        again = f"The next attempt they have named is {audience.dated(again_ms, now_ms)}."
        claims.append(Claim(Kind.CLOCK, off.again, again_ms, again_ms + MINUTE_MS - 1))
        times = (*times, (off.again, off.again_ms))
    return make(
        Subject.SCRUB,
        what,
        f"{what} {said} {again}",
        (min(off.at_ms + _STANDS_MS, audience.midnight_ms(now_ms)),),
        claims,
        times,
    )
