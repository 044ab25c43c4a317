"""The schedule engine at 100 to 100,000 events, beside general solvers on the same network.

The others solve the hard limits only (the earliest of each event, by Bellman and Ford): no
offsets, no pins that shrink gaps, no explanation. They are asked anew for each revision, for they
keep nothing between two. What would take longer than a few seconds is skipped, and said.

Run it as a script: `.venv/bin/python tests/bench/bench_engine.py`.
"""

import random
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[2]))

import networkx as nx
import numpy as np
import rustworkx as rx
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import bellman_ford

from core.entries.model import Entry, Revise
from core.plan.model import EdgeRef, Event, Plan, Tie
from core.schedule.model import Edges, Found
from core.schedule.schedule import Schedule

SIZES = (100, 1_000, 10_000, 100_000)
CAP_S = 4.0
HEAD_MS = 1_000_000_000
ROWS = 40


class NoEdges:
    """A plan without signal."""

    def told(self, entries: Sequence[Entry]) -> Edges:  # noqa: ARG002 - the protocol's
        """The same."""
        return self

    def needs(self, ref: EdgeRef) -> tuple[str, ...]:  # noqa: ARG002
        """Nothing."""
        return ()

    def find(
        self,
        ref: EdgeRef,  # noqa: ARG002
        event: str,  # noqa: ARG002
        from_ms: int | None,  # noqa: ARG002
        expected: Callable[[str], int | None],  # noqa: ARG002
    ) -> Found | None:
        """None."""
        return None


