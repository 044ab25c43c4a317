"""The network: events by number in the order of their ties, and what pushes and binds between them.

Two graphs over the same numbers. *Pushes* are what the least fix-point climbs: a tie's larger of
offset and least from the earlier event to the later, and minus a most from the later to the
earlier. *Binds* are the hard limits alone: leasts and mosts. An edge (a, b, w) says t(b) >= t(a)+w.
"""

from collections import deque
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from core.plan.model import Limit, Tie

Row = list[tuple[int, int]]
Edges = list[Row]


class Link(NamedTuple):
    """A tie or limit between two numbered events."""

    before: int
    after: int
    offset_ms: int | None
    least_ms: int | None
    most_ms: int | None
    limit: bool = False

    @property
    def push_ms(self) -> int | None:
        """How long after `before` the later event wants to be."""
        if self.offset_ms is None:
            return self.least_ms
        if self.least_ms is None:
            return self.offset_ms
        return max(self.offset_ms, self.least_ms)


@dataclass(slots=True)
class Network:
    """The numbered events with their links. Only events that are there are numbered."""

    ids: list[str]
    number: dict[str, int]
    before: list[list[Link]]
    """The links into each event."""
    after: list[list[Link]]
    """The links out of each event."""
    push_in: Edges
    push_out: Edges
    bind_in: Edges
    bind_out: Edges
    pulling: set[int]
    """The events that may push one numbered before them (the later end of a most)."""
    waiting: set[int]
    """The events that one numbered after them may push."""

    def __len__(self) -> int:
        return len(self.ids)

    def copy(self) -> "Network":
        """The same network, whose hard limits may be taken out and put back apart from these."""
        return replace(self, bind_in=list(self.bind_in), bind_out=list(self.bind_out))

    def upstream(self, node: int) -> set[int]:
        """All that comes before an event through ties and limits, without itself."""
        return _reach(node, self.before, lambda link: link.before)

    def downstream(self, node: int) -> set[int]:
        """All that comes after an event through ties and limits, without itself."""
        return _reach(node, self.after, lambda link: link.after)

    def let_go(self, link: Link) -> None:
        """Let a tie's offset fall to its least, for it would chase itself for ever."""
        push_ms = link.push_ms
        if push_ms is None:
            return
        self.push_in[link.after].remove((link.before, push_ms))
        self.push_out[link.before].remove((link.after, push_ms))
        if link.least_ms is not None:
            self.push_in[link.after].append((link.before, link.least_ms))
            self.push_out[link.before].append((link.after, link.least_ms))

    def cut(self, start: int, to: int, by_ms: int) -> None:
        """Take a hard limit out for good, its push with it."""
        self.unbind(start, to, by_ms)
        if (start, by_ms) in self.push_in[to]:
            self.push_in[to].remove((start, by_ms))
            self.push_out[start].remove((to, by_ms))

    def unbind(self, start: int, to: int, by_ms: int) -> None:
        """Take a hard limit out of the binding graph."""
        self.bind_out[start] = _without(self.bind_out[start], (to, by_ms))
        self.bind_in[to] = _without(self.bind_in[to], (start, by_ms))

    def bind(self, start: int, to: int, by_ms: int) -> None:
        """Put a hard limit back into the binding graph."""
        self.bind_out[start] = [*self.bind_out[start], (to, by_ms)]
        self.bind_in[to] = [*self.bind_in[to], (start, by_ms)]


def network(
    ids: Sequence[str],
    ties: Mapping[str, Sequence[Tie]],
    limits: Iterable[Limit],
    leans: Mapping[str, Sequence[str]],
) -> Network:
    """The network of these events. Ties to events that are not among them are left out.

    `leans` names, for an event on an edge of the signal, the events that the edge depends on: it
    is numbered after them.
    """
    order = _order(ids, ties, leans)
    number = {name: place for place, name in enumerate(order)}
    links: list[Link] = []
    for place, name in enumerate(order):
        for tie in ties[name]:
            start = number.get(tie.event)
            if start is not None and start != place:
                links.append(Link(start, place, tie.offset_ms, tie.least_ms, tie.most_ms))
    for limit in limits:
        first, last = number.get(limit.before), number.get(limit.after)
        if first is not None and last is not None and first != last:
            links.append(Link(first, last, None, limit.least_ms, limit.most_ms, limit=True))
    before, after, push_in, push_out, bind_in, bind_out = _rows(len(order))
    net = Network(order, number, before, after, push_in, push_out, bind_in, bind_out, set(), set())
    _lay(net, links)
    return net


