"""The works: the network with all bounds as they stand, settled; changed step by step.

A step gives new words for some events. The limits that had given way come back first, then who
must give way is found again, then times are settled, then edges of the signal are looked up for
the events whose inputs moved, and so on until nothing moves. A step can be undone exactly.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from core.plan.model import Event
from core.schedule.chase import Circle
from core.schedule.clash import (
    Contradiction,
    Named,
    Steps,
    earliest,
    name_step,
)
from core.schedule.collecting import uncollected
from core.schedule.force import last_limit
from core.schedule.giving import Given, Giver, Voice
from core.schedule.lookup import Looked, Lookups
from core.schedule.model import Edges, State
from core.schedule.network import Link, Network, network
from core.schedule.shape import Shape, shape
from core.schedule.solve import INF, Solver
from core.schedule.standing import Bounds, Clockwork, Standing, bounds


class Rebuild(Exception):
    """The step changes which events are there, or what pushes: it cannot be done in place.

    `steps`: the circle of pushes that was met, if that is why.
    """

    def __init__(self, steps: Steps = ()) -> None:
        super().__init__(steps)
        self.steps = steps


@dataclass(frozen=True, slots=True)
class Loop:
    """Hard limits that contradict each other by themselves, and the one taken out."""

    named: Named
    step: tuple[int, int, int]


class Works:
    """The network, settled for what stands, at one moment of the board's clock."""

    shape: Shape
    net: Network
    solver: Solver
    own: list[Bounds]
    let_go: list[Link]
    """Ties whose offset has fallen to its least, for it would chase itself for ever."""
    loops: list[Loop]
    """Hard limits that contradict each other by themselves."""
    giver: Giver
    yielded: list[str]

    def __init__(
        self,
        standing: Standing,
        edges: Edges,
        now_ms: int,
        voice: Voice,
        unknown: frozenset[str] = frozenset(),
    ) -> None:
        self.standing = standing
        self.now_ms = now_ms
        self.voice = voice
        self.lookups = Lookups(edges)
        self.unknown = unknown
        self.yielded = []
        self._own_before: dict[int, Bounds] = {}
        self._early: list[float] | None = None
        with uncollected():
            self._build()

    def copy(self) -> "Works":
        """The same works, to be changed apart from these. Only between steps."""
        new = object.__new__(Works)
        new.standing, new.now_ms, new.voice = self.standing, self.now_ms, self.voice
        new.lookups = self.lookups.copy()
        new.unknown, new.shape = self.unknown, self.shape
        new.yielded, new.own = list(self.yielded), list(self.own)
        new.let_go, new.loops = list(self.let_go), list(self.loops)
        new.net = self.net.copy()
        new.solver = self.solver.copy(new.net)
        new.giver = Giver(new.net, new.solver, new.own, new._spend)
        new.giver.given = self.giver.given.copy()
        new._own_before, new._early = {}, self._early
        return new

    def is_stale(self) -> bool:
        """Whether the signal, asked again, has edges elsewhere."""
        return self.lookups.differ(self)

    # ------------------------------------------------------------ from scratch

    def _build(self) -> None:
        """Build until every edge that can be found is found.

        Whether offsets chase themselves for ever is asked again once the edges are known.
        """
        self._start()
        asked_again = False
        for _ in range(2 * len(self.standing.plan.events) + 8):
            try:
                self._lay()
                missing = self._follow_edges()
            except Rebuild as rebuild:
                self._give_in(rebuild.steps)
                continue
            if missing:
                self.unknown |= missing
                self._start()
            elif self.let_go and self.lookups.asked and not asked_again:
                asked_again = True
                self.let_go, self.loops = [], []
            else:
                break
        self.solver.close()

    def _start(self) -> None:
        self.shape = shape(self.standing, self.unknown)
        self.let_go, self.loops = [], []

    def _typed_nodes(self) -> set[int]:
        node = self.net.number.get(self.voice.typed)
        return set() if node is None else {node}

    def _lay(self) -> None:
        """The network and its first solution. Raises Rebuild where a circle is met."""
        self._lay_bounds()
        for link in self.let_go:
            self.net.let_go(link)
        for loop in self.loops:
            self.net.cut(*loop.step)
        try:
            self.solver.solve_latest()
            self.giver.resolve(self.voice, self._typed_nodes())
            self.solver.solve_time()
        except Circle as circle:
            raise Rebuild(circle.steps) from circle

    def _give_in(self, steps: Steps) -> None:
        """Let the offsets in a circle of pushes go, or where it has none, take a limit out."""
        if not self._let_go(steps):
            self._loop(steps)

    def _lay_bounds(self) -> None:
        given = self.shape
        leans = self.lookups.lean(given)
        self.net = network(given.present(), given.ties, given.limits, leans)
        clock = self._clock()
        standing, kept, events = self.standing, given.kept, given.events
        self.own = [bounds(events[name], standing, kept, clock) for name in self.net.ids]
        self._own_before = {}
        for edge in self._between_facts(range(len(self.net))):
            self.net.unbind(*edge)
        extents = [self._extent(node) for node in range(len(self.net))]
        self.solver = Solver(self.net, [low for low, _ in extents], [high for _, high in extents])
        self.giver = Giver(self.net, self.solver, self.own, self._spend)
        self._early = None

    def _extent(self, node: int) -> tuple[float, float]:
        """The own bounds of an event as two numbers.

        An event that only knows when it is over at the latest is put just there.
        """
        its = self.own[node]
        low: float = -INF
        high: float = INF
        for bound in its.lower:
            low = max(low, bound.at_ms)
        for bound in its.upper:
            high = min(high, bound.at_ms)
        if low == -INF and high < INF and not self.net.push_in[node]:
            low = high
        return low, high

    def _let_go(self, steps: Steps) -> bool:
        """Let the offsets in a circle of pushes fall to their least; False if there are none."""
        found = [
            link
            for a, b, w in steps
            for link in self.net.before[b]
            if link.before == a and link.push_ms == w and link.least_ms != w
        ]
        found = [link for link in found if link not in self.let_go]
        self.let_go += found
        return bool(found)

    def _loop(self, steps: Steps) -> None:
        """Hard limits that contradict each other by themselves: the one that gives way."""
        path = Contradiction(steps, steps[0][0], steps[0][0], sum(w for _, _, w in steps))
        members = tuple(name_step(self.net, step) for step in steps)
        self.loops.append(Loop(Named(path, members, None, None), last_limit(steps)))

    # ------------------------------------------------------------ step by step

    def step(self, standing: Standing, edges: Edges, touched: Iterable[str], voice: Voice) -> None:
        """Take new words about some events. Raises Clashes (without force) or Rebuild.

        After either the step must be undone.
        """
        if self.let_go or self.loops:
            raise Rebuild
        self.standing = standing
        self.voice = voice
        self.lookups.use(edges)
        self.yielded = []
        self._early = None
        nodes = {self.net.number[name] for name in touched if name in self.net.number}
        self._change(nodes)
        if self._follow_edges():
            raise Rebuild
        if self.unknown and (self._waits_for_unknown(touched) or self.lookups.finds_again(self)):
            raise Rebuild

    def _waits_for_unknown(self, touched: Iterable[str]) -> bool:
        """Whether one of these, or one whose figure yielded, waits for an event without a time."""
        gone, ties = self.shape.gone, self.shape.ties
        return any(
            gone.get(tie.event) is State.UNKNOWN
            for name in (*touched, *self.yielded)
            for tie in ties.get(name, ())
        )

    def tick(self, now_ms: int) -> None:
        """Let held counts slide to `now_ms`. Raises as `step` does."""
        self.now_ms = now_ms
        held = [name for name, held in self.standing.holds.items() if held.resumed_ms is None]
        self.step(self.standing, self.lookups.edges, held, Voice(self.voice.number))

    def open(self) -> "Kept":
        """What must be kept so that what follows can be undone."""
        self._own_before = {}
        return Kept(
            self.standing,
            self.now_ms,
            self.voice,
            self.lookups.kept(),
            self.given,
            self._early,
        )

    def undo(self, kept: "Kept") -> None:
        """Put everything back as it was at `open`."""
        self.solver.undo()
        self.standing = kept.standing
        self.now_ms = kept.now_ms
        self.voice = kept.voice
        self.lookups.restore(kept.lookups)
        self.giver.given = kept.given
        for node, its in self._own_before.items():
            self.own[node] = its
        self._own_before = {}
        self.yielded = []
        self._early = kept.early

    def close(self) -> None:
        """Keep what was done."""
        self.solver.close()
        self._own_before = {}

    def _clock(self) -> Clockwork:
        return Clockwork(self.now_ms, self.lookups.found)

    def _change(self, nodes: set[int]) -> None:
        """Take new bounds for these events, with everything that had given way back in force."""
        eased, loosened = self.giver.restore()
        for node in nodes | loosened:
            self._rebound(node)
        for edge in self._between_facts(nodes):
            self.solver.unbind(*edge)
        try:
            self.solver.settle_latest()
            self.giver.resolve(self.voice, nodes, eased)
            self.solver.settle_time()
        except Circle as circle:
            raise Rebuild(circle.steps) from circle

    def _between_facts(self, nodes: Iterable[int]) -> set[tuple[int, int, int]]:
        """The limits between these events and others that have happened: facts never quarrel."""
        facts = {self.net.number[f] for f in self.standing.facts if f in self.net.number}
        inner = facts.intersection(nodes)
        leaving = {(a, b, w) for a in inner for b, w in self.net.bind_out[a] if b in facts}
        return leaving | {(a, b, w) for b in inner for a, w in self.net.bind_in[b] if a in facts}

    def _rebound(self, node: int) -> None:
        name = self.net.ids[node]
        self._own_before.setdefault(node, self.own[node])
        self.own[node] = bounds(
            self.shape.events[name], self.standing, self.shape.kept, self._clock()
        )
        self.solver.set_bounds(node, *self._extent(node))

    # ------------------------------------------------------------ edges of the signal

    def _follow_edges(self) -> frozenset[str]:
        """Look up edges whose inputs moved until none moves; those that are not there."""
        moved: list[str] = []
        for _ in range(2 * len(self.lookups.asked) + 2):
            moved = self.lookups.look(self)
            if not moved:
                break
            self._change({self.net.number[name] for name in moved})
        else:
            self.lookups.give_up(moved)
        return self.lookups.missing()

    # ------------------------------------------------------------ reading

    def time_ms(self, name: str) -> int | None:
        """The time of an event, None where it has none."""
        node = self.net.number.get(name)
        if node is None:
            return None
        time = self.solver.time[node]
        return int(time) if -INF < time < INF else None

    def times(self) -> dict[str, int | None]:
        """The time of every event, as `time_ms` gives it, in the plan's order."""
        number, time = self.net.number, self.solver.time
        nodes = ((name, number.get(name)) for name in self.shape.events)
        return {
            name: int(time[node]) if node is not None and -INF < time[node] < INF else None
            for name, node in nodes
        }

    def event(self, name: str) -> Event:
        """The event of that id."""
        return self.shape.events[name]

    @property
    def given(self) -> Given:
        """What has given way."""
        return self.giver.given

    def _spend(self, node: int) -> None:
        """The older figure of an event gives way for good."""
        name = self.net.ids[node]
        self.standing = self.standing.spend(name)
        self.yielded.append(name)
        self._rebound(node)

    def early(self) -> list[float]:
        """The earliest that the hard limits leave each event."""
        if self._early is None:
            lower = {v: self.giver.lower(v) for v in self.given.lower}
            lo = self.solver.lo
            floating = (v for v, its in enumerate(self.own) if not its.lower and lo[v] > -INF)
            lower.update(dict.fromkeys(floating, -INF))
            self._early = earliest(self.solver, lower)
        return self._early


@dataclass(frozen=True, slots=True)
class Kept:
    """The works' own state at the opening of a step."""

    standing: Standing
    now_ms: int
    voice: Voice
    lookups: Looked
    given: Given
    early: list[float] | None