def make_plan(count: int, *, pins: bool) -> Plan:
    """A plan of chains that branch and join, with mosts, and a fifth pinned if asked for."""
    chance = random.Random(count)
    late_ms = [0]
    events = [Event("e0", "e0", at_ms=HEAD_MS)]
    for at in range(1, count):
        before = max(0, at - chance.randint(1, 8))
        offset_ms = chance.randint(60, 600) * 1000
        other = max(0, at - chance.randint(1, 30))
        joins = chance.random() < 0.3 and other != before
        most_ms = None if joins or chance.random() > 0.3 else offset_ms * 3
        ties = [Tie(f"e{before}", offset_ms, offset_ms // 2, most_ms)]
        time_ms = late_ms[before] + offset_ms
        if joins:
            ties.append(Tie(f"e{other}", 10_000, 0, None))
            time_ms = max(time_ms, late_ms[other] + 10_000)
        pinned = pins and most_ms is None and chance.random() < 0.25
        late_ms.append(time_ms + (300_000 if pinned else 0))
        at_ms = HEAD_MS + late_ms[at] if pinned else None
        events.append(Event(f"e{at}", f"e{at}", at_ms=at_ms, pinned=pinned, ties=tuple(ties)))
    return Plan("bench", ("UTC",), events=tuple(events))


def best(work: Callable[[], object], times: int) -> float:
    """The shortest of so many runs, in milliseconds of the processor, whatever else it does."""
    shortest = float("inf")
    for _ in range(times):
        begun = process_time()
        work()
        shortest = min(shortest, process_time() - begun)
    return shortest * 1000


class Typing:
    """A desk that revises the head again and again, each time by a minute more or less."""

    def __init__(self, plan: Plan) -> None:
        self.board = Schedule(plan, NoEdges(), 0)
        self.number = 0
        self.moved = 0

    def revise(self, by_ms: int) -> None:
        """A revision of the head, with forty rows of it explained."""
        self.number += 1
        entry = Entry(self.number, 0, "", Revise("e0", HEAD_MS + by_ms))
        effect = self.board.take(entry, 0)
        self.moved = max(self.moved, len(effect.moves))
        for row in range(min(ROWS, len(effect.moves))):
            assert effect.moves[row].cause is not None

    def later_and_back(self) -> None:
        """A minute later, and back: two revisions."""
        self.revise(60_000)
        self.revise(0)

    def clash(self) -> None:
        """A figure that cannot hold, or where nothing is pinned one that moves everything far."""
        entry = Entry(self.number + 1, 0, "", Revise("e0", HEAD_MS + 10**10))
        self.board.preview(entry, 0)


def hard_limits(plan: Plan) -> list[tuple[int, int, int]]:
    """The hard limits as edges for a shortest path: from, to, minus how long after."""
    number = {event.id: at for at, event in enumerate(plan.events)}
    edges: list[tuple[int, int, int]] = []
    for at, event in enumerate(plan.events):
        for tie in event.ties:
            before = number[tie.event]
            edges.append((before, at, -(tie.least_ms or 0)))
            if tie.most_ms is not None:
                edges.append((at, before, tie.most_ms))
    return edges


def with_networkx(edges: list[tuple[int, int, int]]) -> Callable[[], object]:
    """Shortest paths from the head by networkx."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_weighted_edges_from(edges)
    return lambda: nx.single_source_bellman_ford_path_length(graph, 0)


def with_scipy(edges: list[tuple[int, int, int]]) -> Callable[[], object]:
    """Shortest paths from the head by scipy."""
    size = 1 + max(max(a, b) for a, b, _ in edges)
    table = np.array(edges, dtype=float)
    # A nought would be no edge at all in a sparse matrix.
    weights = np.where(table[:, 2] == 0, -1e-9, table[:, 2])
    matrix = csr_matrix((weights, (table[:, 0].astype(int), table[:, 1].astype(int))), (size, size))
    return lambda: bellman_ford(matrix, directed=True, indices=[0])


def with_rustworkx(edges: list[tuple[int, int, int]]) -> Callable[[], object]:
    """Shortest paths from the head by rustworkx."""
    graph: rx.PyDiGraph[int, float] = rx.PyDiGraph()
    graph.add_nodes_from(range(1 + max(max(a, b) for a, b, _ in edges)))
    graph.add_edges_from([(a, b, float(w)) for a, b, w in edges])
    return lambda: rx.digraph_bellman_ford_shortest_path_lengths(graph, 0, float)


OTHERS = {"networkx": with_networkx, "scipy": with_scipy, "rustworkx": with_rustworkx}


def beside(edges: list[tuple[int, int, int]], count: int, last: dict[str, float]) -> list[str]:
    """The others on the same hard limits: their time, or why it was not taken."""
    said = []
    for name, make in OTHERS.items():
        guess_s = last.get(name, 0.0) / 1000 * 100
        if guess_s > CAP_S * 10:
            said.append(f"skipped, some {guess_s:.0f} s")
            last[name] = last[name] * 100
            continue
        try:
            took = best(make(edges), 3 if count <= 1000 else 1)
        except nx.NetworkXUnbounded:
            said.append("no answer")
            continue
        last[name] = took
        said.append(f"{took:.2f} ms")
    return said


def main() -> None:
    """Print the two tables."""
    print("engine: milliseconds of one processor, the shortest of several runs")
    print("'revise' moves the head by a minute and explains 40 rows; 'clash/far' cannot hold,")
    print("or, where nothing is pinned, moves everything far")
    print(f"{'events':>8} {'pins':>5} {'build':>9} {'revise':>9} {'moves':>7} {'clash/far':>10}")
    revised: dict[int, float] = {}
    for count in SIZES:
        for pins in (False, True):
            plan = make_plan(count, pins=pins)
            build = best(lambda plan=plan: Schedule(plan, NoEdges(), 0), 3)  # type: ignore[misc]
            desk = Typing(plan)
            revise = best(desk.later_and_back, 5) / 2
            clash = best(desk.clash, 3)
            if not pins:
                revised[count] = revise
            word = "yes" if pins else "no"
            print(
                f"{count:>8} {word:>5} {build:>9.2f} {revise:>9.3f} {desk.moved:>7} {clash:>10.2f}"
            )
    print()
    print("beside others, on the same network without pins. They solve the hard limits only: the")
    print("earliest of each event, without offsets, without gaps that shrink, without explanation.")
    print("'times': how often the engine's revision fits into theirs")
    print(f"{'events':>8} {'engine':>12} " + " ".join(f"{name:>22}" for name in OTHERS))
    last: dict[str, float] = {}
    for count in SIZES:
        said = beside(hard_limits(make_plan(count, pins=False)), count, last)
        mine = f"{revised[count]:.2f} ms"
        print(f"{count:>8} {mine:>12} " + " ".join(f"{one:>22}" for one in said))
        print(f"{'':>8} {'times':>12} " + " ".join(f"{_ratio(one, mine):>22}" for one in said))


def _ratio(other: str, mine: str) -> str:
    if not other.endswith("ms"):
        return "-"
    ratio = float(other.split(maxsplit=1)[0]) / float(mine.split(maxsplit=1)[0])
    return f"x {ratio:.1f}" if ratio >= 1 else f"x {ratio:.2f}"


if __name__ == "__main__":
    main()