def _without(row: Row, edge: tuple[int, int]) -> Row:
    """A row without one of its edges: a new one, for a copy of the network may share the old."""
    left = list(row)
    left.remove(edge)
    return left


def _rows(count: int) -> tuple[list[list[Link]], list[list[Link]], Edges, Edges, Edges, Edges]:
    """An empty row for each event, for links and edges."""
    links: list[list[list[Link]]] = [[[] for _ in range(count)] for _ in range(2)]
    edges: list[Edges] = [[[] for _ in range(count)] for _ in range(4)]
    return links[0], links[1], edges[0], edges[1], edges[2], edges[3]


def _lay(net: Network, links: Iterable[Link]) -> None:
    into, out = net.before, net.after
    push_in, push_out, bind_in, bind_out = net.push_in, net.push_out, net.bind_in, net.bind_out
    for link in links:
        before, after, offset_ms, least_ms, most_ms, _ = link
        if most_ms is not None or before > after:
            net.pulling.update((after, before) if before > after else (after,))
            net.waiting.update((after, before) if before > after else (before,))
        into[after].append(link)
        out[before].append(link)
        push_ms = least_ms
        if least_ms is not None:
            bind_in[after].append((before, least_ms))
            bind_out[before].append((after, least_ms))
            if offset_ms is not None and offset_ms > least_ms:
                push_ms = offset_ms
        elif offset_ms is not None:
            push_ms = offset_ms
        if push_ms is not None:
            push_in[after].append((before, push_ms))
            push_out[before].append((after, push_ms))
        if most_ms is not None:
            back, forth = (after, -most_ms), (before, -most_ms)
            push_in[before].append(back)
            push_out[after].append(forth)
            bind_in[before].append(back)
            bind_out[after].append(forth)


def _order(
    ids: Sequence[str], ties: Mapping[str, Sequence[Tie]], leans: Mapping[str, Sequence[str]]
) -> list[str]:
    """The events, each after those it is tied to; events in a circle come last, as given."""
    seen: set[str] = set()
    waiting: set[str] = set()
    for name in ids:
        seen.add(name)
        for tie in ties[name]:
            if tie.event not in seen:
                waiting.add(tie.event)
        if name in leans:
            waiting.update(event for event in leans[name] if event not in seen)
    known = seen
    return _sorted(ids, known, ties, leans) if waiting & known else list(ids)


def _sorted(
    ids: Sequence[str],
    known: set[str],
    ties: Mapping[str, Sequence[Tie]],
    leans: Mapping[str, Sequence[str]],
) -> list[str]:
    waits: dict[str, int] = {}
    followers: dict[str, list[str]] = {name: [] for name in ids}
    for name in ids:
        firsts = {t.event for t in ties.get(name, ())} | set(leans.get(name, ()))
        firsts = {first for first in firsts if first in known and first != name}
        waits[name] = len(firsts)
        for first in firsts:
            followers[first].append(name)
    ready = deque(name for name in ids if not waits[name])
    order: list[str] = []
    while ready:
        name = ready.popleft()
        order.append(name)
        for follower in followers[name]:
            waits[follower] -= 1
            if not waits[follower]:
                ready.append(follower)
    placed = set(order)
    return order + [name for name in ids if name not in placed]


def _reach(node: int, links: list[list[Link]], end: Callable[[Link], int]) -> set[int]:
    found: set[int] = set()
    stack = [node]
    while stack:
        for link in links[stack.pop()]:
            other = end(link)
            if other not in found:
                found.add(other)
                stack.append(other)
    found.discard(node)
    return found
