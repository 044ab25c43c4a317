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
from core.air.room import Room
from core.air.spans import EVER_MS

_Row = tuple[list[int], list[int], int, int, bool, int, int]
"""An item: where its starts begin and end, its length with either gap, and what comes before it."""

_NO_WAY: Point = (-EVER_MS, -EVER_MS, FREE)

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
        self._room = Room(demands, gap_ms)
        after = follow(demands, self._gaps(demands))
        self._rows = [self._row(*each) for each in zip(demands, after, strict=True)]
        self._fixed = [(each.at_ms, self.number(each.sponsor)) for each in fixed]
        self._before = [_starting(demands, -EVER_MS, at_ms) for at_ms, _ in self._fixed]
        self._before.append(_starting(demands, -EVER_MS, EVER_MS))
        self._after = [_starting(demands, at_ms, EVER_MS) for at_ms, _ in self._fixed]
        end = (last.item_ms, last.break_ms, _as_fact(self.number(last.sponsor)))
        self._known: list[dict[int, Sequence[Point]]] = [{} for _ in range(len(fixed) + 1)]
        self._known[-1][0] = (end,)

    @property
    def looked_at(self) -> int:
        """How many sets have been worked out so far."""
        return sum(map(len, self._known))

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
        found = self._known[passed].get(mask)
        if found is None:
            ways = () if self._has_none(mask, passed) else self._ways(mask, passed)
            found = self._known[passed][mask] = ways
        return found

    def _has_none(self, mask: int, passed: int) -> bool:
        """Whether there is plainly no way; breaks that are placed keep sponsors apart."""
        room = self._room
        return room.is_too_much(mask) or (passed == len(self._fixed) and room.must_repeat(mask))

    def _ways(self, mask: int, passed: int) -> Sequence[Point]:
        """Whatever comes first, as late as each way of the rest allows; the best of all that.

        This is where the time goes: the best so far is at hand, and most others fall to it.
        """
        known, rows = self._known[passed], self._rows
        best_ms, best_break_ms, best_before = _NO_WAY
        others: list[Point] = []
        left = mask & self._before[passed]
        while left:
            bit = left & -left
            left ^= bit
            lows, highs, takes_ms, apart_ms, is_break, sponsor, after = rows[bit.bit_length() - 1]
            if after & mask:
                continue
            rest = known.get(mask ^ bit)
            if rest is None:
                rest = self.points(mask ^ bit, passed)
            for item_ms, break_ms, before in rest:
                at_ms = item_ms - takes_ms
                if is_break:
                    if before % _FACT == sponsor:
                        continue
                    bound_ms = break_ms - apart_ms
                    at_ms = bound_ms if bound_ms < at_ms else at_ms
                place = bisect_right(lows, at_ms)
                if not place:
                    continue
                high_ms = highs[place - 1]
                at_ms = high_ms if high_ms < at_ms else at_ms
                new_break_ms = at_ms if is_break else break_ms
                new_before = sponsor if is_break else before
                same = new_before == best_before
                if (
                    at_ms <= best_ms
                    and new_break_ms <= best_break_ms
                    and (same or best_before == FREE)
                ):
                    continue
                if (
                    at_ms >= best_ms
                    and new_break_ms >= best_break_ms
                    and (same or new_before == FREE)
                ):
                    best_ms, best_break_ms, best_before = at_ms, new_break_ms, new_before
                else:
                    others.append((at_ms, new_break_ms, new_before))
        if passed < len(self._fixed) and not mask & ~self._after[passed]:
            self._pass(passed, mask, others)
        if best_ms == -EVER_MS:
            return _best(others)
        best = best_ms, best_break_ms, best_before
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
