"""Earliest and latest times, and the members of a clash, against networkx on random networks."""

import math

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from core.entries.model import Entry, Happened, Revise
from core.plan.model import Plan, Window
from core.schedule.model import Constraint, Kind
from core.schedule.schedule import Schedule
from tests.core.schedule.signal_fake import FakeEdges
from tests.core.schedule.strategies import DAY, MINUTE, plans

Edge = tuple[str, str, int]
ORIGIN = "origin"

SOME = settings(max_examples=120, derandomize=True, deadline=None)


def bounds_of(plan: Plan, figure: tuple[str, int] | None) -> dict[Constraint, list[Edge]]:
    """Every bound of a plan, as edges (a, b, w) that say t(b) - t(a) <= w."""
    found: dict[Constraint, list[Edge]] = {}

    def bound(kind: Kind, of: str, to: str | None, *edges: Edge) -> None:
        found.setdefault(Constraint(kind, of, to), []).extend(edges)

    for event in plan.events:
        name, at_ms = event.id, event.at_ms
        if figure is not None and figure[0] == name:
            kind = Kind.PIN if event.pinned and at_ms is not None else Kind.FIGURE
            bound(kind, name, None, (ORIGIN, name, figure[1]), (name, ORIGIN, -figure[1]))
        elif at_ms is not None:
            bound(Kind.PIN if event.pinned else Kind.PLANNED, name, None, (name, ORIGIN, -at_ms))
            if event.pinned:
                bound(Kind.PIN, name, None, (ORIGIN, name, at_ms))
        window = event.window or Window(None, None)
        if window.not_before_ms is not None:
            bound(Kind.NOT_BEFORE, name, None, (name, ORIGIN, -window.not_before_ms))
        if window.not_after_ms is not None:
            bound(Kind.NOT_AFTER, name, None, (ORIGIN, name, window.not_after_ms))
        for tie in event.ties:
            if tie.least_ms is not None:
                bound(Kind.LEAST, tie.event, name, (name, tie.event, -tie.least_ms))
            if tie.most_ms is not None:
                bound(Kind.MOST, tie.event, name, (tie.event, name, tie.most_ms))
    for limit in plan.limits:
        most_ms = limit.most_ms or 0
        bound(Kind.MOST, limit.before, limit.after, (limit.before, limit.after, most_ms))
    return found


def graph_of(edges: list[Edge]) -> "nx.DiGraph[str]":
    """The edges as a graph of shortest paths, the tightest of each pair."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_node(ORIGIN)
    for a, b, w in edges:
        if not graph.has_edge(a, b) or graph[a][b]["weight"] > w:
            graph.add_edge(a, b, weight=w)
    return graph


def contradicts(edges: list[Edge]) -> bool:
    """Whether the bounds cannot all hold."""
    return nx.negative_edge_cycle(graph_of(edges))


@SOME
@given(plans(edges=False))
def test_earliest_and_latest_are_shortest_paths(plan: Plan) -> None:
    board = Schedule(plan, FakeEdges(), 0)
    edges = [edge for its in bounds_of(plan, None).values() for edge in its]
    if contradicts(edges):
        assert board.clash is not None
        return
    assert board.clash is None
    graph = graph_of(edges)
    latest = nx.single_source_bellman_ford_path_length(graph, ORIGIN)
    earliest = nx.single_source_bellman_ford_path_length(graph.reverse(), ORIGIN)
    for name in board.events:
        line = board.line(name)
        assert line.latest_ms == _whole(latest.get(name, math.inf))
        assert line.earliest_ms == _whole(-earliest.get(name, math.inf))


def _whole(value: float) -> int | None:
    return None if math.isinf(value) else int(value)


@SOME
@given(plans(edges=False), st.integers(0, 8), st.integers(80, 180))
def test_a_clash_names_an_irreducible_set_with_the_figure_in_it(
    plan: Plan, at: int, minute: int
) -> None:
    name, time_ms = f"e{at % len(plan.events)}", minute * MINUTE
    board = Schedule(plan, FakeEdges(), 0)
    if board.clash is not None:
        return
    clash = board.take(Entry(1, DAY, "", Revise(name, time_ms)), DAY).clash
    bounds = bounds_of(plan, (name, time_ms))
    everything = [edge for its in bounds.values() for edge in its]
    assert (clash is not None) == contradicts(everything)
    if clash is None:
        return
    members = [bounds[member] for member in clash.set]
    assert contradicts([edge for its in members for edge in its])
    assert any(c.of == name and c.kind in (Kind.FIGURE, Kind.PIN) for c in clash.set)
    for left_out in range(len(members)):
        rest = [edge for at, its in enumerate(members) for edge in its if at != left_out]
        assert not contradicts(rest)
    for fits_ms in (clash.fits_from_ms, clash.fits_until_ms):
        if fits_ms is not None:
            fits = board.preview(Entry(1, DAY, "", Revise(name, fits_ms)), DAY)
            assert fits.clash is None
    if clash.fits_until_ms is not None and clash.fits_until_ms < time_ms:
        late = Entry(1, DAY, "", Revise(name, clash.fits_until_ms + 1))
        assert board.preview(late, DAY).clash is not None


@SOME
@given(plans(edges=False), st.integers(0, 8), st.integers(80, 180))
def test_a_forced_figure_and_a_fact_stand_to_the_millisecond(
    plan: Plan, at: int, minute: int
) -> None:
    name, time_ms = f"e{at % len(plan.events)}", minute * MINUTE
    for action in (Revise(name, time_ms), Happened(name, time_ms)):
        board = Schedule(plan, FakeEdges(), 0)
        effect = board.take(Entry(1, DAY, "", action, forced=True), DAY)
        assert effect.clash is None
        assert board.expected_ms(name) == time_ms
        pinned = [e for e in plan.events if e.pinned and e.at_ms is not None and e.id != name]
        assert all(board.expected_ms(event.id) == event.at_ms for event in pinned)
