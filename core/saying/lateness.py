"""Late: how what is to come runs against the flight plan, said once for all of it."""

from core.saying.against import against_claim, against_words
from core.saying.making import make
from core.saying.model import Subject, Told, speaking_ms
from core.saying.numbers import capital
from core.saying.situations import Late
from core.saying.sources import is_named, spoken_source
from core.times.writing import MINUTE_MS

_STANDS_MS = 5 * MINUTE_MS
_ON_TIME = "What is still to come is on time, by the flight plan."


def lateness(late: Late, now_ms: int) -> Told:
    """Behind, ahead or on time. It stands until a time changes; here it is looked at anew."""
    by = against_words(late.by_ms, late.give_ms)
    if not by:
        ends_ms = (now_ms + _STANDS_MS, *(() if late.overdue_ms is None else (late.overdue_ms,)))
        return make(Subject.LATE, _ON_TIME, _ON_TIME, ends_ms)
    side = "behind" if late.by_ms > 0 else "ahead of"
    body = f"They are running {by} {side} the flight plan."
    told = f"{body}{_why(late)}"
    return make(
        Subject.LATE,
        body,
        told,
        (now_ms + _STANDS_MS + speaking_ms(told),),
        (against_claim(late.event, late.by_ms, late.give_ms),),
    )


def _why(late: Late) -> str:
    """Who gave the new time has not said why, as far as anything was noted."""
    if not late.unexplained:
        return ""
    who = spoken_source(late.source) if is_named(late.source) else spoken_source("flight")
    return f" {capital(who)} has not said why."
