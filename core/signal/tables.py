"""The signal of a plan: contacts from its tables and its computed courses, and where edges lie.

`Tables` answers the schedule (`core.entries.edges.Edges`) and gives the screens their lanes. It
never changes: what the desk tells it makes a new one, which shares all that was worked out.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from core.entries.edges import Found
from core.entries.model import Entry, Shut
from core.plan.model import Change, CourseKind, EdgeRef, Event, Plan
from core.signal.book import Book, LaneBook, bind
from core.signal.computing import Branch, Skies, Spell
from core.signal.hurried import Hurried, Question
from core.signal.joined import Joined
from core.signal.kept import Kept
from core.signal.lane import Brink, LaneNow
from core.signal.model import Computed, LaneSignal, Shifted, Total
from core.signal.placing import Expected, shifted
from core.signal.planned import Planned
from core.signal.seen import Light
from core.signal.stretches import shut_times
from core.signal.told import Heard, Told, listen
from core.signal.totals import total
from core.signal.working import Workings
from core.signal.worlds import World

NEAR_MS = 120_000
"""An edge observed takes one no further away than its give and this."""


@dataclass(frozen=True, slots=True)
class _Base:
    """What all tellings of one plan's tables share."""

    edge_events: tuple[Event, ...]
    at_craft: frozenset[str]
    """The events that happen out there, where light's way counts at all."""
    book: Book
    lanes: Mapping[str, LaneBook]
    branches: tuple[tuple[str, Branch], ...]
    """What may be flown, each after the event whose outcome it needs (empty: none)."""
    planned: Expected
    kept: Kept


