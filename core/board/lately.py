"""LAST CHANGE: what the last entry moved and left, when and per whom."""

from collections.abc import Sequence
from dataclasses import replace

from core.board.model import LastChange, Said, Tone
from core.board.words import Names, broken_event, listed
from core.entries.airing import MarkSaid, Waive
from core.entries.model import Entry
from core.schedule.model import Effect, Kind, Move, MoveKind
from core.times.writing import Style, apart_ms, clock_text, difference_words

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
    entry: Entry,
    effect: Effect,
    moves: Sequence[Move],
    meaning: str,
    names: Names,
    style: Style,
) -> LastChange:
    """The panel for an entry just taken; `meaning` is its headline where nothing typed moved.

    `moves` are those of the effect's that are told.
    """
    typed = next((m for m in moves if m.kind is MoveKind.TYPED and _by(m)), None)
    headline = meaning
    if typed is not None:
        headline = f"{names(typed.event)} {_by(typed)}"
    return LastChange(
        when=clock_text(entry.at_ms, style),
        source=entry.source,
        headline=headline,
        rows=_rows(effect, moves, names)[:_MOST_ROWS],
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


def _rows(effect: Effect, moves: Sequence[Move], names: Names) -> tuple[tuple[str, Said], ...]:
    others = [m for m in moves if m.kind is MoveKind.FOLLOWS]
    rows: list[tuple[str, Said]] = [
        (f"{names(m.event)} goes along", Said(_by(m), Tone.CHANGE))
        for m in moves
        if m.kind is MoveKind.UPSTREAM
    ]
    amounts: dict[int, list[Move]] = {}
    for move in others:
        if by_ms := _by_ms(move):
            amounts.setdefault(by_ms, []).append(move)
    most = sorted(amounts.items(), key=lambda each: -len(each[1]))
    for by_ms, alike in most[:_MOST_AMOUNTS]:
        who = f"{len(alike)} follow, each by"
        if len(alike) == 1:
            who = f"{names(alike[0].event)} follows"
        rows.append((who, Said(difference_words(by_ms), Tone.CHANGE)))
    gone = [names(m.event) for m in others if m.new_ms is None]
    if gone:
        rows.append((listed(gone, most=2), Said("no time any more", Tone.QUIET)))
    rows += [(f"Older figure, {names(e)}", Said("gave way", Tone.CHANGE)) for e in effect.yielded]
    rows += [(names(broken_event(b)), Said("limit overruled", Tone.CLASH)) for b in effect.broken]
    for stay in effect.stays:
        why = _STAYS.get(stay.kind, "room left") if stay.kind else "room left"
        rows.append((f"{names(stay.event)} stays", Said(why, Tone.QUIET)))
    return tuple(rows)
