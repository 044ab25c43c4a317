"""The same where only breaks keep further apart, or sponsors must not follow each other.

Then one instant does not say all: a set that begins with a tape may begin late, yet want its
first break early. Per set the best are kept: (latest start of anything, latest start of a break,
sponsor of the first break), none of which another beats in all three.

Breaks that are placed already stand in the row as facts. They are passed one after the other;
what they keep from others is cut from those beforehand, but who sponsors them bears on the
next break and on the one before.
"""

from bisect import bisect_right
from collections.abc import Sequence

from core.air.latest import FREE, Point, follow
from core.air.model import Demand, Fixed, Since
from core.air.spans import EVER_MS

_Row = tuple[list[int], list[int], int, int, bool, int, int]
"""An item: where its starts begin and end, its length with either gap, and what comes before it."""

_FACTS = 16
"""So many bits of a key count the facts gone by."""

_NOTHING = Since(EVER_MS, EVER_MS)

_FACT = 1 << 20
"""Added to the sponsor of a break that is placed: two facts never quarrel."""


def repeats(sponsor: int, before: int) -> bool:
    """Whether a break of that sponsor may not come right before a set, placed ones counted."""
    return before % _FACT == sponsor


def repeats_fact(sponsor: int, before: int) -> bool:
    """The same of a break that is a fact: it can only quarrel with one still to be placed."""
    return sponsor != FREE and before == sponsor


class Frontier:
    """All sets of some items; a set is a mask of bits, in the items' order.

    `last` are the bounds behind them all: what may start, and a break, before which sponsor's.
    """

    def __init__(
        self,
        demands: Sequence[Demand],
        gap_ms: int,
        break_gap_ms: int,
        fixed: Sequence[Fixed] = (),
        last: Since = _NOTHING,
    ) -> None:
        self._gap_ms, self._break_gap_ms = gap_ms, max(gap_ms, break_gap_ms)
        named = dict.fromkeys(
            [*(one.sponsor for one in demands), *(one.sponsor for one in fixed), last.sponsor]
        )
        named.pop("", None)
        self._numbers = {name: number for number, name in enumerate(named)}
        after = follow(demands, self._gaps(demands))
        self._rows = [self._row(*each) for each in zip(demands, after, strict=True)]
        self._fixed = [(each.at_ms, self.number(each.sponsor)) for each in fixed]
        self._before = [_starting(demands, -EVER_MS, at_ms) for at_ms, _ in self._fixed]
        self._before.append(_starting(demands, -EVER_MS, EVER_MS))
        self._after = [_starting(demands, at_ms, EVER_MS) for at_ms, _ in self._fixed]
        end = (last.item_ms, last.break_ms, _as_fact(self.number(last.sponsor)))
        self._known: dict[int, Sequence[Point]] = {len(fixed): (end,)}

    def number(self, sponsor: str) -> int:
        """That sponsor's number; FREE for one of whom no break is left."""
        return self._numbers.get(sponsor, FREE)

    def _gaps(self, demands: Sequence[Demand]) -> list[list[int]]:
        return [
            [
                self._break_gap_ms if one.is_break and other.is_break else self._gap_ms
                for other in demands
            ]
            for one in demands
        ]

    def _row(self, demand: Demand, after: int) -> _Row:
        takes_ms = demand.length_ms + self._gap_ms
        apart_ms = demand.length_ms + self._break_gap_ms
        lows = [low for low, _ in demand.starts]
        highs = [high for _, high in demand.starts]
        sponsor = self.number(demand.sponsor)
        return lows, highs, takes_ms, apart_ms, demand.is_break, sponsor, after

    def points(self, mask: int, passed: int = 0) -> Sequence[Point]:
        """The best ways in which the set can still be placed, with so many facts gone by."""
        key = mask << _FACTS | passed
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._ways(mask, passed)
        return found

    def _ways(self, mask: int, passed: int) -> Sequence[Point]:
        """Whatever comes first, as late as each way of the rest allows; the best of all that.

        This is where the time goes: the best so far is at hand, and most others fall to it.
        """
        known = self._known
        best: Point | None = None
        others: list[Point] = []
        left = mask & self._before[passed]
        while left:
            bit = left & -left
            left ^= bit
            lows, highs, takes_ms, apart_ms, is_break, sponsor, after = self._rows[
                bit.bit_length() - 1
            ]
            if after & mask:
                continue
            rest = known.get((mask ^ bit) << _FACTS | passed)
            if rest is None:
                rest = self.points(mask ^ bit, passed)
            for item_ms, break_ms, before in rest:
                at_ms = item_ms - takes_ms
                if is_break:
                    if before % _FACT == sponsor:
                        continue
                    at_ms = min(at_ms, break_ms - apart_ms)
                place = bisect_right(lows, at_ms)
                if not place:
                    continue
                at_ms = min(at_ms, highs[place - 1])
                way = (at_ms, at_ms, sponsor) if is_break else (at_ms, break_ms, before)
                if best is None:
                    best = way
                elif best[0] >= at_ms and best[1] >= way[1] and best[2] in (FREE, way[2]):
                    continue
                else:
                    others.append(way)
        if passed < len(self._fixed) and not mask & ~self._after[passed]:
            self._pass(passed, mask, others)
        if best is None:
            return _best(others)
        return _best([best, *others]) if others else (best,)

    def _pass(self, passed: int, mask: int, ways: list[Point]) -> None:
        """The ways in which the next break that is placed comes first."""
        at_ms, sponsor = self._fixed[passed]
        for item_ms, _, before in self.points(mask, passed + 1):
            if item_ms >= at_ms and not repeats_fact(sponsor, before):
                ways.append((at_ms, EVER_MS, _as_fact(sponsor)))


def _starting(demands: Sequence[Demand], from_ms: int, until_ms: int) -> int:
    """The items that have a start between two instants."""
    return sum(
        1 << number
        for number, demand in enumerate(demands)
        if demand.starts and demand.starts[0][0] < until_ms and demand.starts[-1][1] > from_ms
    )


def _as_fact(sponsor: int) -> int:
    return FREE if sponsor == FREE else sponsor + _FACT


def _best(ways: list[Point]) -> Sequence[Point]:
    """Those that no other beats in all it allows."""
    if len(ways) < 2:
        return ways
    ways.sort(reverse=True)
    kept: list[Point] = []
    for way in ways:
        _, break_ms, before = way
        for _, other_ms, other in kept:
            if other_ms >= break_ms and other in (before, FREE):
                break
        else:
            kept.append(way)
    return kept
