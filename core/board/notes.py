"""The note under a card's figure: what the audience will have of an event, or how it went."""

import re

from core.board.marks import contact_note
from core.board.model import CardState, Said, Tone
from core.board.scene import Scene
from core.board.standing import Standing
from core.board.words import either_clocks, event_clock_text
from core.plan.model import Event
from core.schedule.model import Line
from core.signal.model import Edge
from core.times.writing import (
    apart_ms,
    clock_text,
    difference_words,
    duration_words,
    is_about,
    short_duration_words,
)

_FIGURES = re.compile(r"[;,]? (?=[±\d])")
_ON_SIGNAL = (CardState.AHEAD, CardState.DUE)


def note(
    event: Event,
    line: Line,
    standing: Standing,
    scene: Scene,
    now_ms: int,
    heard_ms: int | None = None,
) -> Said:
    """The note of a card. `heard_ms`: of a fact, when it was heard here, if that was later."""
    match standing.state:
        case CardState.HELD:
            if line.held_ms is None:
                return Said("")
            return Said(f"held for {duration_words(apart_ms(now_ms, line.held_ms))}")
        case CardState.OUT_OF_SIGHT:
            return Said(_first_word(standing, scene, now_ms))
        case CardState.HAPPENED:
            parts = (_how_late(event, line, scene), _heard(heard_ms, scene))
            return Said("; ".join(part for part in parts if part), Tone.QUIET)
        case CardState.UNKNOWN:
            return Said("what it hangs on is not there", Tone.QUIET)
    return Said(_ahead(event, line, standing, scene, now_ms), Tone.QUIET)


def without_figures(note: Said, standing: Standing) -> str:
    """What a note on the signal says without its figures; '' where it has none, or is another."""
    if standing.heard_ms is not None or standing.state not in _ON_SIGNAL:
        return ""
    words = _FIGURES.split(note.text)[0]
    return "" if words == note.text else words


def _ahead(event: Event, line: Line, standing: Standing, scene: Scene, now_ms: int) -> str:
    """What is said of an event ahead or due; of one at a distant craft its other time."""
    if standing.heard_ms is not None and line.expected_ms is not None:
        ahead = standing.state is CardState.AHEAD
        word = "heard" if ahead else "out there"
        at_ms = standing.heard_ms if ahead else line.expected_ms
        return f"{word} {event_clock_text(at_ms, line.give_ms, scene.style, now_ms)}"
    note = contact_note(scene, event.id)
    if not is_about(line.give_ms) and line.give_ms >= 1000 and event.edge is None:
        give = f"± {short_duration_words(line.give_ms)}"
        note = f"{note}; {give}" if note else give
    return note


def _first_word(standing: Standing, scene: Scene, now_ms: int) -> str:
    return f"first word {either_clocks(standing.words_ms, scene.style, now_ms)}"


def _how_late(event: Event, line: Line, scene: Scene) -> str:
    """How late it was: an edge seen or heard against its computed time, all else by the plan."""
    if event.edge is not None:
        lane = scene.sight.lane(event.edge.lane)
        edge = lane.edge(scene.schedule.edge(event.id)) if lane is not None else None
        if edge and edge.observed and edge.table_ms is not None and scene.is_computed(edge.course):
            return f"{_late(edge)}, {clock_text(edge.table_ms, scene.style)} computed"
    if line.happened_ms is None or line.planned_ms is None:
        return ""
    return difference_words(apart_ms(line.happened_ms, line.planned_ms)) or "on time"


def _heard(heard_ms: int | None, scene: Scene) -> str:
    """'heard 4:57:20 p.m.': the other time of a fact that came with a lane's delay."""
    return "" if heard_ms is None else f"heard {clock_text(heard_ms, scene.style)}"


def _late(edge: Edge) -> str:
    """'12 s late': an edge as seen or heard, against where its course has it."""
    by_ms = apart_ms(edge.time_ms, edge.time_ms if edge.table_ms is None else edge.table_ms)
    if not by_ms:
        return "to the second"
    return f"{duration_words(abs(by_ms))} {'late' if by_ms > 0 else 'early'}"
