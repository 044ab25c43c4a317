"""What no order can put right: more items than there is time, or one sponsor's breaks too many.

Both are told of a set without looking at any of its orders, so that sets for which there is no
place need not be worked out.
"""

from collections.abc import Sequence

from core.air.model import Demand
from core.air.spans import merged

_BITS = 8
_TABLE = 1 << _BITS


class Room:
    """How much time there is for some items, and how much a set of them takes at the least."""

    def __init__(self, demands: Sequence[Demand], gap_ms: int) -> None:
        spans = merged(
            (low, high + demand.length_ms) for demand in demands for low, high in demand.starts
        )
        # Within each stretch there is one gap less than there are items.
        self._room_ms = sum(high - low + gap_ms for low, high in spans)
        self._takes_ms = _tables([demand.length_ms + gap_ms for demand in demands])
        every = (1 << len(demands)) - 1
        self._short = self.over_ms(every) > 0
        breaks = [(1 << number, demand) for number, demand in enumerate(demands) if demand.is_break]
        self._breaks = sum(bit for bit, _ in breaks)
        named = dict.fromkeys(demand.sponsor for _, demand in breaks if demand.sponsor)
        self._sponsored = [sum(bit for bit, each in breaks if each.sponsor == n) for n in named]

    def over_ms(self, mask: int) -> int:
        """By how much a set takes more time than there is, one item after the other."""
        return self._length_ms(mask) - self._room_ms

    def _length_ms(self, mask: int) -> int:
        total_ms = 0
        for table in self._takes_ms:
            total_ms += table[mask & _TABLE - 1]
            mask >>= _BITS
        return total_ms

    def is_too_much(self, mask: int) -> bool:
        """Whether the set takes more time than there is."""
        return self._short and self._length_ms(mask) > self._room_ms

    def must_repeat(self, mask: int) -> bool:
        """Whether two breaks of one sponsor must come one after the other, nothing placed yet."""
        breaks = (mask & self._breaks).bit_count()
        return any(2 * (mask & own).bit_count() > breaks + 1 for own in self._sponsored)


def _tables(takes_ms: Sequence[int]) -> list[list[int]]:
    """The sum of each set of eight items."""
    tables = []
    for first in range(0, len(takes_ms), _BITS):
        sums = [0]
        for each_ms in takes_ms[first : first + _BITS]:
            sums += [known_ms + each_ms for known_ms in sums]
        tables.append(sums + [0] * (_TABLE - len(sums)))
    return tables
