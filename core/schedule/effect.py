"""What an entry does, as the desk is told: moves, stays, squeezed gaps, broken limits."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TypeVar, overload

from core.schedule.clash import name_step
from core.schedule.explain import Picture, cause
from core.schedule.model import Broken, Constraint, Kind, Move, MoveKind, Squeeze, Stay
from core.schedule.network import Link
from core.schedule.solve import INF
from core.schedule.works import Works

T = TypeVar("T")

_STANDS = (Kind.FACT, Kind.PIN, Kind.FIGURE, Kind.EDGE)


class Later(Sequence[T]):
    """A sequence whose members are worked out when they are read."""

    def __init__(self, count: int, make: Callable[[int], T]) -> None:
        self._made: list[T | None] = [None] * count
        self._make = make

    def __len__(self) -> int:
        return len(self._made)

    @overload
    def __getitem__(self, at: int) -> T: ...

    @overload
    def __getitem__(self, at: slice) -> Sequence[T]: ...

    def __getitem__(self, at: int | slice) -> T | Sequence[T]:
        if isinstance(at, slice):
            return tuple(self[i] for i in range(*at.indices(len(self))))
        made = self._made[at]
        if made is None:
            made = self._make(range(len(self._made))[at])
            self._made[at] = made
        return made

    def __iter__(self) -> Iterator[T]:
        for at, known in enumerate(self._made):
            yield self[at] if known is None else known

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and tuple(self) == tuple(other)

    def __hash__(self) -> int:
        return hash(tuple(self))

    def __repr__(self) -> str:
        return repr(tuple(self))


class Whole(Sequence[T]):
    """A sequence that is worked out as a whole when it is first read."""

    def __init__(self, make: Callable[[], Sequence[T]]) -> None:
        self._make = make
        self._made: Sequence[T] | None = None

    def _all(self) -> Sequence[T]:
        if self._made is None:
            self._made = self._make()
        return self._made

    def __len__(self) -> int:
        return len(self._all())

    @overload
    def __getitem__(self, at: int) -> T: ...

    @overload
    def __getitem__(self, at: slice) -> Sequence[T]: ...

    def __getitem__(self, at: int | slice) -> T | Sequence[T]:
        return self._all()[at]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and tuple(self) == tuple(other)

    def __hash__(self) -> int:
        return hash(tuple(self))

    def __repr__(self) -> str:
        return repr(tuple(self))


def whole_ms(value: float | None) -> int | None:
    """A time as a whole number, None where there is none."""
    return int(value) if value is not None and -INF < value < INF else None


def moves(picture: Picture, old: Mapping[int, float], typed: int | None) -> Sequence[Move]:
    """The moves: what was typed, then what had to wait or come forward before it, then the rest."""
    upstream = _upstream(picture, old, typed)
    first = [typed] if typed is not None and typed in old else []
    apart = upstream.union(first)
    nodes = first + sorted(upstream) + [node for node in sorted(old) if node not in apart]

    def made(at: int) -> Move:
        node = nodes[at]
        kind = MoveKind.UPSTREAM if node in upstream else MoveKind.FOLLOWS
        return Move(
            picture.net.ids[node],
            whole_ms(old[node]),
            whole_ms(picture.time[node]),
            MoveKind.TYPED if node == typed else kind,
            cause(picture, node),
        )

    return Later(len(nodes), made)


def _upstream(picture: Picture, old: Mapping[int, float], typed: int | None) -> set[int]:
    """Those that moved because of what comes after them."""
    net, time = picture.net, picture.time
    found: set[int] = set()
    if typed is not None and min(old, default=typed) < typed:
        found = {node for node in net.upstream(typed) if node in old}
    for node in net.waiting:
        if node not in old or time[node] <= old[node] or _held_from_below(picture, node):
            continue
        if _waits_for_later(picture, old, node):
            found.add(node)
    found.discard(-1 if typed is None else typed)
    return found


def _held_from_below(picture: Picture, node: int) -> bool:
    """Whether something before it holds the event where it is, whatever comes after it."""
    found = cause(picture, node)
    return found is not None and found.kind is not Kind.MOST


def _waits_for_later(picture: Picture, old: Mapping[int, float], node: int) -> bool:
    """Whether a most, to something later that moved, holds the event where it is."""
    time = picture.time
    return any(
        link.most_ms is not None
        and link.after in old
        and time[link.after] - link.most_ms == time[node]
        for link in picture.net.after[node]
    )


def stays(picture: Picture, old: Mapping[int, float], typed: int | None) -> tuple[Stay, ...]:
    """The events that stayed though something tied before them moved, and why."""
    net = picture.net
    found: dict[int, float] = {}
    for node in sorted(old):
        for link in net.after[node]:
            after, push_ms = link.after, link.push_ms
            if after in old or after == typed or link.limit or push_ms is None:
                continue
            slack = picture.time[after] - (picture.time[node] + _needs(picture, link, push_ms))
            found[after] = min(found.get(after, INF), slack)
    return tuple(_stay(picture, node, slack) for node, slack in sorted(found.items()))


def _needs(picture: Picture, link: Link, push_ms: int) -> int:
    """What a tie needs of an event: its least where the event stands by itself."""
    kinds = {bound.kind for bound in picture.own[link.after].lower}
    if kinds & set(_STANDS) and link.least_ms is not None:
        return link.least_ms
    return push_ms


def _stay(picture: Picture, node: int, slack: float) -> Stay:
    name = picture.net.ids[node]
    found = cause(picture, node)
    kind = found.kind if found is not None and found.of == name else None
    slack_ms = whole_ms(slack)
    return Stay(name, kind, None if kind is Kind.FACT else slack_ms)


def squeezed(picture: Picture, old: Mapping[int, float]) -> tuple[Squeeze, ...]:
    """The ties that are now shorter than their offset, and were not, or were less so."""
    net, time = picture.net, picture.time
    found: list[Squeeze] = []
    for node in range(len(net)):
        for link in net.before[node]:
            offset_ms = link.offset_ms
            if offset_ms is None or (node not in old and link.before not in old):
                continue
            gap = time[node] - time[link.before]
            was = old.get(node, time[node]) - old.get(link.before, time[link.before])
            if -INF < gap < offset_ms and gap < was and not _both_happened(picture, link):
                found.append(Squeeze(net.ids[link.before], net.ids[node], offset_ms, int(gap)))
    return tuple(found)


def _both_happened(picture: Picture, link: Link) -> bool:
    """Between two facts there is nothing left to squeeze."""
    ends = (picture.own[link.before].lower, picture.own[link.after].lower)
    return all(lower and lower[0].kind is Kind.FACT for lower in ends)


def all_squeezed(picture: Picture) -> tuple[Squeeze, ...]:
    """Every tie that is shorter than its offset."""
    net, time = picture.net, picture.time
    return tuple(
        Squeeze(net.ids[link.before], net.ids[node], link.offset_ms, int(gap))
        for node in range(len(net))
        for link in net.before[node]
        if link.offset_ms is not None
        and not _both_happened(picture, link)
        and -INF < (gap := time[node] - time[link.before]) < link.offset_ms
    )


def broken(works: Works) -> tuple[Broken, ...]:
    """The bounds and limits that have given way, with what they fall short at present times."""
    time, net, given = works.solver.time, works.net, works.given
    found: list[Broken] = []
    for node in sorted(given.lower):
        for bound in given.overruled(node):
            _fall(found, Constraint(bound.kind, net.ids[node]), bound.at_ms - time[node])
    for node, bounds in sorted(given.upper.items()):
        for bound in bounds:
            _fall(found, Constraint(bound.kind, net.ids[node]), time[node] - bound.at_ms)
    eased = [(*e.step[:2], e.written_ms) for e in given.steps]
    cuts = eased + [loop.step for loop in works.loops]
    for a, b, w in sorted(cuts):
        _fall(found, name_step(net, (a, b, w)), time[a] + w - time[b])
    return tuple(found)


def _fall(found: list[Broken], limit: Constraint, short: float) -> None:
    if 0 < short < INF:
        found.append(Broken(limit, int(short)))
