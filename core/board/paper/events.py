"""The table of events: in order of time, a line for each day, and those without a time last."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from core.board.model import CardState
from core.board.paper.clocks import Clocks
from core.board.paper.lanes import lane_heads, lane_places
from core.board.paper.model import Grid, Head, Kind, Line, Place, Section
from core.board.paper.outcomes import outcome_words
from core.board.paper.ties import hangs_on
from core.board.scene import Scene
from core.board.words import Names, broken_event, broken_words, lane_names
from core.plan.model import Event
from core.schedule.model import Brief, State
from core.times.writing import (
    apart_ms,
    difference_words,
    elapsed_text,
    floor_second_ms,
    is_about,
    short_duration_words,
)

_NO_TIME = "Without a time"
_OFF = {
    State.SCRUBBED: "called off",
    State.DROPPED: "belongs to an outcome that did not come",
    State.UNKNOWN: "what it hangs on is not there",
}


@dataclass(frozen=True, slots=True)
class Asked:
    """For when the sheet is made: `now_ms` None means as planned, whatever the clock says.

    `back_by_ms` has, for each live moment, by when the presenter is to be back. Only events from
    `from_ms` on and before `to_ms` are wanted; None: no such bound.
    """

    now_ms: int | None
    back_by_ms: Mapping[str, int]
    from_ms: int | None = None
    to_ms: int | None = None

    def wants(self, at_ms: int | None) -> bool:
        """Whether an event at that instant is to be printed."""
        if at_ms is None:
            return False
        early = self.from_ms is not None and at_ms < self.from_ms
        return not early and (self.to_ms is None or at_ms < self.to_ms)


def events(scene: Scene, clocks: Clocks, asked: Asked) -> Section:
    """All events that have a place on the board."""
    writer = _Writer(scene, clocks, asked)
    lines = [*writer.timed(), *writer.others()]
    return Section("Events", (), (Grid(writer.heads(), tuple(lines)),)) if lines else Section("")


class _Writer:
    """Writes the rows, and only the columns that anything stands in."""

    def __init__(self, scene: Scene, clocks: Clocks, asked: Asked) -> None:
        self._scene, self._clocks, self._asked = scene, clocks, asked
        self._lanes = Names(lane_names(scene.plan))
        self._zero_ms = scene.zero_ms
        self._names = [n for n in scene.order if asked.wants(scene.brief(n).expected_ms)]
        self._off_plan = any(self._by_ms(name) for name in self._names)
        self._has_live = any(name in asked.back_by_ms for name in self._names)
        self._broken = {broken_event(one): one for one in scene.broken}

    def heads(self) -> tuple[Head, ...]:
        """The headings of the columns."""
        elapsed = [Head("ELAPSED", Kind.TIME)] if self._zero_ms is not None else []
        planned = [Head("PLANNED", Kind.TIME)] if self._off_plan else []
        live = [Head("LIVE: BACK BY", Kind.TIME)] if self._has_live else []
        event = Head("EVENT")
        lanes = lane_heads(self._scene)
        return (*self._clocks.heads(), *elapsed, *planned, event, *live, *lanes)

    def timed(self) -> Iterator[Line]:
        """Those with a time, under their days."""
        before_ms: int | None = None
        for name in self._names:
            at_ms = self._scene.brief(name).expected_ms
            if at_ms is None:
                continue
            if day := self._day(before_ms, at_ms):
                yield Line(day=day)
            before_ms = at_ms
            yield Line(tuple(self._row(name, at_ms)))

    def _day(self, before_ms: int | None, at_ms: int) -> str:
        """The line for another day, or for clocks that were turned; '' where neither is so."""
        day, turned = self._clocks.day(at_ms), ""
        if before_ms is not None:
            turned = self._clocks.turned(before_ms, at_ms)
            if day == self._clocks.day(before_ms) and not turned:
                return ""
        return f"{day}; {turned}" if turned else day

    def others(self) -> Iterator[Line]:
        """Those of the plan that have none, and why."""
        automatic, timed = self._scene.roll.automatic, set(self._scene.order)
        names = [n for n in self._scene.known if n not in timed and n not in automatic]
        rows = [(n, brief) for n in names if (brief := self._scene.brief(n)).expected_ms is None]
        if rows:
            yield Line(day=_NO_TIME)
        before = [Place()] * (len(self._clocks.heads()) + (self._zero_ms is not None))
        after = [Place()] * (self._has_live + len(lane_heads(self._scene)))
        for name, brief in rows:
            planned = [self._planned(name, None)] if self._off_plan else []
            event = self._event(self._scene.event(name), brief)
            why = "; ".join(part for part in (_OFF.get(brief.state, ""), event.below) if part)
            yield Line((*before, *planned, replace(event, below=why), *after))

    def _row(self, name: str, at_ms: int) -> Iterator[Place]:
        event, brief = self._scene.event(name), self._scene.brief(name)
        yield from self._clocks.places(at_ms, brief.give_ms, self._standing(name, brief))
        if self._zero_ms is not None:
            yield Place(elapsed_text(apart_ms(at_ms, self._zero_ms)))
        if self._off_plan:
            yield self._planned(name, at_ms)
        yield self._event(event, brief)
        if self._has_live:
            yield self._live(event, at_ms)
        yield from lane_places(self._scene, name)

    def _standing(self, name: str, brief: Brief) -> str:
        """What is known of its time, below it: that it has happened, is held, or its give."""
        if brief.state is State.HAPPENED:
            return "happened"
        if brief.state is State.HELD:
            return f"held with {short_duration_words(brief.left_ms or 0)} left"
        give = f"± {short_duration_words(brief.give_ms)}" if brief.give_ms >= 1000 else ""
        now_ms = self._asked.now_ms
        if now_ms is not None and self._scene.standing(name, now_ms).state is CardState.DUE:
            return "; ".join(part for part in ("not confirmed", give) if part)
        return give

    def _planned(self, name: str, at_ms: int | None) -> Place:
        """The plan's time, where it is another, and by how much."""
        planned_ms = self._scene.schedule.planned_ms(name)
        by_ms = self._by_ms(name)
        if planned_ms is None or (at_ms is not None and not by_ms):
            return Place()
        beside_ms = self._clocks.day_ms if at_ms is None else at_ms
        return Place(self._clocks.other(planned_ms, beside_ms), difference_words(by_ms))

    def _by_ms(self, name: str) -> int:
        expected_ms = self._scene.brief(name).expected_ms
        planned_ms = self._scene.schedule.planned_ms(name)
        if expected_ms is None or planned_ms is None:
            return 0
        return apart_ms(expected_ms, planned_ms)

    def _event(self, event: Event, brief: Brief) -> Place:
        return Place(event.name, "; ".join(self._below(event, brief)), strong=event.live)

    def _below(self, event: Event, brief: Brief) -> Iterator[str]:
        scene, names = self._scene, self._scene.roll.names
        if scene.open_outcome(event.id) and brief.outcome is not None:
            condition = outcome_words(scene, brief.outcome)
            if condition not in event.name:
                yield f"only {condition}"
        at_ms = self._clocks.day_ms if brief.expected_ms is None else brief.expected_ms
        clocks = replace(self._clocks, day_ms=at_ms)
        yield from hangs_on(event, scene.plan.limits, names, self._lanes, clocks)
        if (way_ms := scene.way_ms(event.id)) and brief.expected_ms is not None:
            heard_ms = floor_second_ms(brief.expected_ms + way_ms)
            yield f"heard {self._clocks.event(heard_ms, brief.give_ms)}"
        if event.id in self._broken:
            yield f"overruled: {broken_words(self._broken[event.id], names)}"

    def _live(self, event: Event, at_ms: int) -> Place:
        back_by_ms = self._asked.back_by_ms.get(event.id)
        if back_by_ms is None:
            return Place()
        about = is_about(self._scene.brief(event.id).give_ms)
        stay = f"stay {short_duration_words(event.stay_ms)}" if event.stay_ms else ""
        clock = self._clocks.other(back_by_ms, at_ms, seconds=not about)
        return Place(f"about {clock}" if about else clock, stay, strong=True)
