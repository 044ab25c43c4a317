"""The cards: every word on them, made when a card is asked for."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple, overload

from core.board.changes import Against, change_ms, change_words
from core.board.checkoffs import check_lines
from core.board.facts import SideBySide, as_written, facts
from core.board.marks import mark
from core.board.model import Card, CardState, Figure, Said, Tone
from core.board.notes import note, without_figures
from core.board.programme import FactLine
from core.board.reports import NO_REPORTS, Reports
from core.board.scene import Scene
from core.board.standing import Standing, is_return
from core.board.words import (
    Names,
    broken_event,
    broken_words,
    cause_words,
    event_clock_text,
    shown_figure,
)
from core.plan.model import Event
from core.schedule.model import Line
from core.times.spoken import spoken_zone
from core.times.writing import (
    apart_ms,
    clock_text,
    local_time,
    short_duration_words,
)

ON_ITS_WAY = "by now it has happened; we hear in"
_LASTING = frozenset({CardState.AHEAD, CardState.DUE, CardState.HAPPENED, CardState.UNKNOWN})
"""So long nothing on a card but its count goes with the second."""


class _Beside(NamedTuple):
    """What a card says of an event that neither the scene nor how it stands decides."""

    heard_ms: int | None
    """When it was heard at the desk, if its time was put earlier by a lane's delay."""
    checks: tuple[Said, ...]
    facts: tuple[FactLine, ...]


_NOTHING = _Beside(None, (), ())


class Cards(Sequence[Card]):
    """The cards of one moment. Each is written when it is first asked for."""

    def __init__(
        self,
        scene: Scene,
        ids: Sequence[str],
        now_ms: int,
        against: Against,
        names: Names,
        reports: Reports = NO_REPORTS,
        both: SideBySide = as_written,
        *,
        bare: bool = False,
    ) -> None:
        self._scene = scene
        self._ids = ids
        self._now_ms = now_ms
        self._against = against
        self._names = names
        self._reports = reports
        self._both = both
        self._bare = bare
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
        place = index if 0 <= index < len(self._ids) else range(len(self._ids))[index]
        made = self._made.get(place)
        if made is None:
            made = self._made[place] = self._written(self._ids[place])
        return made

    def __iter__(self) -> Iterator[Card]:
        """Every card in turn."""
        return map(self.__getitem__, range(len(self._ids)))

    def _written(self, event_id: str) -> Card:
        """The card; of one written before, and for nothing else, only its count is made anew."""
        scene = self._scene
        standing = scene.standing(event_id, self._now_ms)
        beside = self._beside(event_id)
        if standing.state not in _LASTING:
            return self._anew(event_id, standing, beside)
        line = scene.line(event_id)
        by = (
            *(self._setting, standing, beside, line),
            *(scene.pairs.get(event_id), scene.way_ms(event_id)),
        )
        kept = scene.cards.get(event_id)
        if kept is not None and kept[0] == by:
            card = self._counted(kept[1], line, standing)
        else:
            card = self._anew(event_id, standing, beside)
        scene.cards[event_id] = (by, card)
        return card

    def _counted(self, card: Card, line: Line, standing: Standing) -> Card:
        if card.figure is None:
            return card
        event = self._scene.event(card.id)
        figure, lead = _count(event, line, standing, self._scene, self._now_ms)
        return replace(card, figure=figure, lead=lead)

    def _anew(self, event_id: str, standing: Standing, beside: _Beside) -> Card:
        scene, now_ms = self._scene, self._now_ms
        event, line = scene.event(event_id), scene.line(event_id)
        figure, lead = _count(event, line, standing, scene, now_ms)
        told = note(event, line, standing, scene, now_ms, beside.heard_ms)
        return Card(
            id=event_id,
            name=event.name,
            state=standing.state,
            at_ms=line.expected_ms,
            figure=figure,
            lead=lead,
            clock=_clock(line, standing, scene, now_ms),
            zone=spoken_zone(scene.style.zone),
            note=told,
            note_less=without_figures(told, standing),
            change=self._change(event, standing),
            tags=_tags(event, line, scene),
            mark=mark(scene, event_id),
            live=event.live,
            clash=_clash(event_id, scene, self._names),
            pair=scene.pairs.get(event_id, ""),
            reason=cause_words(line.cause, self._names),
            checks=beside.checks,
            facts=beside.facts,
        )

    @cached_property
    def _setting(self) -> tuple[object, ...]:
        """What the words of every card go by: another day's times are written with theirs."""
        today = local_time(self._now_ms, self._scene.style.zone).toordinal()
        return (self._scene.setting, today, self._against.common_ms)

    @cached_property
    def _checked(self) -> frozenset[str]:
        """The events that have a check-off."""
        return frozenset(each.of for each in self._scene.plan.checkoffs)

    def _beside(self, event_id: str) -> _Beside:
        scene, reports = self._scene, self._reports
        bare = not reports.heard_ms and event_id not in self._checked
        if bare and not scene.event(event_id).facts:
            return _NOTHING
        edge = scene.line(event_id).edge if reports.heard_ms else ""
        return _Beside(
            heard_ms=reports.heard_ms.get(edge or event_id),
            checks=check_lines(scene.plan.checkoffs, event_id, reports.counts),
            facts=() if self._bare else facts(scene, event_id, self._now_ms, self._both),
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
            since_ms = apart_ms(now_ms, expected_ms if heard_ms is None else heard_ms)
            waited = since_ms > line.give_ms
            if waited and is_return(event) and scene.open_outcome(event.id):
                lead = f"not heard by {clock_text(expected_ms, scene.style)}"
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
