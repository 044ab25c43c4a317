"""Why a time is what it is: what binds it, and how a move came down from what was typed."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from core.schedule.model import Cause, Kind, Link
from core.schedule.network import Network
from core.schedule.standing import Bounds

_NEVER = float("-inf")
_OWN = (Kind.FACT, Kind.PIN, Kind.FIGURE, Kind.EDGE, Kind.HOLD, Kind.RESUMED)
_FLOORS = (Kind.HOLD, Kind.RESUMED)
"""What keeps an event from being earlier; it moves none to an earlier time."""


@dataclass(frozen=True, slots=True)
class Picture:
    """Times and bounds at one moment, enough to explain them."""

    net: Network
    own: list[Bounds]
    time: list[float]
    latest: list[float]

    def kept(self) -> "Picture":
        """The same, unmoved by what comes after."""
        return Picture(self.net, list(self.own), list(self.time), list(self.latest))


def cause(picture: Picture, node: int) -> Cause | None:
    """What binds an event's time, from below where anything does, else what it presses against."""
    own = _own_cause(picture, node)
    if own is not None and own.kind in _OWN:
        return own
    below = _tie_below(picture, node)
    if below is not None and _hangs(picture, node):
        below = _above(picture, node) or below
    return (
        below
        or own
        or _most_below(picture, node)
        or _above(picture, node)
        or _pressed(picture, node)
    )


def _hangs(picture: Picture, node: int) -> bool:
    """Whether the ties below an event lead down to a planned time that was pulled earlier.

    Then nothing below holds it up: all that is between hangs on what pulled.
    """
    time, latest = picture.time, picture.latest
    seen = {node}
    stack = [node]
    pulled = False
    while stack:
        at = stack.pop()
        if time[at] < latest[at] or _own_cause(picture, at) is not None:
            return False
        pulled = pulled or any(bound.at_ms > time[at] for bound in picture.own[at].lower)
        for link in picture.net.before[at]:
            since = time[at] - time[link.before]
            if since in (link.offset_ms, link.least_ms) and link.before not in seen:
                seen.add(link.before)
                stack.append(link.before)
    return pulled


def _own_cause(picture: Picture, node: int) -> Cause | None:
    at = picture.time[node]
    for bound in picture.own[node].lower:
        if bound.at_ms == at:
            return Cause(bound.kind, picture.net.ids[node])
    return None


def _tie_below(picture: Picture, node: int) -> Cause | None:
    """The tie or limit from an earlier event that holds it up just there: an offset, or a least."""
    at, time, ids = picture.time[node], picture.time, picture.net.ids
    least: Cause | None = None
    for link in picture.net.before[node]:
        since = at - time[link.before]
        if link.offset_ms == since:
            return Cause(Kind.TIE, ids[link.before])
        if link.least_ms == since and least is None:
            least = Cause(Kind.LEAST, ids[link.before])
    return least


def _most_below(picture: Picture, node: int) -> Cause | None:
    at, time = picture.time[node], picture.time
    for link in picture.net.after[node]:
        if link.most_ms is not None and time[link.after] - link.most_ms == at:
            return Cause(Kind.MOST, picture.net.ids[link.after])
    return None


def _above(picture: Picture, node: int) -> Cause | None:
    """What keeps it from being as late as its offsets ask."""
    at, latest, ids = picture.time[node], picture.latest, picture.net.ids
    for bound in picture.own[node].upper:
        if bound.at_ms == at:
            return Cause(bound.kind, ids[node])
    for link in picture.net.after[node]:
        if link.least_ms is not None and latest[link.after] - link.least_ms == at:
            return Cause(Kind.LEAST, ids[link.after])
    for link in picture.net.before[node]:
        if link.most_ms is not None and latest[link.before] + link.most_ms == at:
            return Cause(Kind.MOST, ids[link.before])
    return None


def _pressed(picture: Picture, node: int) -> Cause | None:
    """Where a limit has given way: the tie that asks most of it."""
    time = picture.time
    asks = [
        (time[link.before] + push_ms, -link.before)
        for link in picture.net.before[node]
        if (push_ms := link.push_ms) is not None
    ]
    return Cause(Kind.TIE, picture.net.ids[-max(asks)[1]]) if asks else None


