"""Corrections owed to the audience: times that were told and that a later entry has made false."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.board.scene import Scene
from core.board.standing import is_return
from core.board.telling.namings import named
from core.board.telling.returning import is_later_return
from core.entries.airing import MarkSaid, Waive
from core.entries.model import Entry, Happened, Observe, Pin, Revise, Scrub
from core.saying.audience import Audience
from core.saying.clocks import said_minute_ms
from core.saying.model import NO_TIME_MS, Subject, Told
from core.saying.rounding import HALF_MS
from core.saying.situations import Correction
from core.schedule.model import State
from core.times.writing import apart_ms, floor_second_ms, nearest_minute_ms

_NO_NEWS_MS = 5_000
"""Less than this is no other time to anybody who listens."""
_HOLDING = "the count is holding, and there is no new time"
_OFF = "it is called off"


@dataclass(frozen=True, slots=True)
class _Told:
    """A time the audience has, and when it got it. `place` is that of the entry."""

    at_ms: int
    told_ms: int
    place: int
    text: str


def owed(scene: Scene, entries: Sequence[Entry]) -> tuple[Correction, ...]:
    """What is owed, by the times now, the soonest first."""
    found = (_false(scene, entries, event, told) for event, told in _told(entries).items())
    return tuple(
        sorted((each for each in found if each is not None), key=lambda each: each.said_at_ms)
    )


def is_of_news(scene: Scene, news: Told, correction: Correction) -> bool:
    """Whether that sentence is the news itself of what is to be corrected.

    A signal that is back brings its own time, and an outcome named is news of all that hung on it:
    nobody wants to hear first what we had said of them.
    """
    event = correction.named.event
    if news.subject is Subject.HEARD:
        return any(event == told for told, _ in news.times)
    if news.subject is not Subject.OUTCOME:
        return False
    of = {claim.event.removeprefix("outcome:") for claim in news.claims}
    hangs_on = scene.brief(event).outcome
    return event in of or any(o.of in of for o in scene.plan.outcomes if o.id == hangs_on)


def _told(entries: Sequence[Entry]) -> dict[str, _Told]:
    """The last that was told of each event and not waived since."""
    told: dict[str, _Told] = {}
    for place, entry in enumerate(entries):
        match entry.action:
            case MarkSaid(text, times):
                told |= {event: _Told(at_ms, entry.at_ms, place, text) for event, at_ms in times}
            case Waive(events):
                for event in events:
                    told.pop(event, None)
    return told


def _false(scene: Scene, entries: Sequence[Entry], event: str, told: _Told) -> Correction | None:
    """The correction, if what was told is false now.

    What was told for an outcome that has not come is not, nor that it has no time.
    """
    if (
        told.at_ms == NO_TIME_MS
        or event not in scene.known
        or scene.brief(event).state is State.DROPPED
    ):
        return None
    later, brief = entries[told.place + 1 :], scene.brief(event)
    said_ms = _said_minute_ms(scene, told, brief.give_ms)
    by_clock = said_ms is not None
    at_ms, it, told_ms = brief.expected_ms, named(scene, event), floor_second_ms(told.told_ms)
    if at_ms is None or brief.state is State.SCRUBBED or _is_holding(scene, event):
        why, source = _why(scene, event, later)
        return Correction(
            it,
            told.at_ms,
            told_ms,
            None,
            source,
            why,
            brief.give_ms,
            by_clock=by_clock,
            said_minute_ms=said_ms,
        )
    if by_clock and not _differs(scene, event, told.at_ms, at_ms, brief.give_ms):
        return None
    if not by_clock and abs(apart_ms(at_ms, told.at_ms)) < max(HALF_MS, brief.give_ms):
        return None
    happened = brief.state is State.HAPPENED
    return Correction(
        it,
        told.at_ms,
        told_ms,
        floor_second_ms(at_ms),
        _source(later, event, (Happened, Observe) if happened else (Revise, Pin)),
        give_ms=0 if happened else brief.give_ms,
        happened=happened,
        by_clock=by_clock,
        said_minute_ms=said_ms,
        later=is_later_return(scene, event),
    )


def _said_minute_ms(scene: Scene, told: _Told, give_ms: int) -> int | None:
    """The minute that was said; None where it was not as such, but as 'about five minutes left'.

    A return may have been rounded either way.
    """
    audience = Audience.of(scene.plan)
    minutes_ms = (said_minute_ms(told.at_ms, give_ms), nearest_minute_ms(told.at_ms))
    text = told.text.casefold()
    return next((each for each in minutes_ms if audience.bare(each) in text), None)


def _is_holding(scene: Scene, event: str) -> bool:
    return event in scene.held or scene.slides(event)


def _why(scene: Scene, event: str, later: Sequence[Entry]) -> tuple[str, str]:
    """Why there is no time any more, and who said so."""
    if scene.brief(event).state is State.SCRUBBED:
        return _OFF, _source(later, event, (Scrub,))
    if scene.brief(event).expected_ms is not None and _is_holding(scene, event):
        return _HOLDING, ""
    return "", ""


def _differs(scene: Scene, event: str, said_ms: int, now_ms: int, give_ms: int) -> bool:
    """Whether another clock time would be said now: at its rounding, and by more than the give.

    A return may have been told to the nearest minute, or rounded down: it must differ both ways.
    """
    if abs(apart_ms(now_ms, said_ms)) <= max(give_ms, _NO_NEWS_MS):
        return False
    if is_return(scene.event(event)) and nearest_minute_ms(said_ms) == nearest_minute_ms(now_ms):
        return False
    return said_minute_ms(said_ms, give_ms) != said_minute_ms(now_ms, give_ms)


def _source(later: Sequence[Entry], event: str, kinds: tuple[type, ...]) -> str:
    """Who gave the time that holds now, if it was given for that very event."""
    for entry in reversed(later):
        if isinstance(entry.action, kinds) and getattr(entry.action, "event", event) == event:
            return entry.source
    return ""
