"""The schedule: when everything is expected, why, and what an entry would do to it."""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from core.entries.model import Add, Entry, TakePlan
from core.errors import EntryRefused
from core.plan.model import Event, Plan
from core.schedule import effect as effects
from core.schedule.alone import PlanAlone
from core.schedule.clashing import standing_clash
from core.schedule.collecting import uncollected
from core.schedule.fold import Folded, facts_of, fold
from core.schedule.giving import Voice
from core.schedule.lost import lost
from core.schedule.model import Brief, Broken, Clash, Edges, Effect, Floor, Line, Squeeze
from core.schedule.reading import brief, floor, line, picture
from core.schedule.scrub import goes_with
from core.schedule.standing import Standing
from core.schedule.trial import Trial
from core.schedule.works import Rebuild, Works


def schedule(plan: Plan, entries: Sequence[Entry], now_ms: int, edges: Edges) -> "Schedule":
    """The schedule of a plan and the entries that stand, built from scratch."""
    return Schedule(plan, edges, now_ms, entries)


class _Signal(NamedTuple):
    """The signal of the plan in force, and as the entries tell it."""

    untold: Edges
    edges: Edges


class Schedule:
    """When everything is expected, kept up step by step.

    The entries handed to the constructor are folded in order, each as if set by a second Enter:
    they stand. `edges_for` gives the signal of another plan, for a plan taken over live; without
    it the signal of the first plan is asked for ever. `alone` may be shared by schedules that
    begin with the same plan and signal.
    """

    def __init__(
        self,
        plan: Plan,
        edges: Edges,
        now_ms: int,
        entries: Sequence[Entry] = (),
        edges_for: Callable[[Plan], Edges] | None = None,
        alone: PlanAlone | None = None,
    ) -> None:
        self.revision = 0
        self._lost: tuple[int, tuple[Clash, ...]] = (-1, ())
        self._signal = _Signal(edges, edges)
        self._edges_for = edges_for
        self._alone = alone if alone is not None else PlanAlone(plan, edges)
        self._with_added = self._alone
        self._works = self._begun(plan, now_ms, entries)
        for entry in entries[len(self._works.standing.entries) :]:
            try:
                self._tick(max(entry.at_ms, self._works.now_ms))
                self._apply(entry, force=True, keep=True)
            except EntryRefused:
                continue
        self._tick(now_ms)

    def _begun(self, plan: Plan, now_ms: int, entries: Sequence[Entry]) -> Works:
        """The works on as many of the entries as are remembered, else on the bare plan."""
        edges = self._signal.untold
        works = self._alone.recall.find(entries, edges)
        if works is not None:
            self._signal = self._signal._replace(edges=works.lookups.edges)
            if works.standing.added:
                self._with_added = self._alone.with_added(works.standing.added)
            return works
        begin_ms = min([now_ms, *(entry.at_ms for entry in entries)])
        works = Works(Standing(plan, facts_of(plan)), edges, begin_ms, Voice(0))
        self._alone.take_from(works)
        return works

    # ------------------------------------------------------------ reading

    @property
    def edges(self) -> Edges:
        """The signal as the entries tell it."""
        return self._signal.edges

    @property
    def plan(self) -> Plan:
        """The plan in force: the last one that was taken over."""
        return self._works.standing.plan

    @property
    def events(self) -> tuple[str, ...]:
        """Every event, in the plan's order, those added at the desk last."""
        return tuple(self._works.shape.events)

    @property
    def roll(self) -> Mapping[str, Event]:
        """Every event by its id, in the order of `events`; the same object until one changes."""
        return self._works.shape.events

    def event(self, event_id: str) -> Event:
        """The event of that id, added ones too. Raises KeyError where there is none."""
        return self._works.event(event_id)

    def expected(self) -> dict[str, int | None]:
        """When each event is expected, in the order of `events`."""
        return self._works.times()

    def expected_ms(self, event_id: str) -> int | None:
        """When the event is expected, None where it has no time."""
        return self._works.time_ms(event_id)

    def planned_ms(self, event_id: str) -> int | None:
        """When the event was planned, as its line has it, without explaining anything."""
        replanned = self._works.standing.replanned
        return replanned[event_id] if event_id in replanned else self._plan_ms(event_id)

    @property
    def replanned(self) -> Mapping[str, int | None]:
        """Planned times that are no longer the plan's; the same object until one changes."""
        return self._works.standing.replanned

    @property
    def happened(self) -> frozenset[str]:
        """The events that have happened."""
        gone = self._works.shape.gone
        return frozenset(name for name in self._works.standing.facts if name not in gone)

    @property
    def held(self) -> frozenset[str]:
        """The events whose count stands still."""
        holds = self._works.standing.holds
        return frozenset(name for name, hold in holds.items() if hold.resumed_ms is None)

    @property
    def chosen(self) -> Mapping[str, str]:
        """The outcomes that a source has named, by the event they are of."""
        return self._works.standing.chosen

    def edge(self, event_id: str) -> str:
        """The id of the signal's edge the event stands for now, else empty."""
        found = self._works.lookups.found.get(event_id)
        return found.edge if found is not None else ""

    def brief(self, event_id: str) -> Brief:
        """What of an event's line takes no explaining."""
        return brief(self._works, self._works.event(event_id), self._plan_ms(event_id))

    def floor(self, event_id: str) -> Floor:
        """What holds an event's time up, and how early it may be."""
        return floor(self._works, event_id)

    def line(self, event_id: str) -> Line:
        """All that is known of one event."""
        return line(self._works, self._works.event(event_id), self._plan_ms(event_id))

    @property
    def spent(self) -> frozenset[int]:
        """The numbers of the entries whose figure has given way."""
        return self._works.standing.spent

    @property
    def broken(self) -> tuple[Broken, ...]:
        """The bounds and limits that have given way, as far as they fall short."""
        return effects.broken(self._works)

    @property
    def squeezed(self) -> tuple[Squeeze, ...]:
        """Every tie that is now shorter than its offset."""
        return effects.all_squeezed(picture(self._works))

    @property
    def clash(self) -> Clash | None:
        """What cannot be met as things stand: the first of the standing contradictions."""
        found = self.clashes
        return found[0] if found else None

    @property
    def clashes(self) -> tuple[Clash, ...]:
        """All standing contradictions: of the plan itself, of facts, holds and forced figures."""
        works = self._works
        loops = [loop.named for loop in works.loops]
        told = (standing_clash(named, works.giver) for named in (*loops, *works.given.sets))
        return (*told, *self._without_edge())

    def _without_edge(self) -> tuple[Clash, ...]:
        """What a figure leaves no edge to hang on, worked out once for each revision."""
        if self._lost[0] != self.revision:
            found = lost(self._works) if self._works.unknown else ()
            self._lost = (self.revision, tuple(one.clash() for one in found))
        return self._lost[1]

    @property
    def chasing(self) -> tuple[tuple[str, str], ...]:
        """The ties whose offset was let go, for it would chase itself: (before, after)."""
        ids = self._works.net.ids
        return tuple((ids[link.before], ids[link.after]) for link in self._works.let_go)

    def goes_with(self, event_id: str) -> tuple[str, ...]:
        """Those that would be called off together with an event and its followers."""
        return goes_with(event_id, self._works)

    def _plan_ms(self, event_id: str) -> int | None:
        """The time of an event by the plan alone; of one added at the desk, by its ties alone."""
        times = self._alone.times
        return times[event_id] if event_id in times else self._with_added.times.get(event_id)

    # ------------------------------------------------------------ changing

    def take(self, entry: Entry, now_ms: int) -> Effect:
        """Take an entry. A clash without a second Enter changes nothing.

        Raises EntryRefused for what cannot be taken at all (a revision of what has happened).
        """
        self._tick(now_ms)
        return self._apply(entry, force=entry.forced, keep=True)

    def preview(self, entry: Entry, now_ms: int, look: Callable[[], None] | None = None) -> Effect:
        """What `take` would do; but for the time that passes the schedule stays exactly as it is.

        `look` is called while the schedule stands as the entry would leave it: it may read, and
        must keep nothing that reads later. A clash leaves it as it was. Raises EntryRefused as
        `take` does.
        """
        self._tick(now_ms)
        return self._apply(entry, force=entry.forced, keep=False, look=look)

    def tick(self, now_ms: int) -> bool:
        """Let held counts slide to whole seconds; True if any time changed."""
        return self._tick(now_ms)

    def _tick(self, now_ms: int) -> bool:
        works = self._works
        second_ms = now_ms - now_ms % 1000
        held = any(h.resumed_ms is None for h in works.standing.holds.values())
        if works.now_ms == second_ms or not held:
            works.now_ms = second_ms
            return False
        kept = works.open()
        try:
            works.tick(second_ms)
            changed = bool(works.solver.moved())
            works.close()
        except Rebuild:
            works.undo(kept)
            old = self.expected()
            voice = Voice(works.voice.number)
            self._works = Works(works.standing, self._signal.edges, second_ms, voice)
            changed = old != self.expected()
        self.revision += changed
        return changed

    def _apply(
        self, entry: Entry, *, force: bool, keep: bool, look: Callable[[], None] | None = None
    ) -> Effect:
        """Take an entry, and undo it again unless it is kept."""
        works = self._works
        folded = fold(entry, works)
        if folded.asks:
            return Effect(asks=folded.asks)
        if folded.idle:
            return self._note(folded, keep=keep, look=look)
        signal = self._told(entry, folded)
        if keep and self._alone.is_of(works.standing.plan):
            self._alone.recall.keep(works, self._signal.untold)
        trial = Trial(works, folded, entry, signal.edges, force=force)
        try:
            with uncollected():
                effect = trial.run()
                if look is not None:
                    self._shown(trial.works, look)
        finally:
            if not keep or trial.clashed:
                trial.undo()
        if keep and not trial.clashed:
            self._works = trial.close()
            self._signal = signal._replace(edges=trial.works.lookups.edges)
            if isinstance(entry.action, TakePlan):
                self._alone = PlanAlone(entry.action.plan, signal.untold)
            if isinstance(entry.action, Add | TakePlan):
                self._with_added = self._alone.with_added(self._works.standing.added)
            self.revision += 1  # a fact, a pin or a give shows, though no time may change
        return effect

    def _note(self, folded: Folded, *, keep: bool, look: Callable[[], None] | None) -> Effect:
        """Keep an entry that is about no time: all that is shown of the schedule stays as it is."""
        if look is not None:
            self._shown(self._works, look)
        if keep:
            self._works.standing = folded.standing
        return Effect()

    def _shown(self, works: Works, look: Callable[[], None]) -> None:
        """Look at the schedule on those works."""
        mine, signal, revision = self._works, self._signal, self.revision
        self._works, self.revision = works, -1
        self._signal = signal._replace(edges=works.lookups.edges)
        try:
            look()
        finally:
            self._works, self._signal, self.revision = mine, signal, revision

    def _told(self, entry: Entry, folded: Folded) -> _Signal:
        """The signal as this entry leaves it."""
        untold, edges = self._signal
        if isinstance(entry.action, TakePlan) and self._edges_for is not None:
            untold = self._edges_for(entry.action.plan)
        if folded.tells:
            edges = untold.told(folded.standing.unspent())
        return _Signal(untold, edges)
