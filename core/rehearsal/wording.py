"""A rehearsal in words: what a surprise does, and a report as the desk reads it."""

import re
from collections.abc import Sequence

from core.plan.model import Change, Plan
from core.rehearsal.model import (
    CalledOff,
    CameraOn,
    Closes,
    Edges,
    LineFails,
    Moves,
    NetworkTakes,
    Steps,
    Surprise,
    Turns,
    What,
)
from core.rehearsal.reports import Report
from core.times.instants import rfc3339_to_ms
from core.times.writing import SECOND_MS, Style, clock_text, short_duration_words

_INSTANT = re.compile(r"\d{4}-\d\d-\d\dT[\d:.]+Z")


def at_desk(report: Report, plan: Plan, style: Style) -> str:
    """A report as the desk reads it, with who says it.

    Of what happened a while before anybody could hear of it the time is said, but for losses and
    returns: those one sees and hears oneself.
    """
    text = report.text
    own = next((each for each in plan.events if each.id == report.id), None)
    then_ms = report.at_ms if report.then_ms is None else report.then_ms
    if own is not None and own.edge is None and report.at_ms - then_ms >= SECOND_MS:
        text = f"{text.removesuffix('.')}, at {clock_text(then_ms, style)}"
        text += "" if text.endswith(".") else "."
    return f"{report.source}: {text}" if report.source else text


def lines_words(lines: Sequence[str], style: Style) -> str:
    """Lines of the entry bar as one would type them: clock times in the window's style."""
    return "; ".join(_INSTANT.sub(lambda at: _clock(at[0], style), line) for line in lines)


def _clock(instant: str, style: Style) -> str:
    return clock_text(rfc3339_to_ms(instant), style)


def effect_words(surprise: Surprise, plan: Plan) -> str:
    """What a surprise does to the flight or to us."""
    words = _effect(surprise.what, plan)
    return f"{words[0].upper()}{words[1:]}"


def _effect(what: What, plan: Plan) -> str:
    words = "words that change nothing"
    match what:
        case Moves(event, by_ms, to_ms):
            words = f"{_named(plan, event)}: {_by(by_ms, to_ms)}"
        case Edges():
            words = _edge(what)
        case Turns(outcome):
            words = f"it turns out: {_named(plan, outcome)}"
        case CalledOff(event):
            words = f"{_named(plan, event)} is called off"
        case LineFails(item):
            words = f"the line is gone: {_named(plan, item)}"
        case Closes(lane, for_ms):
            words = f"the ground closes {lane} for {short_duration_words(for_ms)}"
        case NetworkTakes(for_ms):
            words = f"the network takes the air for {short_duration_words(for_ms)}"
        case CameraOn(for_ms):
            words = f"the crew have their camera on for {short_duration_words(for_ms)}"
        case Steps(by_ms):
            words = f"the clock is put right by {by_ms / SECOND_MS:+g} s"
    return words


def _edge(what: Edges) -> str:
    if what.for_ms is not None:
        return f"{what.lane} drops for {short_duration_words(what.for_ms)}"
    word = "loss" if what.change is Change.LOST else "return"
    if what.never:
        return f"{what.lane} does not come back"
    return f"{what.lane}: the next {word} comes {_by(what.by_ms, what.to_ms)}"


def _by(by_ms: int, to_ms: int | None) -> str:
    if to_ms is not None:
        return "at another time"
    return f"{short_duration_words(abs(by_ms))} {'later' if by_ms >= 0 else 'earlier'}"


def _named(plan: Plan, name: str) -> str:
    """The name of an event, outcome or item by its id."""
    names = {each.id: each.name for each in plan.items}
    names |= {each.id: each.name for each in plan.outcomes}
    names |= {each.id: each.name for each in plan.events}
    return names.get(name, name)
