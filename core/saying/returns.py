"""Returns of the signal: two to watch for, the one due now, the one that stayed out, the one heard.

A return proves nothing, nor does a missed one, until a source has said what it means.
"""

from core.saying.audience import Audience
from core.saying.clocks import down_minute_ms
from core.saying.lengths import minutes_words
from core.saying.making import make
from core.saying.model import Claim, Kind, Subject, Told, speaking_ms
from core.saying.numbers import capital
from core.saying.rounding import at_least
from core.saying.situations import HeardAgain, Missed, Return, TwoReturns, Waiting, Watch
from core.times.spoken import spoken_zone
from core.times.writing import MINUTE_MS, SECOND_MS, nearest_minute_ms

_MEANS = "What it means is for mission control to say."
PROVES_NOTHING = f"That proves nothing. {_MEANS}"
_COMING = "Coming up now"
_COULD_BE = "This could be the moment"
_WORD = "word "
_FRESH_MS = 5 * MINUTE_MS
_MISSED_FOR_MS = 10 * MINUTE_MS


def two_returns(two: TwoReturns, audience: Audience) -> Told | None:
    """Both times, the earlier rounded down, the later to the nearest. None if they sound the same.

    True until the last minute before the first.
    """
    first_ms, second_ms = down_minute_ms(two.first.at_ms), nearest_minute_ms(two.second.at_ms)
    if first_ms == second_ms:
        return None
    first, second = audience.bare(first_ms), audience.bare(second_ms)
    hoped = f" So at {first}, quiet is what they hope for here." if two.quiet_hoped else ""
    return make(
        Subject.RETURNS,
        f"Two times to watch: about {first}, and about {second}.",
        f"Two times to watch. {capital(two.first.condition)}, their signal is expected at "
        f"about {first}; {two.second.condition}, about {second}.{hoped}",
        (first_ms,),
        (_down_claim(two.first, first_ms), _nearest_claim(two.second, second_ms)),
        ((two.first.named.event, two.first.at_ms), (two.second.named.event, two.second.at_ms)),
        (f"Those times are {spoken_zone(audience.zones[0])}.",) if len(audience.zones) > 1 else (),
    )


def watching(watch: Watch, now_ms: int) -> Told:
    """A possible return is due in this minute, or now."""
    ahead = now_ms < watch.at_ms
    line = _COMING if ahead else _COULD_BE
    if watch.first_of_two:
        what = "the first of two times to watch"
        line = f"{_COMING}, {what}" if ahead else f"This is {what}"
    body = f"{line}: {watch.named.words}."
    if watch.quiet_hoped:
        body += " Quiet is what they hope for here."
    # as long as one listens, one may begin to say it
    ends_ms = (watch.at_ms - SECOND_MS if ahead else watch.until_ms) + speaking_ms(body)
    short = f"{line}." if watch.first_of_two or not ahead else f"{line}: {watch.named.words}."
    return make(Subject.WATCH, short, body, (ends_ms,))


def missed(missing: Missed, audience: Audience, now_ms: int) -> Told:
    """A possible return has passed in silence: it proves nothing."""
    minute_ms = nearest_minute_ms(missing.at_ms) if missing.later else 0
    if not 0 < minute_ms <= now_ms:
        minute_ms = down_minute_ms(missing.at_ms)
    clock = audience.bare(minute_ms)
    body = f"{capital(clock)} has come and gone, and nobody has reported a signal. {PROVES_NOTHING}"
    ends_ms = now_ms + _MISSED_FOR_MS
    claims = [Claim(Kind.CLOCK, missing.named.event, minute_ms, minute_ms + MINUTE_MS - 1)]
    if missing.later:
        claims = [_nearest(missing.named.event, nearest_minute_ms(missing.at_ms))]
    times: tuple[tuple[str, int], ...] = ()
    if missing.then is not None and missing.then_ms is not None:
        then_ms = nearest_minute_ms(missing.then_ms)
        body += f" The next time to watch is about {audience.bare(then_ms)}."
        claims.append(_nearest(missing.then.event, then_ms))
        times = ((missing.then.event, missing.then_ms),)
        ends_ms = min(ends_ms, missing.then_ms - MINUTE_MS)
    return make(
        Subject.MISSED,
        f"Nobody has reported a signal. {PROVES_NOTHING}",
        body,
        (ends_ms + speaking_ms(body),),
        claims,
        times,
    )


def waiting(wait: Waiting, now_ms: int) -> Told:
    """It is due, and neither silence nor a signal says how it went."""
    words = wait.named.words
    what = words if words.startswith(_WORD) else f"{_WORD}of {words}"
    line = f"We are waiting for {what}."
    proof = "A signal alone" if wait.back else "Silence"
    body = f"{line} {proof} proves nothing. How it went is for mission control to say."
    return make(Subject.WAITING, line, body, (now_ms + _MISSED_FOR_MS,))


def heard_again(heard: HeardAgain, audience: Audience, now_ms: int) -> Told:
    """A lane is back: what it means is not ours to say."""
    minute_ms = down_minute_ms(heard.at_ms)
    body = f"We have {heard.words} again, since {audience.bare(minute_ms)}."
    if heard.open:
        body += " What that means is for mission control to say."
    words = at_least(heard.first_words_ms or 0)
    more = ""
    if words is not None:
        more = f"The first words usually take more than {minutes_words(words.said_ms)}."
    elif heard.first_words_ms:
        more = "The first words usually come within a minute."
    return make(
        Subject.HEARD,
        f"We have {heard.words} again.",
        body,
        (max(heard.at_ms + _FRESH_MS, now_ms + MINUTE_MS),),
        (Claim(Kind.CLOCK, heard.event, minute_ms, minute_ms + MINUTE_MS - 1),),
        tuple((event, heard.at_ms) for event in (heard.event, *heard.stands_for)),
        more=(more,) if now_ms < heard.at_ms + (heard.first_words_ms or 0) else (),
    )


def _down_claim(each: Return, minute_ms: int) -> Claim:
    return Claim(Kind.CLOCK, each.named.event, minute_ms, minute_ms + MINUTE_MS - 1)


def _nearest_claim(each: Return, minute_ms: int) -> Claim:
    return _nearest(each.named.event, minute_ms)


def _nearest(event: str, minute_ms: int) -> Claim:
    return Claim(Kind.CLOCK, event, minute_ms - MINUTE_MS // 2, minute_ms + MINUTE_MS // 2)
