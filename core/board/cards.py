"""The cards: every word on them, made when a card is asked for."""

from collections.abc import Iterator, Sequence
from typing import overload

from core.board.changes import Against, change_ms, change_words
from core.board.marks import contact_note, mark
from core.board.model import Card, CardState, Figure, Said, Tone
from core.board.scene import Scene
from core.board.standing import Standing, is_return
from core.board.words import (
    Names,
    broken_event,
    broken_words,
    cause_words,
    either_clocks,
    shown_figure,
)
from core.plan.model import Event
from core.schedule.model import Line
from core.signal.model import Edge
from core.times.spoken import spoken_zone
from core.times.writing import (
    apart_ms,
    clock_text,
    difference_words,
    duration_words,
    event_clock_text,
    is_about,
    short_duration_words,
)

ON_ITS_WAY = "by now it has happened; we hear in"


class Cards(Sequence[Card]):
    """The cards of one moment. Each is written when it is first asked for."""

    def __init__(
        self, scene: Scene, ids: Sequence[str], now_ms: int, against: Against, names: Names
    ) -> None:
        self._scene = scene
        self._ids = ids
        self._now_ms = now_ms
        self._against = against
        self._names = names
        self._made: dict[int, Card] = {}

    def __len__(self) -> int:
        """How many there are."""
        return len(self._ids)

    @overload
    def __getitem__(self, index: int) -> Card: ...

    @overload
    def __getitem__(self, index: slice) -> Sequence[Card]: ...

    def __getitem__(self, index: int | slice) -> Card | Sequence[Card]:
        """The card at that place."""
        if isinstance(index, slice):
            return [self[place] for place in range(*index.indices(len(self._ids)))]
        place = range(len(self._ids))[index]
        made = self._made.get(place)
        if made is None:
            made = self._made[place] = self._written(self._ids[place])
        return made

    def __iter__(self) -> Iterator[Card]:
        """Every card in turn."""
        return (self[place] for place in range(len(self._ids)))

    def _written(self, event_id: str) -> Card:
        scene, now_ms = self._scene, self._now_ms
        event, line = scene.event(event_id), scene.line(event_id)
        standing = scene.standing(event_id, now_ms)
        figure, lead = _count(event, line, standing, scene, now_ms)
        zone = spoken_zone(scene.style.zone)
        return Card(
            id=event_id,
            name=event.name,
            state=standing.state,
            at_ms=line.expected_ms,
            figure=figure,
            lead=lead,
            clock=_clock(line, standing, scene, now_ms),
            zone=zone,
            note=_note(event, line, standing, scene, now_ms),
            change=self._change(event, standing),
            tags=_tags(event, line, scene),
            mark=mark(scene, event_id),
            live=event.live,
            clash=_clash(event_id, scene, self._names),
            pair=scene.pairs.get(event_id, ""),
            reason=cause_words(line.cause, self._names),
        )

    def _change(self, event: Event, standing: Standing) -> Said:
        """Its change against the plan; one that has happened says it in its note."""
        if standing.state is CardState.HAPPENED:
            return Said("")
        by_ms = change_ms(self._scene, event.id)
        return change_words(event, by_ms, self._against.common_ms)


def _count(
    event: Event, line: Line, standing: Standing, scene: Scene, now_ms: int
) -> tuple[Figure | None, str]:
    """The countdown, and the word that goes with it."""
    expected_ms, heard_ms = line.expected_ms, standing.heard_ms
    found: tuple[Figure | None, str] = (None, "time unknown")
    match standing.state:
        case CardState.HELD:
            found = shown_figure(line.left_ms or 0), "HELD WITH"
        case CardState.AHEAD if expected_ms is not None:
            found = shown_figure(apart_ms(expected_ms, now_ms), line.give_ms), ""
        case CardState.ON_ITS_WAY if heard_ms is not None:
            found = shown_figure(apart_ms(heard_ms, now_ms), line.give_ms), ON_ITS_WAY
        case CardState.DUE if expected_ms is not None:
            lead = "due"
            if is_return(event) and scene.open_outcome(event.id):
                lead = f"not heard by {clock_text(expected_ms, scene.style)}"
            since_ms = apart_ms(now_ms, expected_ms if heard_ms is None else heard_ms)
            found = shown_figure(since_ms, line.give_ms, past=True), lead
        case CardState.OUT_OF_SIGHT:
            found = None, "out of sight"
        case CardState.HAPPENED:
            found = None, "happened" if line.happened_ms is not None else "passed"
    return found


def _clock(line: Line, standing: Standing, scene: Scene, now_ms: int) -> str:
    if line.expected_ms is None or standing.state is CardState.HELD:
        return ""
    give_ms = line.give_ms if standing.state is not CardState.HAPPENED else 0
    at_ms = line.expected_ms
    if standing.state is not CardState.AHEAD and standing.heard_ms is not None:
        at_ms = standing.heard_ms  # what its count runs to, or from
    return event_clock_text(at_ms, give_ms, scene.style, now_ms)


def _note(event: Event, line: Line, standing: Standing, scene: Scene, now_ms: int) -> Said:
    match standing.state:
        case CardState.HELD:
            if line.held_ms is None:
                return Said("")
            return Said(f"held for {duration_words(apart_ms(now_ms, line.held_ms))}")
        case CardState.OUT_OF_SIGHT:
            return Said(_first_word(standing, scene, now_ms))
        case CardState.HAPPENED:
            return Said(_how_late(event, line, scene), Tone.QUIET)
        case CardState.UNKNOWN:
            return Said("what it hangs on is not there", Tone.QUIET)
    return Said(_ahead(event, line, standing, scene, now_ms), Tone.QUIET)


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
        note = f"{note}, {give}" if note else give
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


def _late(edge: Edge) -> str:
    """'12 s late': an edge as seen or heard, against where its course has it."""
    by_ms = apart_ms(edge.time_ms, edge.time_ms if edge.table_ms is None else edge.table_ms)
    if not by_ms:
        return "to the second"
    return f"{duration_words(abs(by_ms))} {'late' if by_ms > 0 else 'early'}"


def _tags(event: Event, line: Line, scene: Scene) -> tuple[Said, ...]:
    tags = []
    if event.live:
        tags.append(Said("must be live"))
    if line.pinned:
        words = "pinned"
        if line.slack_ms is not None and line.happened_ms is None:
            words = f"pinned, slack {short_duration_words(max(0, line.slack_ms))}"
        tags.append(Said(words, Tone.QUIET))
    figure_ms = line.figure_ms if line.happened_ms is None and not line.pinned else None
    if figure_ms not in (None, line.planned_ms):  # as replanned, it is the plan's own time
        tags.append(Said("revised", Tone.QUIET))
    if scene.slides(event.id):
        tags.append(Said("slides with the hold", Tone.QUIET))
    if line.outcome is not None and scene.open_outcome(event.id):
        condition = scene.outcome_name(line.outcome)
        if condition.casefold() not in event.name.casefold():
            tags.append(Said(condition, Tone.QUIET))
    return tuple(tags)


def _clash(event_id: str, scene: Scene, names: Names) -> str:
    found = (broken for broken in scene.broken if broken_event(broken) == event_id)
    return next((broken_words(broken, names) for broken in found), "")
