"""The forms about an event: new times, facts, holds, what is called off, pins."""

from dataclasses import dataclass

from core.entries.clocktimes import Asking, Moment
from core.entries.context import Context, EventNow
from core.entries.forms import nearest_form
from core.entries.formshape import About
from core.entries.hearing import as_heard, split_lane
from core.entries.model import (
    Action,
    Free,
    Give,
    Happened,
    Hold,
    Pin,
    Resume,
    Revise,
    Scrub,
    Way,
)
from core.entries.questions import ahead_words, far_words, past_words
from core.entries.readings import Reading, Target
from core.entries.timed import Base, read_fact_time, read_give, read_timed, when_words
from core.entries.words import shown
from core.errors import EntryProblem
from core.times.writing import duration_words, short_duration_words

EVENT_WORDS = (
    "now",
    "happened",
    "hold",
    "resume",
    "scrub",
    "pin",
    "free",
    "in",
    "about",
    "elapsed",
)
"""The words that begin a form about an event."""

_WAYS = {
    Way.WITH: "and what is tied to it goes too",
    Way.BRIDGE: "and those tied to it are tied across the gap",
    Way.STAY: "and those tied to it stay where they are",
}


@dataclass(frozen=True, slots=True)
class OnEvent:
    """A line about an event: `rest` is what follows the target, in small letters."""

    event: EventNow
    target: Target
    rest: str
    context: Context

    @property
    def asking(self) -> Asking:
        """A clock time means the day nearest to when the event is expected."""
        return Asking(_anchor_ms(self.event, self.context), self.context.zones)

    def reading(self, action: Action, how: str, *asks: str) -> Reading:
        """A reading of this line; empty questions are none."""
        words = f"{self.event.name} {how}"
        return Reading(action, words, self.target, asks=tuple(filter(None, asks)))

    def refused(self, what: str, hint: str) -> EntryProblem:
        """The error for what cannot be said of this event."""
        return EntryProblem(f"{self.event.name} {what}", self.rest, hint)

    def example(self, form: str) -> str:
        """A form as one would type it for this event."""
        return f"'{f'{self.target.words} {form}'.strip()}'"


def read_on_event(line: OnEvent) -> tuple[Reading, ...]:
    """The readings of a line about an event; EntryProblem where there is none."""
    word, _, tail = line.rest.partition(" ")
    match word:
        case "happened":
            return _happened(line, tail)
        case "hold":
            return _hold(line, tail)
        case "resume":
            return _resume(line, tail)
        case "scrub":
            return _scrub(line, tail)
        case "pin" | "free":
            return (_bare(line, word, tail),)
        case _:
            return _figures(line)


def _figures(line: OnEvent) -> tuple[Reading, ...]:
    if line.rest.startswith("now"):
        return _happened(line, line.rest)
    give_ms = read_give(line.rest)
    if give_ms is not None:
        how = f"give or take {short_duration_words(give_ms)}"
        return (line.reading(Give(line.event.id, give_ms), how),)
    return _revised(line)


# ------------------------------------------------------------------ times


def _revised(line: OnEvent) -> tuple[Reading, ...]:
    event = line.event
    base = Base(line.asking, event.expected_ms, event.plan_give_ms)
    timed = read_timed(line.rest, base, line.context)
    if timed is None:
        raise _not_read(line)
    give = "" if timed.give_ms is None else f", give or take {short_duration_words(timed.give_ms)}"
    edge = line.context.edge_of(event.id)
    return tuple(
        line.reading(
            Revise(event.id, moment.at_ms, timed.give_ms, edge),
            f"at {when_words(moment, line.context)}{give}",
            past_words(moment.at_ms, line.context),
            far_words(event, moment.at_ms),
        )
        for moment in timed.moments
    )


def _happened(line: OnEvent, text: str) -> tuple[Reading, ...]:
    near_ms = min(line.asking.near_ms, line.context.now_ms)
    asking = Asking(near_ms, line.context.zones)
    text, lane = split_lane(text, line.context)
    lane = lane or line.event.lane or line.context.lane_up()
    moments = read_fact_time(text, asking, line.context) if text else None
    if moments is None:
        what = f"'{shown(text)}' is not when something happened" if text else "When did it happen?"
        hint = f"Write {line.example('now')}, or {line.example('happened 4:58:02p')}"
        raise EntryProblem(what, text, hint)
    edge = line.context.edge_of(line.event.id)
    return tuple(
        line.reading(
            Happened(line.event.id, heard.at_ms, edge, heard.heard_ms, heard.heard_on),
            f"happened at {when_words(heard.moment, line.context)}{heard.words}",
            ahead_words(heard.at_ms, line.context),
            far_words(line.event, heard.at_ms),
        )
        for heard in (as_heard(moment, text, lane, line.context) for moment in moments)
    )


