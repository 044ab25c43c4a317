"""The latest first start of each set of items, one number a set: G[S] of the day's programme.

It is exact where the same gap lies between all items: whatever comes first, ending it earlier is
never worse for the rest. So one instant says all there is to know of a set: it can be placed in
full exactly when the first may start no later than that.
"""

from bisect import bisect_right
from collections.abc import Sequence

from core.air.model import Demand
from core.air.room import Room
from core.air.spans import EVER_MS

Point = tuple[int, int, int]
"""A set can be placed if items may start from the first on, and breaks from the second on.

The third is the sponsor of its first break, as a number: not the one of the break before it.
"""

FREE = -1
"""Any sponsor may come before."""


class Latest:
    """All sets of some items that keep one gap; a set is a mask of bits, in the items' order."""

    def __init__(self, demands: Sequence[Demand], gap_ms: int, last_ms: int = EVER_MS) -> None:
        self._room = Room(demands, gap_ms)
        after = follow(demands, [[gap_ms] * len(demands)] * len(demands))
        self._rows = [
            (
                [low for low, _ in each.starts],
                [high for _, high in each.starts],
                each.starts[-1][1] if each.starts else -EVER_MS,
                each.length_ms + gap_ms,
                mask,
            )
            for each, mask in zip(demands, after, strict=True)
        ]
        self._known = {0: last_ms}

    def points(self, mask: int, passed: int = 0) -> Sequence[Point]:  # noqa: ARG002 - as Frontier
        """The one way in which the set can be placed, if it can."""
        latest_ms = self.latest(mask)
        return () if latest_ms == -EVER_MS else ((latest_ms, EVER_MS, FREE),)

    @property
    def looked_at(self) -> int:
        """How many sets have been worked out so far."""
        return len(self._known)

    def number(self, sponsor: str) -> int:  # noqa: ARG002 - as Frontier
        """No sponsor keeps anything apart here."""
        return FREE

    def latest(self, mask: int) -> int:
        """The latest instant at which the first of the set may start; -EVER_MS: there is none."""
        found = self._known.get(mask)
        if found is not None:
            return found
        known, rows = self._known, self._rows
        best_ms = -EVER_MS
        if self._room.is_too_much(mask):
            known[mask] = best_ms
            return best_ms
        left = mask
        while left:
            bit = left & -left
            left ^= bit
            lows, highs, last_ms, takes_ms, after = rows[bit.bit_length() - 1]
            if last_ms <= best_ms or after & mask:
                continue
            rest_ms = known.get(mask ^ bit)
            if rest_ms is None:
                rest_ms = self.latest(mask ^ bit)
            bound_ms = rest_ms - takes_ms
            place = bisect_right(lows, bound_ms)
            if bound_ms > best_ms and place:
                high_ms = highs[place - 1]
                at_ms = high_ms if high_ms < bound_ms else bound_ms
                best_ms = at_ms if at_ms > best_ms else best_ms
        known[mask] = best_ms
        return best_ms


def follow(demands: Sequence[Demand], gaps_ms: Sequence[Sequence[int]]) -> list[int]:
    """For each item the mask of those that must come before it, wherever both are still to run.

    Either because they can no longer run after it, or because they are alike: then one order is
    as good as the other.
    """
    masks = [0] * len(demands)
    for one, first in enumerate(demands):
        for other, second in enumerate(demands):
            if one == other:
                continue
            if _too_late(first, second, gaps_ms[one][other]) or (
                other < one and _alike(first, second)
            ):
                masks[one] |= 1 << other
    return masks


def _too_late(first: Demand, second: Demand, gap_ms: int) -> bool:
    """Whether the second can no longer run once the first has."""
    if not first.starts or not second.starts:
        return True
    return first.starts[0][0] + first.length_ms + gap_ms > second.starts[-1][1]


def _alike(one: Demand, other: Demand) -> bool:
    same = one.length_ms == other.length_ms and one.starts == other.starts
    return same and one.is_break == other.is_break and one.sponsor == other.sponsor
