"""Correction: a time told to the audience that is false now."""

from core.saying.audience import Audience
from core.saying.clocks import said_minute_ms
from core.saying.coming import clock_claim
from core.saying.making import make
from core.saying.model import NO_TIME_MS, Claim, Kind, Subject, Told, speaking_ms
from core.saying.numbers import capital
from core.saying.rounding import HALF_MS
from core.saying.situations import Correction
from core.saying.sources import is_named, spoken_source
from core.times.writing import (
    MINUTE_MS,
    SECOND_MS,
    apart_ms,
    is_about,
    local_time,
    nearest_minute_ms,
)

_STANDS_MS = 10 * MINUTE_MS
_JUST_MS = 2 * MINUTE_MS
_FEW_MS = 12 * MINUTE_MS


def correcting(owed: Correction, audience: Audience, now_ms: int) -> Told:
    """What we said and when about, and what holds now."""
    event = owed.named.event
    said_ms = owed.said_minute_ms
    if said_ms is None:
        said_ms = said_minute_ms(owed.said_at_ms, owed.give_ms)
    ago, ends_ms = _ago(owed.told_ms, now_ms)
    claims = [Claim(Kind.LENGTH, f"said:{event}", said_ms, said_ms)] if owed.by_clock else []
    if owed.now_at_ms is not None:
        claims.append(_claim(owed, owed.now_at_ms))
    clock = f"{_about(owed)}{_clock(said_ms, audience, now_ms)}"
    text = f"{_said(owed, ago, clock)} {capital(_now(owed, audience, now_ms))}"
    if owed.happened:
        text = (
            f"{capital(owed.named.words)}: {_now(owed, audience, now_ms)} {_said(owed, ago, clock)}"
        )
    if owed.now_at_ms is not None and owed.now_at_ms > now_ms:
        minute_ms = owed.now_at_ms // MINUTE_MS * MINUTE_MS
        form_ends_ms = minute_ms if now_ms < minute_ms else owed.now_at_ms
        ends_ms = min(ends_ms, form_ends_ms - SECOND_MS + speaking_ms(text))
    return make(
        Subject.CORRECTION,
        text,
        text,
        (ends_ms,),
        claims,
        ((event, NO_TIME_MS if owed.now_at_ms is None else owed.now_at_ms),),
    )


def _said(owed: Correction, ago: str, clock: str) -> str:
    """What we said, when about, and of what: what has come has been named before it."""
    words = owed.named.words
    if owed.by_clock:
        return f"{ago} we said {clock}{'' if owed.happened or not words else f' for {words}'}."
    what = "That is an update" if owed.happened else "An update"
    of = "" if owed.happened else f" about {words}"
    return f"{what} to what we said {ago[0].lower()}{ago[1:]}{of}."


def _ago(told_ms: int, now_ms: int) -> tuple[str, int]:
    """How long ago it was told, and until when that is a way to say it."""
    ago_ms = apart_ms(now_ms, told_ms)
    if ago_ms < _JUST_MS:
        return "A moment ago", told_ms + _JUST_MS + MINUTE_MS
    if ago_ms < _FEW_MS:
        return "A few minutes ago", told_ms + _FEW_MS + MINUTE_MS
    return "Earlier", now_ms + _STANDS_MS


def _now_minute_ms(owed: Correction, at_ms: int) -> int:
    if owed.later and not owed.happened:
        return nearest_minute_ms(at_ms)
    return said_minute_ms(at_ms, owed.give_ms)


def _claim(owed: Correction, at_ms: int) -> Claim:
    """What the time that holds now claims."""
    if not owed.later or owed.happened:
        return clock_claim(owed.named.event, at_ms, owed.give_ms)
    minute_ms = nearest_minute_ms(at_ms)
    return Claim(Kind.CLOCK, owed.named.event, minute_ms - HALF_MS, minute_ms + HALF_MS)


def _about(owed: Correction) -> str:
    return "about " if is_about(owed.give_ms) else ""


def _clock(minute_ms: int, audience: Audience, now_ms: int) -> str:
    """A bare clock time, or with its day where that is not today's."""
    zone = audience.zones[0]
    today = local_time(minute_ms, zone).date() == local_time(now_ms, zone).date()
    return audience.bare(minute_ms) if today else audience.one(minute_ms, now_ms)


def _now(owed: Correction, audience: Audience, now_ms: int) -> str:
    """What holds now: 'mission control now gives four fifty-eight.', or why there is no time."""
    who = spoken_source(owed.source) if is_named(owed.source) else ""
    if owed.now_at_ms is None:
        why = owed.why or "that time no longer stands"
        return f"{who} has since said that {why}." if who else f"{why}."
    clock = _about(owed) + _clock(_now_minute_ms(owed, owed.now_at_ms), audience, now_ms)
    if owed.happened:
        return f"{who} has it at {clock}." if who else f"it was at {clock}."
    if owed.now_at_ms <= now_ms:
        return f"{who} has since given {clock}." if who else f"it became {clock}."
    if owed.now_at_ms // MINUTE_MS == now_ms // MINUTE_MS:
        clock = f"{clock}, so any moment now"
    return f"{who} now gives {clock}." if who else f"it is now expected at {clock}."
