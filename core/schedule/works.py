"""The works: the network with all bounds as they stand, settled; changed step by step.

A step gives new words for some events. The limits that had given way come back first, then who
must give way is found again, then times are settled, then edges of the signal are looked up for
the events whose inputs moved, and so on until nothing moves. A step can be undone exactly.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from core.plan.model import Event
from core.schedule.chase import Circle
from core.schedule.clash import (
    Contradiction,
    Named,
    Steps,
    earliest,
    name_step,
    smallest,
)
from core.schedule.force import LowerGives, StepGives, UpperGives, Yields, last_limit, weakest
from core.schedule.lookup import Looked, Lookups
from core.schedule.model import Constraint, Edges
from core.schedule.network import Link, Network, network
from core.schedule.shape import Shape, shape
from core.schedule.solve import INF, Solver
from core.schedule.standing import Bound, Bounds, Clockwork, Standing, bounds


class Rebuild(Exception):
    """The step changes which events are there, or what pushes: it cannot be done in place.

    `steps`: the circle of pushes that was met, if that is why.
    """

    def __init__(self, steps: Steps = ()) -> None:
        super().__init__(steps)
        self.steps = steps


class Clashes(Exception):
    """A step without force that contradicts what stands."""

    def __init__(self, named: Named, works: "Works") -> None:
        super().__init__(named)
        self.named = named
        self.works = works


@dataclass(frozen=True, slots=True)
class Step:
    """Whose word a step is. `typed` is the event it is about; `force` lets others give way."""

    number: int
    typed: str = ""
    force: bool = True


@dataclass(slots=True)
class Given:
    """What has given way: lower bounds by event, upper bounds by event, limits; and why."""

    lower: dict[int, tuple[Bound, ...]] = field(default_factory=dict)
    upper: dict[int, tuple[Bound, ...]] = field(default_factory=dict)
    steps: dict[tuple[int, int, int], int] = field(default_factory=dict)
    """The limits that are eased, as they are now, with the length they were written with."""
    sets: list[Named] = field(default_factory=list)

    def members(self) -> set[Constraint]:
        """All bounds and limits that take part in a contradiction."""
        return {member for named in self.sets for member in named.members}


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
    given: Given
    yielded: list[str]

    def __init__(
        self,
        standing: Standing,
        edges: Edges,
        now_ms: int,
        step: Step,
        before: Lookups | None = None,
        unknown: frozenset[str] = frozenset(),
    ) -> None:
        self.standing = standing
        self.now_ms = now_ms
        self.step_now = step
        self.lookups = Lookups(edges, before)
        self.unknown = unknown
        self.yielded = []
        self._own_before: dict[int, Bounds] = {}
        self._early: list[float] | None = None
        self._build()

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
        node = self.net.number.get(self.step_now.typed)
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
            self._resolve(self._typed_nodes())
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
        self.given = Given()
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

    def step(self, standing: Standing, edges: Edges, touched: Iterable[str], step: Step) -> None:
        """Take new words about some events. Raises Clashes (without force) or Rebuild.

        After either the step must be undone.
        """
        if self.let_go or self.loops:
            raise Rebuild
        self.standing = standing
        self.step_now = step
        self.lookups.use(edges)
        self.yielded = []
        self._early = None
        nodes = {self.net.number[name] for name in touched if name in self.net.number}
        self._change(nodes)
        if self._follow_edges() or self.unknown:
            raise Rebuild

    def tick(self, now_ms: int) -> None:
        """Let held counts slide to `now_ms`. Raises as `step` does."""
        self.now_ms = now_ms
        held = [name for name, held in self.standing.holds.items() if held.resumed_ms is None]
        self.step(self.standing, self.lookups.edges, held, Step(self.step_now.number))

    def open(self) -> "Kept":
        """What must be kept so that what follows can be undone."""
        self._own_before = {}
        return Kept(
            self.standing,
            self.now_ms,
            self.step_now,
            self.lookups.kept(),
            self.given,
            self._early,
        )

    def undo(self, kept: "Kept") -> None:
        """Put everything back as it was at `open`."""
        self.solver.undo()
        self.standing = kept.standing
        self.now_ms = kept.now_ms
        self.step_now = kept.step
        self.lookups.restore(kept.lookups)
        self.given = kept.given
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
        return Clockwork(self.now_ms, self.lookups.found, self.lookups.moved_by)

    def _change(self, nodes: set[int]) -> None:
        """Take new bounds for these events, with everything that had given way back in force."""
        eased = self._restore()
        for node in nodes:
            self._rebound(node)
        for edge in self._between_facts(nodes):
            self.solver.unbind(*edge)
        try:
            self.solver.settle_latest()
            self._resolve(nodes, eased)
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

    def _restore(self) -> set[int]:
        """Put everything that had given way back in force; those whose lower bound had."""
        given = self.given
        self.given = Given()
        for (a, b, w), written in given.steps.items():
            self.solver.unbind(a, b, w)
            self.solver.bind(a, b, written)
        for node in given.upper:
            self._rebound(node)
        return set(given.lower)

    # ------------------------------------------------------------ contradictions

    def _resolve(self, fresh: set[int], eased: Iterable[int] = ()) -> None:
        """Find who gives way until the rest can be met."""
        solver = self.solver
        lo, latest = solver.lo, solver.latest
        if solver.time:
            asked = set(solver.old_latest) | set(solver.old_lo) | set(eased)
            bad = {v for v in asked if lo[v] > latest[v]}
        else:
            bad = {v for v, low in enumerate(lo) if low > latest[v]}
        if not bad:
            return
        if not self.step_now.force:
            bad = self._spend_or_clash(bad, fresh)
        for _ in range(4 * len(self.net) + 4):
            named = self._worst(bad, None)
            if named is None:
                return
            self._give_way(named, bad)

    def _lower(self, node: int) -> float:
        """The lower bound of an event without what has given way."""
        given = self.given.lower.get(node)
        if given is None:
            return self.solver.lo[node]
        left = [b.at_ms for b in self.own[node].lower if b not in given]
        return max(left, default=-INF)

    def _worst(self, bad: set[int], ends: set[int] | None) -> Named | None:
        seeds = {v: self._lower(v) for v in bad if self.own[v].lower}
        path = smallest(self.solver, seeds, ends)
        return None if path is None else self._named(path)

    def _named(self, path: Contradiction) -> Named:
        low_ms = self._lower(path.first)
        given = self.given.lower.get(path.first, ())
        low = next(b for b in self.own[path.first].lower if b.at_ms == low_ms and b not in given)
        high_ms = self.solver.hi[path.last]
        high = next(b for b in self.own[path.last].upper if b.at_ms == high_ms)
        ids = self.net.ids
        steps = tuple(self.constraint(step) for step in path.steps)
        members = (
            Constraint(low.kind, ids[path.first]),
            *steps,
            Constraint(high.kind, ids[path.last]),
        )
        return Named(path, members, low, high)

    def _spend_or_clash(self, bad: set[int], fresh: set[int]) -> set[int]:
        """Let older figures that are pushed past give way; what else is new is a clash."""
        typed = self.net.number.get(self.step_now.typed)
        for node in sorted(fresh):
            while True:
                named = self._through(node, bad)
                if named is None:
                    break
                gives = weakest(named, typed)
                if not isinstance(gives, Yields) or self._is_before_typed(gives.node, typed):
                    raise Clashes(named, self)
                self._give_way(named, bad)
        return bad

    def _through(self, node: int, bad: set[int]) -> Named | None:
        """The smallest contradiction that starts or ends at an event."""
        forward = self._worst({node}, None) if node in bad else None
        ending = self._worst(bad - {node}, {node})
        if forward is None or ending is None:
            return forward or ending
        return min(forward, ending, key=lambda named: len(named.members))

    def _is_before_typed(self, node: int, typed: int | None) -> bool:
        return typed is not None and node in self.net.upstream(typed)

    def _give_way(self, named: Named, bad: set[int]) -> None:
        typed = self.net.number.get(self.step_now.typed)
        gives = weakest(named, typed)
        self.given.sets.append(named)
        given = self.given
        match gives:
            case Yields(node):
                self.given.sets.pop()
                self._spend(node)
            case LowerGives(node, bound):
                given.lower[node] = (*given.lower.get(node, ()), bound)
            case UpperGives(node, bound):
                given.upper[node] = (*given.upper.get(node, ()), bound)
                left = [b.at_ms for b in self.own[node].upper if b not in given.upper[node]]
                self.solver.set_bounds(node, self.solver.lo[node], min(left, default=INF))
            case StepGives((a, b, w)):
                written = given.steps.pop((a, b, w), w)
                eased = w - named.path.over_ms
                given.steps[a, b, eased] = written
                self.solver.unbind(a, b, w)
                self.solver.bind(a, b, eased)
        self._settle_bad(bad)

    def _spend(self, node: int) -> None:
        name = self.net.ids[node]
        self.standing = self.standing.spend(name)
        self.yielded.append(name)
        self._rebound(node)

    def _settle_bad(self, bad: set[int]) -> None:
        """`latest` after something gave way; `bad` brought up to date in place."""
        solver = self.solver
        solver.settle_latest()
        asked = set(bad) | set(solver.old_latest) | set(solver.old_lo)
        bad.clear()
        bad |= {v for v in asked if self._lower(v) > solver.latest[v]}

    # ------------------------------------------------------------ edges of the signal

    def _follow_edges(self) -> frozenset[str]:
        """Look up edges whose inputs moved until none moves; those that are not there."""
        moved: list[str] = []
        for _ in range(2 * len(self.lookups.asked) + 2):
            moved = self.lookups.look(self, self.step_now.number)
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

    def event(self, name: str) -> Event:
        """The event of that id."""
        return self.shape.events[name]

    def constraint(self, step: tuple[int, int, int]) -> Constraint:
        """The tie's or limit's bound that an edge of the network stands for."""
        a, b, w = step
        return name_step(self.net, (a, b, self.given.steps.get(step, w)))

    def early(self) -> list[float]:
        """The earliest that the hard limits leave each event."""
        if self._early is None:
            lower = {v: self._lower(v) for v in self.given.lower}
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
    step: Step
    lookups: Looked
    given: Given
    early: list[float] | None
