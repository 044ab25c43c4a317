"""An event's facts as the desk shows them: with both units, source and date, and not too early."""

from typing import Protocol

from core.board.programme import FactLine
from core.board.scene import Scene
from core.plan.model import Fact, Usage
from core.schedule.model import State
from core.times.writing import MONTHS, dated_clock_text


class SideBySide(Protocol):
    """Puts the other system's figure after each measure of a text."""

    def __call__(self, text: str, *, american: bool) -> str:
        """The text as it is shown; `american` spells 'meters'."""
        ...


def as_written(text: str, *, american: bool) -> str:  # noqa: ARG001 - the shape of SideBySide
    """The text as the plan has it."""
    return text


def facts(
    scene: Scene, event_id: str, now_ms: int, both: SideBySide = as_written
) -> tuple[FactLine, ...]:
    """All facts of an event, in the plan's order.

    One under embargo has no text, so that no screen can show it: only why and until when.
    """
    written = scene.event(event_id).facts
    return tuple([_line(scene, event_id, now_ms, fact, both) for fact in written])


def _line(scene: Scene, event_id: str, now_ms: int, fact: Fact, both: SideBySide) -> FactLine:
    held = _held(scene, event_id, now_ms, fact)
    if held:
        return FactLine("", held=held)
    american = scene.plan.usage is Usage.AMERICAN
    return FactLine(both(fact.text, american=american), source_words(fact))


def _held(scene: Scene, event_id: str, now_ms: int, fact: Fact) -> str:
    """'A fact is held until 5:10:00 p.m.', or until its event is confirmed; empty if it is free."""
    waits = []
    if fact.not_before_ms is not None and now_ms < fact.not_before_ms:
        waits.append(f"until {dated_clock_text(fact.not_before_ms, scene.style, now_ms)}")
    if fact.after_confirmed and scene.brief(event_id).state is not State.HAPPENED:
        waits.append("until this is confirmed")
    return f"A fact is held {' and '.join(waits)}" if waits else ""


def source_words(fact: Fact) -> str:
    """'agency, 12 March 2031': who says so, and from when that is."""
    return ", ".join(part for part in (fact.source, _date_words(fact.date)) if part)


def _date_words(date: str) -> str:
    """'2031-03-12', '2031-03' or '2031' as one reads it."""
    year, month, day = (*date.split("-"), "", "")[:3]
    words = (day.lstrip("0"), MONTHS[int(month) - 1] if month else "", year)
    return " ".join(word for word in words if word)
