"""The same where only breaks keep further apart, or sponsors must not follow each other.

Then one instant does not say all: a set that begins with a tape may begin late, yet want its
first break early. Per set the best are kept: (latest start of anything, latest start of a break,
sponsor of the first break), none of which another beats in all three.

Breaks that are placed already stand in the row as facts. They are passed one after the other;
what they keep from others is cut from those beforehand, but who sponsors them bears on the
next break and on the one before.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from core.air.latest import FREE, Point, follow
from core.air.model import Demand, Fixed, Since
from core.air.spans import EVER_MS

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
        self._lows = [[low for low, _ in demand.starts] for demand in demands]
        self._highs = [[high for _, high in demand.starts] for demand in demands]
        self._lengths = [demand.length_ms for demand in demands]
        self._breaks = [demand.is_break for demand in demands]
        self._gap_ms, self._break_gap_ms = gap_ms, max(gap_ms, break_gap_ms)
        self._after = follow(demands, self._gaps(demands))
        named = dict.fromkeys(
            [*(one.sponsor for one in demands), *(one.sponsor for one in fixed), last.sponsor]
        )
        named.pop("", None)
        self._numbers = {name: number for number, name in enumerate(named)}
        self._sponsors = [self.number(demand.sponsor) for demand in demands]
        self._fixed = [(each.at_ms, self.number(each.sponsor)) for each in fixed]
        end = (last.item_ms, last.break_ms, _as_fact(self.number(last.sponsor)))
        self._known: dict[tuple[int, int], Sequence[Point]] = {(0, len(fixed)): (end,)}

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

    def points(self, mask: int, passed: int = 0) -> Sequence[Point]:
        """The best ways in which the set can still be placed, with so many facts gone by."""
        key = (mask, passed)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = _best(self._ways(mask, passed))
        return found

    def _ways(self, mask: int, passed: int) -> list[Point]:
        ways: list[Point] = []
        left = mask
        while left:
            bit = left & -left
            left ^= bit
            one = bit.bit_length() - 1
            if self._lows[one] and not self._after[one] & mask:
                rest = self.points(mask ^ bit, passed)
                self._begin(one, rest, ways)
        if passed < len(self._fixed):
            self._pass(passed, mask, ways)
        return ways

    def _begin(self, one: int, rest: Iterable[Point], ways: list[Point]) -> None:
        """The ways that begin with that item, as late as each way of the rest allows."""
        lows, highs = self._lows[one], self._highs[one]
        length_ms, sponsor, is_break = self._lengths[one], self._sponsors[one], self._breaks[one]
        for item_ms, break_ms, before in rest:
            bound_ms = item_ms - length_ms - self._gap_ms
            if is_break:
                if repeats(sponsor, before):
                    continue
                bound_ms = min(bound_ms, break_ms - length_ms - self._break_gap_ms)
            place = bisect_right(lows, bound_ms) - 1
            if place < 0:
                continue
            at_ms = min(bound_ms, highs[place])
            ways.append((at_ms, at_ms, sponsor) if is_break else (at_ms, break_ms, before))

    def _pass(self, passed: int, mask: int, ways: list[Point]) -> None:
        """The ways in which the next break that is placed comes first."""
        at_ms, sponsor = self._fixed[passed]
        for item_ms, _, before in self.points(mask, passed + 1):
            if item_ms >= at_ms and not repeats_fact(sponsor, before):
                ways.append((at_ms, EVER_MS, _as_fact(sponsor)))


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
