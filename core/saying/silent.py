"""A silence with one end: behind what they are, and when their signal should be back."""

from core.saying.audience import Audience
from core.saying.coming import at_clock, clock_claim
from core.saying.making import make
from core.saying.model import Subject, Told, speaking_ms
from core.saying.situations import Silence

_BEHIND = "behind "


def silent(silence: Silence, audience: Audience, now_ms: int) -> Told:
    """Why nothing is heard, and until when, by the clock: that lasts."""
    line = f"We are out of contact for now: {silence.cause}."
    if silence.cause.startswith(_BEHIND):
        line = (
            f"By the flight plan they are {silence.cause} now, where nobody on Earth can hear them."
        )
    elif not silence.cause:
        line = "We are out of contact for now."
    clock = at_clock(silence.back_ms, silence.give_ms, audience, now_ms)
    body = f"{line} Their signal should be back {clock}."
    return make(
        Subject.SILENCE,
        line,
        body,
        (silence.back_ms + speaking_ms(body),),
        (clock_claim(silence.event, silence.back_ms, silence.give_ms),),
        ((silence.event, silence.back_ms),),
    )