# ------------------------------------------------------------------ the count


def _hold(line: OnEvent, tail: str) -> tuple[Reading, ...]:
    expected_ms = _expected_ms(line)
    held = line.event.left_ms is not None
    ask = f"It is held already; to let it go: {line.example('resume')}" if held else ""
    readings = []
    for moment in _count_moments(line, tail):
        if moment.at_ms > line.context.now_ms:
            raise line.refused("cannot be held before it is", "Type it when the count stops")
        left_ms = line.event.left_ms
        if left_ms is None:
            left_ms = max(0, expected_ms - moment.at_ms)
        how = f"is held with {duration_words(left_ms)}"
        if tail:
            how += f" since {when_words(moment, line.context)}"
        readings.append(line.reading(Hold(line.event.id, moment.at_ms, left_ms), how, ask))
    return tuple(readings)


def _resume(line: OnEvent, tail: str) -> tuple[Reading, ...]:
    left_ms = line.event.left_ms
    if left_ms is None:
        raise line.refused("is not held", f"To stop its count: {line.example('hold')}")
    return tuple(
        line.reading(
            Resume(line.event.id, moment.at_ms),
            f"goes on at {when_words(moment, line.context)} with {duration_words(left_ms)} left",
            far_words(line.event, moment.at_ms + left_ms),
        )
        for moment in _count_moments(line, tail)
    )


def _count_moments(line: OnEvent, tail: str) -> tuple[Moment, ...]:
    """When a count stopped or goes on: now where nothing is said."""
    asking = Asking(line.context.now_ms, line.context.zones)
    if not tail:
        return (Moment(line.context.now_ms),)
    if tail.startswith("now"):
        moments = read_fact_time(tail, asking, line.context)
    else:
        timed = read_timed(tail, Base(asking), line.context)
        moments = timed.moments if timed and timed.give_ms is None else None
    if moments is None:
        raise _not_read(line)
    return moments


# ------------------------------------------------------------------ called off, pinned, free


def _scrub(line: OnEvent, tail: str) -> tuple[Reading, ...]:
    ways = {way.value: way for way in Way}
    if tail and tail not in ways:
        raise EntryProblem(
            f"'{shown(tail)}' does not say what becomes of those tied to it",
            tail,
            "Write scrub with, scrub bridge or scrub stay",
        )
    # Without a way all three are shown, and none of them is taken at the first Enter.
    ask = "" if tail else "What becomes of those tied to it was not said"
    return tuple(
        line.reading(Scrub(line.event.id, way), f"is called off, {_WAYS[way]}", ask)
        for way in ([ways[tail]] if tail else Way)
    )


def _bare(line: OnEvent, word: str, tail: str) -> Reading:
    """The forms of a single word."""
    if tail:
        raise EntryProblem(
            f"'{shown(tail)}' is too much after '{word}'", tail, f"Write {line.example(word)}"
        )
    if word == "free":
        return line.reading(Free(line.event.id), "follows its ties again")
    expected_ms = _expected_ms(line)
    how = f"is pinned to {when_words(Moment(expected_ms), line.context)}"
    return line.reading(Pin(line.event.id, expected_ms), how)


# ------------------------------------------------------------------ what is asked, what is refused


def _anchor_ms(event: EventNow, context: Context) -> int:
    for known_ms in (event.expected_ms, event.planned_ms):
        if known_ms is not None:
            return known_ms
    return context.now_ms


def _expected_ms(line: OnEvent) -> int:
    if line.event.expected_ms is None:
        raise line.refused("has no time now", f"Give it one: {line.example('4:58p')}")
    return line.event.expected_ms


def _not_read(line: OnEvent) -> EntryProblem:
    what = f"'{shown(line.rest)}' is no time and no word that is read here"
    if not line.rest:
        what = f"What of {line.event.name}?"
    hint = nearest_form(About.EVENT, line.target.words, line.rest)
    return EntryProblem(what, line.rest, hint)
