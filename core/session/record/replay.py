"""The day once more, entry by entry: what each of them did to the times and to what is owed."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from core.board.standing import is_automatic
from core.board.telling.owing import owed
from core.entries.model import BringBack, Entry, Happened, Observe, TakeBack, TakePlan
from core.errors import EntryRefused
from core.plan.model import Event, Plan
from core.saying.situations import Correction
from core.session.ground import SkiesFor
from core.session.session import Session
from core.session.store import MemoryStore
from core.times.writing import Hours

Times = Mapping[str, int | None]


@dataclass(frozen=True, slots=True)
class Step:
    """One entry, taken: the times before it (held counts had slid until then) and after.

    `slid` are the times as the entry before had left them. `came` has the events that happened by
    it, `went` those that had happened and no longer did, `about` those that stand for an edge it
    observed. `edge` is that edge, and when it was computed to be, if nobody had observed it yet.
    """

    entry: Entry
    slid: Times
    before: Times
    after: Times
    came: frozenset[str]
    went: frozenset[str]
    about: frozenset[str]
    owed: tuple[Correction, ...]
    edge: tuple[str, int] | None = None


class Replay:
    """A session taken through its entries once more; `session` is how it stands."""

    def __init__(self, plan: Plan, begin_ms: int, hours: Hours, skies_for: SkiesFor) -> None:
        self._store = MemoryStore()
        self._now_ms = begin_ms
        self.session = Session(plan, begin_ms, self._store, hours, skies_for)
        self.events: dict[str, Event] = {}
        """Every event there ever was, as it was last."""
        self.planned_ms: dict[str, int | None] = {}
        """When each was planned, as it was first."""
        self._meet()

    def steps(self, entries: Sequence[Entry]) -> Iterator[Step]:
        """Take the entries in their order; gives what each did."""
        slid: Times = self.session.schedule.expected()
        for entry in entries:
            step = self._take(entry, slid)
            slid = step.after
            yield step

    def end(self, at_ms: int) -> tuple[Times, Times]:
        """Let time pass to the end of the record; the times before that and after."""
        slid = self.session.schedule.expected()
        self.session.schedule.tick(max(self._now_ms, at_ms))
        return slid, self.session.schedule.expected()

    def _take(self, entry: Entry, slid: Times) -> Step:
        session = self.session
        self._now_ms = max(self._now_ms, entry.at_ms)  # the machine's clock may have been put back
        session.schedule.tick(self._now_ms)
        before, had = session.schedule.expected(), session.schedule.happened
        edge = self._edge(entry)
        if isinstance(entry.action, TakeBack | BringBack):
            self._store.append(entry)
            session.rebuild(self._now_ms)
        else:
            self._keep(entry)
        has = session.schedule.happened
        self._meet()
        return Step(
            entry,
            slid,
            before,
            session.schedule.expected(),
            has - had,
            had - has,
            self._about(entry),
            owed(session.scene, session.standing),
            edge,
        )

    def _keep(self, entry: Entry) -> None:
        """Take it as it was taken: what was set against a clash says so itself."""
        session = self.session
        try:
            effect = session.schedule.take(entry, self._now_ms)
        except EntryRefused:  # what stood before it was taken back: it says nothing any more
            session.keep(entry)
            return
        session.keep(entry)
        if isinstance(entry.action, TakePlan):
            session.plan_taken_over()
        if effect.clash is not None or effect.asks:
            session.rebuild(self._now_ms)  # it stands all the same, as in a session opened again

    def _edge(self, entry: Entry) -> tuple[str, int] | None:
        """The edge that an entry observes, with its time as it was computed until then."""
        if not isinstance(entry.action, Observe | Happened) or not entry.action.edge:
            return None
        edges = (edge for lane in self.session.scene.lanes for edge in lane.edges)
        found = next((each for each in edges if each.id == entry.action.edge), None)
        return None if found is None or found.observed else (found.id, found.time_ms)

    def _about(self, entry: Entry) -> frozenset[str]:
        """The events that stand for the edge an entry observes."""
        if not isinstance(entry.action, Observe) or not entry.action.edge:
            return frozenset()
        schedule, edge = self.session.schedule, entry.action.edge
        return frozenset(name for name in schedule.events if schedule.edge(name) == edge)

    def _meet(self) -> None:
        """Note the events there are now; of new ones, when they were planned first."""
        schedule = self.session.schedule
        for name, event in schedule.roll.items():
            self.events[name] = event
            if name not in self.planned_ms:
                self.planned_ms[name] = schedule.planned_ms(name)


def is_named(event: Event) -> bool:
    """Whether it is an event of the plan or the desk, not an edge of the signal by itself."""
    return not is_automatic(event)
