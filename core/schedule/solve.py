"""The solver: the latest that each event can be, and its time, from scratch and step by step.

`latest` is the greatest solution of the hard limits that ignores lower bounds; they can be met
exactly when no lower bound lies above it. `time` is the least fix-point of

    time[v] = min(latest[v], max(lo[v], time[u] + push over what pushes v))

Both are kept between changes, and only what a change reaches is touched: first what leaned on
something lost is doubted and taken down, then everything climbs (for `latest`: sinks) to its
place. Old values are kept until the step is closed, so a step can be undone exactly.
"""

from collections.abc import Iterable

from core.schedule.chase import Circle, circle, climb
from core.schedule.network import Network

INF = float("inf")
"""No bound. Sums with it stay without bound, so that a horizon can never leak into a time."""

_FIRST_LOOK = 512
"""After so many pushes circles are looked for, then after twice as many, and so on."""


class Solver:
    """Bounds, latest and time of each numbered event. Programmer's view: mutable, journalled."""

    def __init__(self, net: Network, lo: list[float], hi: list[float]) -> None:
        self.net = net
        self.lo = lo
        self.hi = hi
        self.latest: list[float] = []
        self.time: list[float] = []
        self._dirty = bytearray(len(net))
        self._forget()

    def _forget(self) -> None:
        self.old_lo: dict[int, float] = {}
        self.old_hi: dict[int, float] = {}
        self.old_latest: dict[int, float] = {}
        self.old_time: dict[int, float] = {}
        self._unbound: list[tuple[int, int, int, bool]] = []
        self._hi_seen: dict[int, float] = {}
        self._lost: set[int] = set()
        self._gained: set[int] = set()
        self._lo_seen: dict[int, float] = {}
        self._latest_seen: dict[int, float] = {}

    def copy(self, net: Network) -> "Solver":
        """The same solution on a copy of the network. Only between steps."""
        new = Solver(net, list(self.lo), list(self.hi))
        new.latest, new.time = list(self.latest), list(self.time)
        return new

    # ------------------------------------------------------------ steps

    def close(self) -> None:
        """Keep what was done since the last step."""
        self._forget()

    def undo(self) -> None:
        """Put everything back as it was when the last step was closed."""
        for array, old in (
            (self.lo, self.old_lo),
            (self.hi, self.old_hi),
            (self.latest, self.old_latest),
            (self.time, self.old_time),
        ):
            for node, value in old.items():
                array[node] = value
        for start, to, by_ms, bound in reversed(self._unbound):
            if bound:
                self.net.unbind(start, to, by_ms)
            else:
                self.net.bind(start, to, by_ms)
        self._dirty = bytearray(len(self.net))
        self._forget()

    def moved(self) -> dict[int, float]:
        """The old times of the events that moved in this step."""
        time = self.time
        return {v: was for v, was in self.old_time.items() if was != time[v]}

    def set_bounds(self, node: int, lo: float, hi: float) -> None:
        """New own bounds for an event; they count at the next settling."""
        if lo != self.lo[node]:
            self.old_lo.setdefault(node, self.lo[node])
            self._lo_seen.setdefault(node, self.lo[node])
            self.lo[node] = lo
        if hi != self.hi[node]:
            self.old_hi.setdefault(node, self.hi[node])
            self._hi_seen.setdefault(node, self.hi[node])
            self.hi[node] = hi

    def unbind(self, start: int, to: int, by_ms: int) -> None:
        """Take a hard limit out."""
        self.net.unbind(start, to, by_ms)
        self._unbound.append((start, to, by_ms, False))
        if self.latest and self.latest[start] == self.latest[to] - by_ms:
            self._lost.add(start)

    def bind(self, start: int, to: int, by_ms: int) -> None:
        """Put a hard limit back."""
        self.net.bind(start, to, by_ms)
        self._unbound.append((start, to, by_ms, True))
        self._gained.add(start)

    # ------------------------------------------------------------ from scratch

    def solve_latest(self) -> None:
        """`latest` from nothing. Raises Circle where hard limits contradict each other."""
        count = len(self.net)
        bind_out = self.net.bind_out
        latest = list(self.hi)
        self.latest = latest
        if min(latest, default=INF) == INF:
            self._settled_latest()
            return
        for v in range(count - 1, -1, -1):
            best = latest[v]
            for b, w in bind_out[v]:
                y = latest[b] - w
                if y < best:  # noqa: PLR1730 - a call costs twice as much here
                    best = y
            latest[v] = best
        back = {b for v in self.net.pulling for b, _ in bind_out[v] if b < v and latest[b] < INF}
        self._sink(back)
        self._settled_latest()

    def solve_time(self) -> None:
        """`time` from nothing, under `latest`. Raises Circle where offsets chase themselves."""
        count = len(self.net)
        push_in, lo, latest = self.net.push_in, self.lo, self.latest
        time = [-INF] * count
        self.time = time
        for v in range(count):
            x = lo[v]
            for u, w in push_in[v]:
                y = time[u] + w
                if y > x:  # noqa: PLR1730 - likewise
                    x = y
            time[v] = x if x < latest[v] else latest[v]
        self._climb(self._pulling(self.net.pulling))
        self.old_time.clear()
        self._settled_time()

    def _pulling(self, nodes: Iterable[int]) -> set[int]:
        """Those of the events that push one numbered before them further."""
        time, latest, push_out = self.time, self.latest, self.net.push_out
        return {
            v
            for v in nodes
            for b, w in push_out[v]
            if b < v and time[v] + w > time[b] and time[b] < latest[b]
        }

    def _settled_latest(self) -> None:
        self._hi_seen.clear()
        self._lost.clear()
        self._gained.clear()

    def _settled_time(self) -> None:
        self._lo_seen.clear()
        self._latest_seen.clear()

    # ------------------------------------------------------------ latest

    def settle_latest(self) -> None:
        """`latest` after changes of bounds and limits. Raises Circle as `solve_latest` does."""
        latest, hi = self.latest, self.hi
        sinking: set[int] = set()
        doubted = set(self._lost)
        for v, seen in self._hi_seen.items():
            if hi[v] < latest[v]:
                self._set_latest(v, hi[v])
                sinking.add(v)
            elif hi[v] > seen and latest[v] == seen:
                doubted.add(v)
        if doubted:
            sinking |= self._doubt_latest(doubted)
        for v in self._gained:
            best = self._bound_latest(v)
            if best < latest[v]:
                self._set_latest(v, best)
                sinking.add(v)
        self._sink(sinking)
        self._settled_latest()

    def _set_latest(self, node: int, value: float) -> None:
        self.old_latest.setdefault(node, self.latest[node])
        self._latest_seen.setdefault(node, self.latest[node])
        self.latest[node] = value

    def _bound_latest(self, node: int) -> float:
        best = self.hi[node]
        for b, w in self.net.bind_out[node]:
            y = self.latest[b] - w
            best = min(best, y)
        return best

    def _doubt_latest(self, seeds: Iterable[int]) -> set[int]:
        """Raise all that leaned on the seeds, as far as what is left allows."""
        latest, hi, bind_in = self.latest, self.hi, self.net.bind_in
        doubted = {v for v in seeds if hi[v] != latest[v] and latest[v] < INF}
        stack = list(doubted)
        while stack:
            v = stack.pop()
            at = latest[v]
            for a, w in bind_in[v]:
                leans = latest[a] == at - w and hi[a] != latest[a]
                if leans and a not in doubted:
                    doubted.add(a)
                    stack.append(a)
        for v in doubted:
            self._set_latest(v, INF)
        for v in sorted(doubted, reverse=True):
            latest[v] = self._bound_latest(v)
        return doubted

    def _sink(self, nodes: Iterable[int]) -> None:
        """Let what must be earlier because of these be earlier."""
        latest, bind_in, dirty = self.latest, self.net.bind_in, self._dirty
        old, seen = self.old_latest, self._latest_seen
        for v in nodes:
            dirty[v] = 1
        parent: dict[int, tuple[int, int]] = {}
        steps, look = 0, _FIRST_LOOK
        v = dirty.rfind(1)
        while v >= 0:
            dirty[v] = 0
            top = v
            at = latest[v]
            for a, w in bind_in[v]:
                y = at - w
                if y < latest[a]:
                    if a not in seen:
                        seen[a] = latest[a]
                        old.setdefault(a, latest[a])
                    latest[a] = y
                    parent[a] = (v, w)
                    dirty[a] = 1
                    steps += 1
                    top = max(top, a)
            if steps > look:
                look *= 2
                found = circle(parent)
                if found:
                    raise Circle(tuple((to, start, w) for start, to, w in reversed(found)))
            v = dirty.rfind(1, 0, top + 1)

    # ------------------------------------------------------------ time

    def settle_time(self) -> None:
        """`time` after changes of `lo` and `latest`. Raises Circle as `solve_time` does."""
        lo, time, latest = self.lo, self.time, self.latest
        seeds = {
            v
            for v, seen in self._lo_seen.items()
            if lo[v] < seen and time[v] > lo[v] and time[v] <= seen
        }
        seeds |= {v for v in self._latest_seen if latest[v] < time[v]}
        rising = self._doubt_time(seeds) if seeds else set()
        for nodes in (self._lo_seen, self._latest_seen):
            for v in nodes:
                best = self._pushed(v)
                if best > time[v]:
                    self.old_time.setdefault(v, time[v])
                    time[v] = best
                    rising.add(v)
        self._climb(rising)
        self._settled_time()

    def _pushed(self, node: int) -> float:
        time = self.time
        x = self.lo[node]
        for u, w in self.net.push_in[node]:
            y = time[u] + w
            x = max(x, y)
        return min(x, self.latest[node])

    def _doubt_time(self, seeds: set[int]) -> set[int]:
        """Take down all that leaned on the seeds, and put it as low as what is left allows."""
        lo, time, latest, push_out = self.lo, self.time, self.latest, self.net.push_out
        doubted = set(seeds)
        stack = list(seeds)
        while stack:
            v = stack.pop()
            at = time[v]
            for b, w in push_out[v]:
                if at + w >= time[b] and b not in doubted:
                    held = lo[b] >= time[b] and latest[b] >= time[b]
                    if not held:
                        doubted.add(b)
                        stack.append(b)
        old = self.old_time
        before = {v: time[v] for v in doubted}
        for v, was in before.items():
            time[v] = -INF
            if v not in old:
                old[v] = was
        push_in = self.net.push_in
        for v in sorted(doubted):
            x = lo[v]
            for u, w in push_in[v]:
                y = time[u] + w
                if y > x:  # noqa: PLR1730 - a call costs twice as much here
                    x = y
            time[v] = x if x < latest[v] else latest[v]
        rising = {v for v, was in before.items() if time[v] > was}
        return rising | self._pulling(doubted & self.net.pulling)

    def _climb(self, nodes: Iterable[int]) -> None:
        """Let what must be later because of these be later.

        Each event is climbed a few times at most, unless circles push it: where it takes longer,
        circles are looked for.
        """
        time, latest, push_out, dirty = self.time, self.latest, self.net.push_out, self._dirty
        old = self.old_time
        for v in nodes:
            dirty[v] = 1
        steps = 2 * len(dirty) + 64
        v = dirty.find(1)
        while v >= 0:
            dirty[v] = 0
            low = v
            at = time[v]
            for b, w in push_out[v]:
                y = at + w
                was = time[b]
                if y > was:
                    if y > latest[b]:
                        y = latest[b]
                        if y <= was:
                            continue
                    if b not in old:
                        old[b] = was
                    time[b] = y
                    dirty[b] = 1
                    steps -= 1
                    if b < low:  # noqa: PLR1730 - likewise
                        low = b
            if steps < 0:
                self._climb_watched()
                return
            v = dirty.find(1, low)

    def _climb_watched(self) -> None:
        """Go on climbing, and go round circles at once. Raises Circle where one has no end."""
        time, latest, push_out, dirty = self.time, self.latest, self.net.push_out, self._dirty
        old = self.old_time
        parent: dict[int, tuple[int, int]] = {}
        steps, look = 0, _FIRST_LOOK
        v = dirty.find(1)
        while v >= 0:
            dirty[v] = 0
            at = time[v]
            for b, w in push_out[v]:
                y = min(at + w, latest[b])
                if y > time[b]:
                    old.setdefault(b, time[b])
                    time[b] = y
                    parent[b] = (v, w)
                    dirty[b] = 1
                    steps += 1
            if steps > look:
                look *= 2
                found = circle(parent)
                climb(found, time, latest, old)
                for _, node, _ in found:
                    dirty[node] = 1
            v = dirty.find(1)
