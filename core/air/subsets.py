"""Sets of items as masks of bits: which there are, and how many one would have to look at."""

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush

from core.air.latest import follow
from core.air.model import Demand

ALWAYS_EXACT = 12
"""So many items are always reckoned exactly, whatever they share."""

_MOST_SETS = 6_000
"""More of them only as long as no more sets than this have to be looked at."""

_TRIES = 4
"""So many are left out before no more are tried: trying, too, takes its time."""


def bits(mask: int) -> Iterator[int]:
    """The numbers of the items in a set."""
    while mask:
        bit = mask & -mask
        yield bit.bit_length() - 1
        mask ^= bit


def heaviest(demands: Sequence[Demand], mask: int) -> Iterator[int]:
    """All sets within one, the heaviest first; of equals the larger, then the plan's order.

    What is left out costs its weight, then its number, then its place; the next dearest set to
    leave out comes of the last one by one item more, or by the next item instead of the dearest.
    """
    numbers = [number for number in bits(mask) if demands[number].starts]
    every = sum(1 << number for number in numbers)
    width = len(demands)
    one = 1 << width
    costs = sorted(
        ((demands[n].weight * len(demands) + demands[n].weight + 1) * one - (1 << n), 1 << n)
        for n in numbers
    )
    yield every
    waiting = [(costs[0][0], 0, costs[0][1])] if costs else []
    while waiting:
        cost, last, out = heappop(waiting)
        yield every & ~out
        if last + 1 < len(costs):
            (mine, bit), (more, other) = costs[last], costs[last + 1]
            heappush(waiting, (cost + more, last + 1, out | other))
            heappush(waiting, (cost - mine + more, last + 1, out & ~bit | other))


def affordable(demands: Sequence[Demand], numbers: Sequence[int], gap_ms: int) -> int:
    """As a set, as many of those items as can be reckoned exactly, from the first on.

    An item that shares its time with too many is left out; others may still go in.
    """
    kept, refused = list(numbers[:ALWAYS_EXACT]), 0
    for number in numbers[ALWAYS_EXACT:]:
        if _is_small(demands, [*kept, number], gap_ms):
            kept.append(number)
            continue
        refused += 1
        if refused == _TRIES:
            break
    return sum(1 << number for number in kept)


def by_last_chance(demands: Sequence[Demand]) -> list[int]:
    """The owed items, the one whose last start comes first foremost."""
    owed = [number for number, demand in enumerate(demands) if demand.owed]
    return sorted(owed, key=lambda number: _last_ms(demands[number]))


def _last_ms(demand: Demand) -> int:
    return demand.starts[-1][1] if demand.starts else 0


def _is_small(demands: Sequence[Demand], numbers: Sequence[int], gap_ms: int) -> bool:
    """Whether few enough sets can ever be left to run: items whose times do not meet make few."""
    chosen = [demands[number] for number in numbers]
    after = follow(chosen, [[gap_ms] * len(chosen)] * len(chosen))
    seen = {(1 << len(chosen)) - 1}
    waiting = list(seen)
    while waiting and len(seen) <= _MOST_SETS:
        one = waiting.pop()
        following = {one ^ 1 << first for first in bits(one) if not after[first] & one} - seen
        seen |= following
        waiting.extend(following)
    return len(seen) <= _MOST_SETS
