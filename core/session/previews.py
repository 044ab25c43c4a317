"""The preview of a line: how it was read, what would move, what would clash, what is asked."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from core.board.lateness import is_by_ear
from core.board.model import Preview, Said, Tone
from core.board.previewing import clash_words, effect_lines, moved_words
from core.board.scene import Scene
from core.board.standing import is_automatic
from core.board.words import Names, listed
from core.entries.airing import Place
from core.entries.model import Entry, Happened, Observe, Revise, Scrub, Way
from core.entries.readings import Reading
from core.schedule.model import Effect, Move, MoveKind
from core.session.supposing import Supposed
from core.times.writing import Style, dated_clock_text, short_duration_words


@dataclass(frozen=True, slots=True)
class Considered:
    """A line as it was read, and what it would do. A command to the clock makes no entry."""

    readings: tuple[Reading, ...]
    picked: int
    entry: Entry | None
    effect: Effect
    second: Effect | None = None
    """What a second Enter would do, where that is another thing and is asked for."""
    supposed: Supposed | None = None
    """What becomes of the programme, where the plan has one."""

    @property
    def reading(self) -> Reading:
        """The reading that was picked."""
        return self.readings[self.picked]


_ONCE_MORE = "Enter once more"


def asked_at(question: str, clock: str) -> str:
    """A question that has stood a while: it is about the instant it was asked at."""
    return question.replace(_ONCE_MORE, f"{_ONCE_MORE}, asked at {clock}", 1)


def asked_for(considered: Considered, ago_ms: int = 0) -> str:
    """Why a second Enter is wanted, in words; empty if one is enough.

    So long after the first one, what it would do as of that comes before the reasons.
    """
    effect = considered.effect
    reasons = list(considered.reading.asks)
    if effect.clash is not None:
        reasons.append("it clashes")
    if effect.asks:
        reasons.append(effect.asks)
    supposed, entry = considered.supposed, considered.entry
    if supposed is not None and entry is not None:
        reasons += filter(None, [supposed.asks(entry.action)])
    if ago_ms:
        ago = short_duration_words(ago_ms)
        reasons.insert(0, f"{considered.reading.how}, as of the first Enter {ago} ago")
    return f"{_ONCE_MORE}: {'; '.join(reasons)}" if reasons else ""


def preview_of(
    considered: Considered,
    scene: Scene,
    names: Names,
    now_ms: int,
    late: Mapping[str, str] = MappingProxyType({}),
) -> Preview:
    """The preview of the reading that was picked.

    `late` is by lane what is offered to one who types 'now' late on it.
    Edges of the signal that the plan did not name move on the strip, not in the lines.
    """
    effect, style = considered.effect, scene.style
    then = effect if considered.second is None else considered.second
    clash = clash_words(effect.clash, names, style, now_ms) if effect.clash is not None else ""
    moves = told_moves(then, scene)
    readings = considered.readings
    typed = next((m for m in moves if m.kind is MoveKind.TYPED and m.new_ms is not None), None)
    told = "" if typed is None else f"{names(typed.event)}:  {moved_words(typed, style, now_ms)}"
    told += _give(considered) if told else ""
    places = _places(considered)
    lines = (
        *(() if considered.supposed is None else considered.supposed.broken),
        *_left_behind(considered, moves, scene, names),
        *_placed_lines(considered, places, names, style, now_ms),
        *effect_lines(then, moves, names, style, now_ms),
        *(() if considered.supposed is None else considered.supposed.stays),
        *_late(considered, late),
    )
    if told and not _is_figure(considered) and typed is not None and typed.old_ms is not None:
        lines = (Said(told, Tone.CHANGE), *lines)
    return Preview(
        headline=told if told and _is_figure(considered) else considered.reading.how,
        lines=lines,
        clash=clash,
        ask=asked_for(considered),
        choices=tuple(reading.how for reading in readings) if len(readings) > 1 else (),
        picked=considered.picked,
        ghosts=(*((m.event, m.new_ms) for m in moves if m.new_ms is not None), *places),
    )


def _places(considered: Considered) -> tuple[tuple[str, int], ...]:
    """Where items would go."""
    entry = considered.entry
    return entry.action.places if entry is not None and isinstance(entry.action, Place) else ()


def _placed_lines(
    considered: Considered,
    places: Sequence[tuple[str, int]],
    names: Names,
    style: Style,
    now_ms: int,
) -> tuple[Said, ...]:
    """What has a place and gets another, from when to when; then the others with their places.

    A single one without a place before stands in the headline.
    """
    moved: list[Said] = []
    new: list[Said] = []
    for item, at_ms in places:
        had_ms = None if considered.supposed is None else considered.supposed.placed_ms(item)
        clock = dated_clock_text(at_ms, style, now_ms)
        if had_ms is None:
            new.append(Said(f"{names(item)}: {clock}"))
        elif had_ms != at_ms:
            before = dated_clock_text(had_ms, style, now_ms)
            moved.append(Said(f"{names(item)} moves: {before} → {clock}", Tone.CHANGE))
    return (*moved, *(new if len(places) > 1 else ()))


def told_moves(effect: Effect, scene: Scene) -> tuple[Move, ...]:
    """The moves that are told in words: edges that are events by themselves are not."""
    known = scene.known
    return tuple(
        move
        for move in effect.moves
        if move.kind is MoveKind.TYPED
        or move.event not in known
        or not is_automatic(scene.event(move.event))
    )


def _give(considered: Considered) -> str:
    """The give of a new figure, where one was typed."""
    entry = considered.entry
    if entry is None or not isinstance(entry.action, Revise) or not entry.action.give_ms:
        return ""
    return f", ± {short_duration_words(entry.action.give_ms)}"


def _late(considered: Considered, late: Mapping[str, str]) -> tuple[Said, ...]:
    """What is offered on the lane on which something is heard now."""
    entry = considered.entry
    if entry is None or not is_by_ear(entry.typed):
        return ()
    action = entry.action
    lane = action.lane if isinstance(action, Observe) else ""
    lane = action.heard_on if isinstance(action, Happened) else lane
    return (Said(late[lane], Tone.QUIET),) if lane in late else ()


def _left_behind(
    considered: Considered, moves: Sequence[Move], scene: Scene, names: Names
) -> tuple[Said, ...]:
    """What becomes of those tied to an event that is called off, as far as they stay."""
    entry = considered.entry
    if entry is None or not isinstance(entry.action, Scrub):
        return ()
    event, way = entry.action.event, entry.action.way
    gone = {move.event for move in moves if move.new_ms is None}
    tied = [
        name
        for name in scene.schedule.events
        if name not in gone and any(tie.event == event for tie in scene.event(name).ties)
    ]
    before = listed([names(tie.event) for tie in scene.event(event).ties])
    who = listed([names(name) for name in tied])
    if not tied:
        return (Said("Nothing else is tied to it"),) if way is not Way.WITH else ()
    if way is Way.BRIDGE and before:
        return (Said(f"With the offsets added, tied to {before}: {who}"),)
    return (Said(f"Left at the present time, tied to nothing before: {who}"),)


def _is_figure(considered: Considered) -> bool:
    """Whether the old and the new time say it all: of a new figure, not of what has happened."""
    entry = considered.entry
    return entry is not None and isinstance(entry.action, Revise)
