"""LAST CHANGE: what the last entry moved and left, when and per whom."""

from collections.abc import Sequence
from dataclasses import replace

from core.board.model import LastChange, Said, Tone
from core.board.scene import Scene
from core.board.words import Names, broken_event, listed
from core.entries.airing import MarkSaid, Waive
from core.entries.model import Entry, Happened, Observe
from core.schedule.model import Effect, Kind, Move, MoveKind
from core.times.writing import (
    Style,
    apart_ms,
    clock_text,
    difference_words,
    duration_words,
)

_MOST_ROWS = 5
_MOST_AMOUNTS = 3
_STAYS = {
    Kind.PIN: "pinned",
    Kind.FACT: "happened",
    Kind.FIGURE: "its figure",
    Kind.PLANNED: "as planned",
    Kind.EDGE: "the signal's",
}


def last_change(
    entry: Entry, effect: Effect, moves: Sequence[Move], meaning: str, scene: Scene
) -> LastChange:
    """The panel for an entry just taken; `meaning` is its headline where nothing typed moved.

    `moves` are those of the effect's that are told.
    """
    names = scene.roll.names
    typed = next((m for m in moves if m.kind is MoveKind.TYPED and _by(m)), None)
    headline, rows = meaning, _rows(effect, moves, 0 if typed is None else _by_ms(typed), scene)
    if typed is not None and isinstance(entry.action, Happened | Observe):
        by_plan = _by_the_plan(typed, scene)
        headline = f"{names(typed.event)} happened {_fact_words(typed, by_plan)}"
        if by_plan and by_plan != _by(typed):
            rows = (("Against the flight plan", Said(by_plan, Tone.CHANGE)), *rows)
    elif typed is not None:
        headline = f"{names(typed.event)} {_by(typed)}"
    return LastChange(
        when=clock_text(entry.at_ms, scene.style),
        source=entry.source,
        headline=headline,
        rows=rows[:_MOST_ROWS],
        event="" if typed is None else typed.event,
        number=entry.number,
    )


def with_said(change: LastChange, entries: Sequence[Entry], style: Style) -> LastChange:
    """The panel with whether the audience has been told; `entries` are those that stand."""
    if not change.event:
        return change
    told = Said("not yet")
    for entry in entries:
        match entry.action:
            case MarkSaid(times=times) if any(event == change.event for event, _ in times):
                told = Said(clock_text(entry.at_ms, style), Tone.QUIET)
            case Waive(events) if change.event in events:
                told = Said("need not be", Tone.QUIET)
            case _ if entry.number == change.number:
                told = Said("not yet")
    return replace(change, rows=(*change.rows, ("Said on the air", told)))


def _by_ms(move: Move) -> int:
    """How far it moved as shown; 0 where it had or has no time."""
    if move.old_ms is None or move.new_ms is None:
        return 0
    return apart_ms(move.new_ms, move.old_ms)


def _by(move: Move) -> str:
    return difference_words(_by_ms(move))


def _fact_words(typed: Move, by_plan: str) -> str:
    """'46 s before it was expected': a fact is no new time, so it is not said to be later."""
    if by_plan == _by(typed):
        return f"{by_plan} than planned"
    side = "before" if _by_ms(typed) < 0 else "after"
    return f"{duration_words(abs(_by_ms(typed)))} {side} it was expected"


def _by_the_plan(typed: Move, scene: Scene) -> str:
    """How a fact stands to the plan, '' where it has no time there."""
    planned_ms = scene.roll.planned_ms.get(typed.event)
    if planned_ms is None or typed.new_ms is None:
        return ""
    return difference_words(apart_ms(typed.new_ms, planned_ms)) or "on time"


def _rows(
    effect: Effect, moves: Sequence[Move], typed_ms: int, scene: Scene
) -> tuple[tuple[str, Said], ...]:
    names = scene.roll.names
    others = [m for m in moves if m.kind is MoveKind.FOLLOWS]
    rows: list[tuple[str, Said]] = [
        (f"{names(m.event)} goes along", Said(_by(m), Tone.CHANGE))
        for m in moves
        if m.kind is MoveKind.UPSTREAM
    ]
    rows += _followers(others, typed_ms, scene)
    gone = [names(m.event) for m in others if m.new_ms is None]
    if gone:
        rows.append((listed(gone, most=2), Said("no time any more", Tone.QUIET)))
    rows += [(f"Older figure, {names(e)}", Said("gave way", Tone.CHANGE)) for e in effect.yielded]
    rows += [(names(broken_event(b)), Said("limit overruled", Tone.CLASH)) for b in effect.broken]
    for stay in effect.stays:
        why = _STAYS.get(stay.kind, "room left") if stay.kind else "room left"
        rows.append((f"{names(stay.event)} stays", Said(why, Tone.QUIET)))
    return tuple(rows)


def _followers(others: Sequence[Move], typed_ms: int, scene: Scene) -> list[tuple[str, Said]]:
    """What follows, by its amounts: first what goes the other way, then what the air waits for."""
    amounts: dict[int, list[Move]] = {}
    for move in others:
        if by_ms := _by_ms(move):
            amounts.setdefault(by_ms, []).append(move)
    told = [(by_ms, alike, _foremost(alike, scene)) for by_ms, alike in amounts.items()]
    told.sort(key=lambda each: -len(each[1]))
    turned = next((each for each in told if each[2] and each[0] * typed_ms < 0), None)
    if turned is not None:
        told.remove(turned)
        told.insert(0, turned)
    told = sorted(told[:_MOST_AMOUNTS], key=lambda each: (each[0] * typed_ms >= 0, not each[2]))
    return [
        (_who(alike, foremost, scene.roll.names), Said(difference_words(by_ms), Tone.CHANGE))
        for by_ms, alike, foremost in told
    ]


def _foremost(alike: Sequence[Move], scene: Scene) -> str:
    """The first of them that is live or paired, '' where none is: it is named before the rest."""
    waited_for = [
        (m.new_ms or 0, m.event)
        for m in alike
        if m.event in scene.known and (scene.event(m.event).live or m.event in scene.pairs)
    ]
    return min(waited_for, default=(0, ""))[1]


def _who(alike: Sequence[Move], foremost: str, names: Names) -> str:
    if len(alike) == 1:
        return f"{names(alike[0].event)} follows"
    if foremost:
        return f"{names(foremost)} and {len(alike) - 1} more follow"
    return f"{len(alike)} follow, each by"
