"""Loss ahead: how much is left of pictures and voice, and what comes then."""

from core.saying.lengths import rounded_words
from core.saying.making import lasting, make
from core.saying.model import Claim, Kind, Named, Subject, Told, speaking_ms
from core.saying.numbers import capital
from core.saying.rounding import Rounded, chance, lengthened
from core.saying.situations import LaneLeft, LossAhead
from core.times.writing import apart_ms, floor_second_ms

_MINUTES = " minutes"
_LEAST_MS = 12_000
"""So long at least one may begin it: shorter than other sentences, for it must not be far off."""


def losing(loss: LossAhead, now_ms: int) -> Told | None:
    """What is left, rounded down. None once it is under a minute.

    With several lanes one of them is about to be another figure nearly always. A sentence still
    has to stand for a while: then it may be a little longer, up to half a minute short.
    """
    left = [(lane, chance(apart_ms(lane.at_ms, now_ms), lane.give_ms)) for lane in loss.lanes]
    said = [(lane, rounded) for lane, rounded in left if rounded is not None]
    if not said:
        return None
    told = _losing(loss, said)
    if lasting(told, now_ms, _LEAST_MS):
        return told
    needs_ms = speaking_ms(told.twenty) + _LEAST_MS
    return _losing(
        loss,
        [(lane, lengthened(each, apart_ms(lane.at_ms, now_ms), needs_ms)) for lane, each in said],
    )


def _losing(loss: LossAhead, said: list[tuple[LaneLeft, Rounded]]) -> Told:
    """The sentence with that said of what is left."""
    stays = f" We will still have {loss.stays}." if loss.stays else ""
    then = f" Then {loss.then}." if loss.then else ""
    return make(
        Subject.LOSS,
        f"{capital(_lengths(said))}.",
        f"We have {_lengths(said)}.{then}{stays}",
        [floor_second_ms(lane.at_ms) - each.low_ms for lane, each in said],
        [Claim(Kind.WAIT, lane.event, each.low_ms, each.high_ms) for lane, each in said],
        [(lane.event, lane.at_ms) for lane, _ in said],
        more=(_unseen(loss.unseen),),
        fact=loss.fact,
    )


def _lengths(said: list[tuple[LaneLeft, Rounded]]) -> str:
    """'about five and a half minutes of pictures left, and just under eight of voice'."""
    lane, rounded = said[0]
    words = f"{rounded_words(rounded)} of {lane.words} left"
    bare = _MINUTES in words
    parts = [words]
    for lane, each in said[1:]:
        if each == rounded:
            parts[-1] = parts[-1].replace(" left", f" and {lane.words} left")
            continue
        parts.append(f"{rounded_words(each, bare=bare)} of {lane.words}")
    return ", and ".join(parts)


def _unseen(named: Named | None) -> str:
    """What is due in the silence: nobody will hear it."""
    if named is None:
        return ""
    return f"{capital(named.words)} is due while nobody on Earth can hear it."
