"""The forms about a lane and about an outcome."""

import re
from dataclasses import dataclass

from core.entries.airing import LaneDelay, PictureClock
from core.entries.clocktimes import Asking, Moment
from core.entries.context import Context
from core.entries.forms import nearest_form
from core.entries.formshape import About
from core.entries.hearing import as_heard
from core.entries.model import Choose, Observe, Shift, Shut, Undecide
from core.entries.questions import ahead_words
from core.entries.readings import Reading, Target, TargetKind
from core.entries.timed import read_fact_time, read_length, when_words
from core.entries.words import shown
from core.errors import EntryProblem
from core.plan.model import Change
from core.times.writing import apart_ms, short_duration_words

_SHIFTED = re.compile(r"(?P<time>.*?) ?\b(?P<shift>alone|shift)", re.S)
_FAR_MS = 5 * 60_000
"""A clock in a picture that is further off than this is one that was read wrongly."""

_LONG_MS = 60_000
"""Longer than this no lane is under way on Earth: it was a length of something else."""

_SHIFT_WORDS = {
    Shift.USUAL: "",
    Shift.ALONE: ", later rows stay",
    Shift.SHIFT: ", later rows move with it",
}


@dataclass(frozen=True, slots=True)
class OnSignal:
    """A line about a lane or an outcome: `rest` is what follows the target, in small letters."""

    target: Target
    rest: str
    context: Context

    def moments(self, text: str) -> tuple[Moment, ...]:
        """When it was, by what follows the word; EntryProblem where that is no such time."""
        asking = Asking(self.context.now_ms, self.context.zones)
        moments = read_fact_time(text, asking, self.context) if text else None
        if moments is None:
            raise self.not_read(f"'{shown(text)}' is not when it was" if text else "When was it?")
        return moments

    def not_read(self, what: str = "") -> EntryProblem:
        """The error for a line that no form of this kind reads."""
        if not what and not self.rest:
            what = f"What of {self.target.name}?"
        about = About.LANE if self.target.kind is TargetKind.LANE else About.OUTCOME
        return EntryProblem(
            what or f"'{shown(self.rest)}' is no word that is read for {self.target.name}",
            self.rest,
            nearest_form(about, self.target.words, self.rest),
        )


def read_on_lane(line: OnSignal) -> tuple[Reading, ...]:
    """The readings of a line about a lane; EntryProblem where there is none."""
    word, _, tail = line.rest.partition(" ")
    if word in {"lost", "back"}:
        return _observed(line, Change(word), tail)
    if word in {"closed", "open"}:
        return _shut(line, tail, shut=word == "closed")
    if word in {"clock", "delay"}:
        return _clock(line, tail) if word == "clock" else _delay(line, tail)
    raise line.not_read()


def read_on_outcome(line: OnSignal) -> tuple[Reading, ...]:
    """The reading of a line about an outcome; EntryProblem where there is none."""
    if not line.rest:
        how = f"The outcome is: {line.target.name}"
        return (Reading(Choose(line.target.id), how, line.target),)
    if line.rest == "undecided":
        how = f"{line.target.name}: undecided again"
        return (Reading(Undecide(line.target.id), how, line.target),)
    raise line.not_read()


def _observed(line: OnSignal, change: Change, tail: str) -> tuple[Reading, ...]:
    shift = Shift.USUAL
    if match := _SHIFTED.fullmatch(tail):
        tail, shift = match["time"], Shift(match["shift"])
    readings = []
    for moment in line.moments(tail):
        heard = as_heard(moment, tail, line.target.id, line.context)
        edge = line.context.edge_near(line.target.id, change, heard.at_ms)
        back = change is Change.BACK and not edge
        drop = line.context.dropped(line.target.id, heard.at_ms) if back else None
        action = Observe(line.target.id, change, heard.at_ms, shift, edge, heard.heard_ms, drop)
        planned = "" if edge else ", not in the plan"
        planned += "" if drop is None else "; the loss was a drop, the planned one is to come"
        when = f"{when_words(heard.moment, line.context)}{heard.words}"
        how = f"{line.target.name} {change.value} at {when}{planned}{_SHIFT_WORDS[shift]}"
        asks = tuple(filter(None, (ahead_words(heard.at_ms, line.context),)))
        readings.append(Reading(action, how, line.target, asks=asks))
    return tuple(readings)


def _shut(line: OnSignal, tail: str, *, shut: bool) -> tuple[Reading, ...]:
    word = "closed by the ground" if shut else "open again"
    return tuple(
        Reading(
            Shut(line.target.id, shut, moment.at_ms),
            f"{line.target.name} {word} from {when_words(moment, line.context)}",
            line.target,
            asks=tuple(filter(None, (ahead_words(moment.at_ms, line.context),))),
        )
        for moment in line.moments(tail or "now")
    )


def _clock(line: OnSignal, tail: str) -> tuple[Reading, ...]:
    """What a clock in the lane's picture shows now: of two halves of the day the nearer."""
    now_ms = line.context.now_ms
    if tail.startswith("now"):
        raise line.not_read("What the clock shows is typed as a clock time")
    moment = line.moments(tail)[0]
    shows = f"The clock in {line.target.name} shows {when_words(moment, line.context)}"
    by_ms = apart_ms(now_ms, moment.at_ms)
    side = f": {short_duration_words(by_ms)} {'behind' if by_ms > 0 else 'before'} the board"
    action = PictureClock(line.target.id, moment.at_ms, now_ms)
    far = f"That is {short_duration_words(by_ms)} from the board's time"
    asks = (far,) if abs(by_ms) > _FAR_MS else ()
    return (Reading(action, shows + (side if by_ms else ""), line.target, asks=asks),)


def _delay(line: OnSignal, tail: str) -> tuple[Reading, ...]:
    """How late the lane comes to the studio, for every 'now' from here on."""
    if not tail:
        raise line.not_read(f"How late does {line.target.name} come?")
    delay_ms = read_length(tail)
    lane = next(each for each in line.context.lanes if each.id == line.target.id)
    had_ms = line.context.aired.delay_ms(lane)
    before = f", and not {short_duration_words(had_ms)}" if had_ms != delay_ms else " as before"
    how = f"{line.target.name} comes {short_duration_words(delay_ms)} late{before}"
    asks = ("That is long for a lane's way",) if delay_ms > _LONG_MS else ()
    return (Reading(LaneDelay(line.target.id, delay_ms), how, line.target, asks=asks),)
