"""Why bounds cannot all hold: the smallest set of bounds and limits that contradict each other.

Such a set is a path of hard limits from an event's lower bound to an event's upper bound (or a
circle of hard limits by itself). With as few members as can be it is irreducible: take any one
away and the rest can be met.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from core.schedule.model import Constraint, Kind
from core.schedule.network import Network
from core.schedule.solve import INF, Solver
from core.schedule.standing import Bound

Step = tuple[int, int, int]
Steps = tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Contradiction:
    """A path of hard limits from the lower bound of its first event to the upper of its last."""

    steps: Steps
    first: int
    last: int
    over_ms: int


@dataclass(frozen=True, slots=True)
class Named:
    """A contradiction with its members named. `low` and `high` are None for a mere circle."""

    path: Contradiction
    members: tuple[Constraint, ...]
    low: Bound | None
    high: Bound | None


def smallest(
    solver: Solver, seeds: Mapping[int, float], ends: Collection[int] | None
) -> Contradiction | None:
    """The smallest contradiction that starts at one of the seeds (lower bounds, by event).

    `ends` None: at whatever upper bound it ends. Only where a value lies above `latest` can
    anything beyond it contradict; all else is left out.
    """
    latest, hi, bind_out = solver.latest, solver.hi, solver.net.bind_out
    front = {v: value for v, value in seeds.items() if value > latest[v]}
    best = dict(front)
    layers: list[dict[int, tuple[int, int]]] = []
    for _ in range(len(solver.net) + 1):
        end = _broken_end(front, hi, ends)
        if end is not None:
            return _path(end, int(front[end] - hi[end]), layers)
        ahead: dict[int, float] = {}
        came: dict[int, tuple[int, int]] = {}
        for a in sorted(front):
            value = front[a]
            for b, w in bind_out[a]:
                y = value + w
                if y > best.get(b, latest[b]):
                    best[b] = ahead[b] = y
                    came[b] = (a, w)
        if not ahead:
            return None
        layers.append(came)
        front = ahead
    return None


def _broken_end(
    front: Mapping[int, float], hi: list[float], ends: Collection[int] | None
) -> int | None:
    over = [(hi[v] - value, v) for v, value in front.items() if value > hi[v]]
    if ends is not None:
        over = [(short, v) for short, v in over if v in ends]
    return min(over)[1] if over else None


def _path(end: int, over_ms: int, layers: list[dict[int, tuple[int, int]]]) -> Contradiction:
    steps: list[Step] = []
    at = end
    for came in reversed(layers):
        a, w = came[at]
        steps.append((a, at, w))
        at = a
    return Contradiction(tuple(reversed(steps)), at, end, over_ms)


def name_step(net: Network, step: Step) -> Constraint:
    """The tie's or limit's bound that an edge of the binding graph stands for."""
    a, b, w = step
    for link in net.before[b]:
        if link.before == a and link.least_ms == w:
            return Constraint(Kind.LEAST, net.ids[a], net.ids[b])
    return Constraint(Kind.MOST, net.ids[b], net.ids[a])


def earliest_of(solver: Solver, node: int, lower: Mapping[int, float]) -> float:
    """The longest path of hard limits to an event: no time before it can be met.

    `lower` overrides own lower bounds. Its own is not counted.
    """
    lo, bind_in = solver.lo, solver.net.bind_in
    gap = {node: 0}
    queue = [node]
    best = -INF
    steps, bound = 0, 64 + 8 * sum(1 for _ in solver.lo) * 8
    while queue and steps < bound:
        following: set[int] = set()
        for b in queue:
            for a, w in bind_in[b]:
                steps += 1
                y = gap[b] + w
                if a != node and y > gap.get(a, -INF):
                    gap[a] = y
                    following.add(a)
        queue = sorted(following)
    for v, w in gap.items():
        if v != node:
            best = max(best, lower.get(v, lo[v]) + w)
    return best


def earliest(solver: Solver, lower: Mapping[int, float]) -> list[float]:
    """The longest lower path to every event: the earliest that the hard limits leave it.

    `lower` overrides own lower bounds that have given way. -INF: open.
    """
    lo, latest, net = solver.lo, solver.latest, solver.net
    early = list(lo)
    for v, value in lower.items():
        early[v] = value
    dirty = bytearray(len(early))
    bind_in, bind_out = net.bind_in, net.bind_out
    for v, x in enumerate(early):
        best = x
        for a, w in bind_in[v]:
            y = early[a] + w
            if y > best and a < v:
                best = y
        early[v] = min(best, latest[v])
        for b, w in bind_out[v]:
            if b < v and early[v] + w > early[b]:
                dirty[v] = 1
    steps, bound = 0, 64 * len(early) + 64
    v = dirty.find(1)
    while v >= 0 and steps < bound:
        dirty[v] = 0
        low = v
        for b, w in bind_out[v]:
            y = min(early[v] + w, latest[b])
            if y > early[b]:
                early[b] = y
                dirty[b] = 1
                steps += 1
                low = min(low, b)
        v = dirty.find(1, low)
    return early