class Tables:
    """The signal of a plan's courses, as told by the desk; `skies` computes what is no table.

    `base` and `told` are for the tables' own use: what an earlier telling shares with this one.
    """

    def __init__(
        self,
        plan: Plan,
        skies: Skies | None = None,
        base: _Base | None = None,
        told: Told | None = None,
    ) -> None:
        self._plan = plan
        self._skies = skies
        self._base = _read(plan, skies, Planned(plan, self._printed)) if base is None else base
        self._told = Told() if told is None else told
        self._by_lane: dict[str, Heard] = {}

    @property
    def book(self) -> Book:
        """The tables as they are printed."""
        return self._base.book

    @property
    def printed(self) -> Expected:
        """The planned times that the tables were printed for."""
        return self._base.planned

    def told(self, entries: Sequence[Entry]) -> "Tables":
        """The same signal, knowing these entries (those that stand and are not spent)."""
        base = self._base
        return Tables(
            self._plan, self._skies, base, listen(entries, base.book.edges, base.book.outcomes)
        )

    def printed_for(self, planned: Callable[[str], int | None]) -> "Tables":
        """The same signal, its tables printed for those planned times of the events followed.

        Without it the planned times are read from the plan's clock times and offsets alone.
        """
        base = replace(self._base, planned=planned, kept=Kept())
        return Tables(self._plan, self._skies, base, self._told)

    def needs(self, ref: EdgeRef) -> tuple[str, ...]:
        """The events whose times decide that edge, besides the one it is counted from."""
        lane = self._base.lanes.get(ref.lane)
        return () if lane is None else lane.needs

    def find(
        self, ref: EdgeRef, event: str, from_ms: int | None, expected: Expected
    ) -> Found | None:
        """The edge for `event`, in the world of its outcome, counted from `from_ms`; or None.

        Where outcomes are open on which the event does not hang, those named first in the plan
        are taken. A loss or return that is not in the plan is no edge an event hangs on.
        """
        lane = self._base.lanes.get(ref.lane)
        if lane is None:
            return None
        now = self._now(lane, expected)
        edge: Brink | None = None
        if ref.row:
            edge = now.named.get(ref.row)
        else:
            for world in self._worlds_for(lane, event):
                edge = now.foreseen(world).find(ref, from_ms)
        return None if edge is None else Found(edge.time_ms, edge.id, now.give_ms(edge.id))

    def near(self, lane: str, change: Change, time_ms: int, expected: Expected) -> str:
        """The id of the edge that one observed at `time_ms` is: the nearest not yet observed.

        It must lie within its give and two minutes; empty where there is none.
        """
        book = self._base.lanes.get(lane)
        if book is None:
            return ""
        heard, now = self._heard(book), self._now(book, expected)
        gives = self._gives(lane, change, expected)
        found: list[tuple[int, str]] = []
        for world in heard.worlds:
            for edge in now.foreseen(world).edges[change]:
                fact = heard.word_on(edge.id)
                away_ms = abs(edge.time_ms - time_ms)
                give_ms = max(gives.get(edge.id, 0), now.give_ms(edge.id))
                if away_ms <= NEAR_MS + give_ms and not (fact and fact.observed):
                    found.append((away_ms, edge.id))
        return min(found)[1] if found else ""

    def computed(self, edge: str, expected: Expected) -> Computed | None:
        """That edge as its course alone has it, whatever was observed; None where none does."""
        known = self._base.book.edges.get(edge)
        if known is None or known.lane not in self._base.lanes:
            return None
        found = self._now(self._base.lanes[known.lane], expected).computed(edge)
        return None if found is None else Computed(known.lane, known.change, *found)

    def signal(self, expected: Expected, shut: Sequence[Shut] = ()) -> tuple[LaneSignal, ...]:
        """All lanes at those times; `shut` says when the ground closes and opens them.

        A lane that has not changed is the same object as before, and so is the whole.
        """
        return self._base.kept.whole_of(
            tuple(self._lane_signal(lane, expected, shut) for lane in self._base.book.lanes)
        )

    def totals(self, lanes: Sequence[LaneSignal], from_ms: int, to_ms: int) -> tuple[Total, ...]:
        """For each lane how often and how long it is out of contact: once if every outcome agrees.

        Else once for each outcome that is open, the others taken as named first in the plan.
        """
        found: list[Total] = []
        for lane in lanes:
            worlds = self._heard(self._base.lanes[lane.lane]).worlds
            each = [
                total(lane, outcome, world, from_ms, to_ms)
                for outcome, world in self._base.book.outcomes.open_ends(worlds)
            ]
            plain = replace(each[0], outcome=None)
            agree = all(replace(other, outcome=None) == plain for other in each)
            found += [plain] if agree else each
        return tuple(found)

    def shifted(self, expected: Expected) -> tuple[Shifted, ...]:
        """The courses of a file that lie elsewhere than it says, unless their outcome is gone."""
        outcomes, chosen = self._base.book.outcomes, self._told.chosen
        found = (
            shifted(course, expected, self._base.planned)
            for course in self._plan.courses
            if all(
                chosen.get(outcomes.parent(outcome) or "", outcome) == outcome
                for outcome in outcomes.condition(course.only_if, course.follows)
            )
        )
        return tuple(each for each in found if each is not None)

    def light(self, expected: Expected, at_ms: int) -> Light | None:
        """How far away the craft is then, and how long its signal is under way, to the minute.

        Where outcomes are open those named first in the plan are taken. None where no computed
        course says anything of then.
        """
        minute_ms = at_ms - at_ms % 60_000
        for question in self._flown(expected):
            key, lights = (question, minute_ms), self._base.kept.lights
            if key not in lights and self._skies is not None:
                lights[key] = self._skies.light(*question, minute_ms)
            light = lights.get(key)
            if light is not None:
                return light
        return None

    def _flown(self, expected: Expected) -> Iterator[Question]:
        """The branches that are flown as things stand, in the plan's order."""
        for of, branch in self._base.branches:
            if self._told.chosen.get(of) in (None, branch.outcome):
                yield Question(branch, tuple(map(expected, branch.events)))

    def unsettled(self, expected: Expected) -> tuple[Question, ...]:
        """What is to be fetched of the far contacts, as things stand."""
        if not isinstance(self._skies, Hurried):
            return ()
        skies = self._skies
        return tuple(each for each in self._flown(expected) if skies.is_open(*each))

    def settle(self, question: Question, spell: Spell | None) -> None:
        """Take what was fetched; whatever was looked up before must be looked up anew."""
        if isinstance(self._skies, Hurried):
            self._skies.settle(question, spell)
            self._base.kept.lanes.clear()

    def _heard(self, lane: LaneBook) -> Heard:
        heard = self._by_lane.get(lane.lane)
        if heard is None:
            worlds = self._base.book.outcomes.worlds(lane.relevant, self._told.chosen)
            heard = self._by_lane[lane.lane] = self._told.of(
                lane.lane, self._base.book.edges, worlds, self._base.kept.token
            )
        return heard

    def _now(self, lane: LaneBook, expected: Expected) -> LaneNow:
        heard = self._heard(lane)
        key = (lane.lane, heard.token, tuple(map(expected, lane.needs)))
        now = self._base.kept.lanes.get(key)
        if now is None:
            times = dict(zip(lane.needs, key[2], strict=True))
            heard_at = self._heard_at(expected)
            bounds = {name: heard_at(name) for name in lane.bounds}
            now = LaneNow(lane, heard, times.get, bounds.get, self._base.planned)
            self._base.kept.lanes[key] = now
        return now

    def _heard_at(self, expected: Expected) -> Expected:
        """When events are heard: those at the craft a light's way later than they happen there."""

        def heard(name: str) -> int | None:
            at_ms = expected(name)
            if at_ms is None or name not in self._base.at_craft:
                return at_ms
            light = self.light(expected, at_ms)
            return at_ms if light is None else at_ms + light.way_ms

        return heard

    def _worlds_for(self, lane: LaneBook, event: str) -> tuple[World, ...]:
        """The first world in which the event happens, if any."""
        worlds = self._heard(lane).worlds
        if not lane.relevant:
            return worlds[:1]
        condition = self._base.book.outcomes.of_event(event) & lane.relevant
        return tuple(world for world in worlds if condition <= world)[:1]

    def _gives(self, lane: str, change: Change, expected: Expected) -> dict[str, int]:
        """The give of the edges that events of the plan stand for."""
        gives: dict[str, int] = {}
        for event in self._base.edge_events:
            ref = event.edge
            if ref is None or ref.lane != lane or ref.change is not change or not event.give_ms:
                continue
            counted = ref.after or ref.before
            at_ms = None if counted is None else expected(counted)
            from_ms = None if at_ms is None else at_ms + ref.offset_ms
            found = self.find(ref, event.id, from_ms, expected)
            if found is not None:
                gives[found.edge] = max(event.give_ms, gives.get(found.edge, 0))
        return gives

    def _lane_signal(self, lane: LaneBook, expected: Expected, shut: Sequence[Shut]) -> LaneSignal:
        heard, now = self._heard(lane), self._now(lane, expected)
        closed = shut_times(lane.lane, shut)
        key = (now, closed)
        signal = self._base.kept.signals.get(key)
        if signal is None:
            work = Joined(lane, now, heard.worlds, self._base.book.outcomes, closed)
            signal = self._base.kept.signals[key] = LaneSignal(lane.lane, work)
        return signal

    def _printed(self, ref: EdgeRef, event: str, from_ms: int | None) -> int | None:
        """The time of an edge in the tables as printed, before anything has moved."""
        found = self.find(ref, event, from_ms, self._base.planned)
        return None if found is None else found.time_ms


def _read(plan: Plan, skies: Skies | None, planned: Expected) -> _Base:
    # Contacts are counted at the planned times that need no edge: those need the count.
    counted = Planned(plan, lambda *_: None)
    book = bind(plan, None if skies is None else Workings(plan, skies, counted))
    return _Base(
        edge_events=tuple(event for event in plan.events if event.edge is not None),
        at_craft=frozenset(e.id for e in plan.events if e.at_craft and plan.light_time),
        book=book,
        lanes={lane.lane: lane for lane in book.lanes},
        branches=tuple(
            (book.outcomes.parent(branch.outcome or "") or "", branch)
            for course in plan.courses
            if skies is not None and course.kind is not CourseKind.PASSES
            for branch in skies.branches(course)
        ),
        planned=planned,
        kept=Kept(),
    )