class Chain:
    """How moves came down from what was typed. `inputs`: what the edge of an event depends on."""

    def __init__(
        self,
        picture: Picture,
        old: Mapping[int, float],
        typed: frozenset[int],
        inputs: Callable[[str], tuple[str, ...]],
    ) -> None:
        self._picture = picture
        self._old = old
        self._typed = typed
        self._inputs = inputs

    def chain(self, event_id: str) -> tuple[Link, ...]:
        """From what was typed to the event, each moved by the one before it."""
        node = self._picture.net.number.get(event_id)
        if node is None or not self._had_time(node):
            return ()
        came = self._back_to_typed(node)
        return tuple(self._links(node, came))

    def _had_time(self, node: int) -> bool:
        """Whether the event moved from one time to another."""
        return node in self._old and self._old[node] > _NEVER

    def _moved(self, node: int) -> float:
        return self._picture.time[node] - self._old.get(node, self._picture.time[node])

    def _back_to_typed(self, node: int) -> dict[int, tuple[int, Kind] | None]:
        """By event, the one after it on the way to `node`; ends at the first that was typed."""
        came: dict[int, tuple[int, Kind] | None] = {node: None}
        queue = [node]
        for at in queue:
            if at in self._typed:
                self._end = at
                return came
            for mover, kind in self._movers(at):
                if mover not in came:
                    came[mover] = (at, kind)
                    queue.append(mover)
        self._end = next((n for n in reversed(queue) if self._stands(n)), queue[-1])
        return came

    def _stands(self, node: int) -> bool:
        found = _own_cause(self._picture, node)
        return found is not None and found.kind in _OWN

    def _links(self, node: int, came: dict[int, tuple[int, Kind] | None]) -> Iterator[Link]:
        ids = self._picture.net.ids
        at = self._end
        # Where it is no word of its own, it is what had no time before and now binds this one.
        own = _own_cause(self._picture, at) or cause(self._picture, at)
        yield Link(ids[at], own or Cause(Kind.TIE, ids[at]), int(self._moved(at)))
        while at != node:
            step = came[at]
            if step is None:
                return
            following, kind = step
            yield Link(ids[following], Cause(kind, ids[at]), int(self._moved(following)))
            at = following

    def _movers(self, node: int) -> Iterator[tuple[int, Kind]]:
        """The moved events that moved this one, each with how."""
        moved = self._moved(node)
        own = _own_cause(self._picture, node)
        floor = own is not None and own.kind in _FLOORS and moved < 0
        if self._stands(node) and not floor:
            yield from self._through_edge(node)
            return
        for mover, kind, reach in self._reaches(node, later=moved > 0):
            if self._moved(mover) * moved > 0 and reach:
                yield mover, kind

    def _through_edge(self, node: int) -> Iterator[tuple[int, Kind]]:
        net = self._picture.net
        for name in self._inputs(net.ids[node]):
            mover = net.number.get(name)
            if mover is not None and self._had_time(mover):
                yield mover, Kind.EDGE

    def _reaches(self, node: int, *, later: bool) -> Iterator[tuple[int, Kind, bool]]:
        """Each neighbour, how it bears on the event, and whether it is what moved it so."""
        new, at = self._picture.time, self._picture.time[node]
        old = self._old
        was = old[node]
        for link in self._picture.net.before[node]:
            u, push_ms, most_ms = link.before, link.push_ms, link.most_ms
            if not self._had_time(u):
                continue
            if push_ms is not None:
                kind = Kind.TIE if push_ms == link.offset_ms else Kind.LEAST
                yield u, kind, (new[u] + push_ms >= at if later else old[u] + push_ms >= was)
            if most_ms is not None:
                yield u, Kind.MOST, (old[u] + most_ms <= was if later else new[u] + most_ms <= at)
        for link in self._picture.net.after[node]:
            w, least_ms, most_ms = link.after, link.least_ms, link.most_ms
            if not self._had_time(w):
                continue
            if most_ms is not None:
                yield w, Kind.MOST, (new[w] - most_ms >= at if later else old[w] - most_ms >= was)
            if least_ms is not None:
                yield (
                    w,
                    Kind.LEAST,
                    (old[w] - least_ms <= was if later else new[w] - least_ms <= at),
                )
