"""Who gives way: older figures for good, planned times, windows and limits as long as they must."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from core.schedule.clash import Contradiction, Named, Step, name_step, smallest
from core.schedule.force import (
    YIELDING,
    GivesWay,
    LowerGives,
    StepGives,
    UpperGives,
    Yields,
    weakest,
)
from core.schedule.model import Constraint, Kind
from core.schedule.network import Network
from core.schedule.solve import INF, Solver
from core.schedule.standing import Bound, Bounds


class Clashes(Exception):
    """A step without force that contradicts what stands."""

    def __init__(self, named: Named, giver: "Giver") -> None:
        super().__init__(named)
        self.named = named
        self.giver = giver


@dataclass(frozen=True, slots=True)
class Voice:
    """Whose word a step is. `typed` is the event it is about; `force` lets others give way."""

    number: int
    typed: str = ""
    force: bool = True


@dataclass(frozen=True, slots=True)
class Eased:
    """A hard limit that is eased: as it is now, and how long it was written."""

    step: Step
    written_ms: int


@dataclass(slots=True)
class Given:
    """What has given way: lower bounds by event, upper bounds by event, limits; and why.

    `pulled` are the reasons for which a planned time comes earlier, as it may: nothing is amiss.
    """

    lower: dict[int, tuple[Bound, ...]] = field(default_factory=dict)
    upper: dict[int, tuple[Bound, ...]] = field(default_factory=dict)
    steps: list[Eased] = field(default_factory=list)
    sets: list[Named] = field(default_factory=list)
    pulled: list[Named] = field(default_factory=list)

    def copy(self) -> "Given":
        """The same, to be changed apart from this."""
        return Given(
            dict(self.lower),
            dict(self.upper),
            list(self.steps),
            list(self.sets),
            list(self.pulled),
        )

    def members(self) -> set[Constraint]:
        """All bounds and limits that take part in a contradiction."""
        return {member for named in (*self.sets, *self.pulled) for member in named.members}

    def overruled(self, node: int) -> tuple[Bound, ...]:
        """The lower bounds of an event that something contradicts which may not pull it."""
        may = {(p.path.first, p.low) for p in self.pulled}
        return tuple(bound for bound in self.lower[node] if (node, bound) not in may)


class Giver:
    """Finds what contradicts each other in a solver, and lets the weakest give way.

    `spend` is told the events whose older figure gives way for good.
    """

    def __init__(
        self, net: Network, solver: Solver, own: list[Bounds], spend: Callable[[int], None]
    ) -> None:
        self.net = net
        self.solver = solver
        self.own = own
        self.given = Given()
        self._spend = spend
        self._typed: int | None = None

    def restore(self) -> tuple[set[int], set[int]]:
        """Put everything that had given way back in force.

        Gives the events whose lower bound had given way, and those whose upper bound had: their
        bounds must be set anew.
        """
        given = self.given
        self.given = Given()
        for eased in given.steps:
            a, b, w = eased.step
            self.solver.unbind(a, b, w)
            self.solver.bind(a, b, eased.written_ms)
        return set(given.lower), set(given.upper)

    def constraint(self, step: Step) -> Constraint:
        """The tie's or limit's bound that an edge of the network stands for."""
        a, b, w = step
        eased = self._eased(step)
        return name_step(self.net, (a, b, w if eased is None else eased.written_ms))

    def lower(self, node: int) -> float:
        """The lower bound of an event without what has given way."""
        given = self.given.lower.get(node)
        if given is None:
            return self.solver.lo[node]
        left = [b.at_ms for b in self.own[node].lower if b not in given]
        return max(left, default=-INF)

    def _eased(self, step: Step) -> Eased | None:
        return next((eased for eased in self.given.steps if eased.step == step), None)

    def resolve(self, voice: Voice, fresh: set[int], eased: Iterable[int] = ()) -> None:
        """Find who gives way until the rest can be met.

        `fresh` are the events whose bounds are new. Raises Clashes without force.
        """
        self._typed = self.net.number.get(voice.typed)
        solver = self.solver
        lo, latest = solver.lo, solver.latest
        if solver.time:
            asked = set(solver.old_latest) | set(solver.old_lo) | set(eased)
            bad = {v for v in asked if lo[v] > latest[v]}
        else:
            bad = {v for v, low in enumerate(lo) if low > latest[v]}
        if not bad:
            return
        if not voice.force:
            bad = self._spend_or_clash(bad, fresh)
        for _ in range(4 * len(self.net) + 4):
            named = self._worst(bad, None)
            if named is None:
                return
            self._give_way(named, bad)

    def _worst(self, bad: set[int], ends: set[int] | None) -> Named | None:
        seeds = {v: self.lower(v) for v in bad if self.own[v].lower}
        path = smallest(self.solver, seeds, ends)
        return None if path is None else self._named(path)

    def _named(self, path: Contradiction) -> Named:
        low_ms = self.lower(path.first)
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
        for node in sorted(fresh):
            while True:
                named = self._through(node, bad)
                if named is None:
                    break
                gives = weakest(named, self._typed)
                if not isinstance(gives, Yields) or self._is_before_typed(gives.node):
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

    def _is_before_typed(self, node: int) -> bool:
        typed = self._typed
        return typed is not None and node in self.net.upstream(typed)

    def _give_way(self, named: Named, bad: set[int]) -> None:
        gives = weakest(named, self._typed)
        given = self.given
        (given.pulled if _may_pull(named, gives) else given.sets).append(named)
        match gives:
            case Yields(node):
                # What gave way before may not have to, now that the figure has gone.
                self._spend(node)
                bad |= self._start_again()
            case LowerGives(node, bound):
                given.lower[node] = (*given.lower.get(node, ()), bound)
            case UpperGives(node, bound):
                given.upper[node] = (*given.upper.get(node, ()), bound)
                left = [b.at_ms for b in self.own[node].upper if b not in given.upper[node]]
                self.solver.set_bounds(node, self.solver.lo[node], min(left, default=INF))
            case StepGives(step):
                self._ease(step, named.path.over_ms)
        self._settle_bad(bad)

    def _start_again(self) -> set[int]:
        """Put back what has given way in this step; those whose lower bound had."""
        eased, loosened = self.restore()
        for node in loosened:
            high = min((b.at_ms for b in self.own[node].upper), default=INF)
            self.solver.set_bounds(node, self.solver.lo[node], high)
        return eased

    def _ease(self, step: Step, by_ms: int) -> None:
        """Shorten a hard limit by as much as it takes."""
        a, b, w = step
        before = self._eased(step)
        if before is not None:
            self.given.steps.remove(before)
        written_ms = w if before is None else before.written_ms
        self.given.steps.append(Eased((a, b, w - by_ms), written_ms))
        self.solver.unbind(a, b, w)
        self.solver.bind(a, b, w - by_ms)

    def _settle_bad(self, bad: set[int]) -> None:
        """`latest` after something gave way; `bad` brought up to date in place."""
        solver = self.solver
        solver.settle_latest()
        asked = set(bad) | set(solver.old_latest) | set(solver.old_lo)
        bad.clear()
        bad |= {v for v in asked if self.lower(v) > solver.latest[v]}


def _may_pull(named: Named, gives: GivesWay) -> bool:
    """Whether a planned time comes earlier for a fact or a forced figure, as it may."""
    if not isinstance(gives, LowerGives) or gives.bound.kind not in YIELDING or named.high is None:
        return False
    return named.high.kind is Kind.FACT or named.high.forced
