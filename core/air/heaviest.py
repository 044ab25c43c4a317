"""The heaviest set that fits: of few items proven, of many as good as adding them one by one."""

from collections.abc import Callable, Sequence

from core.air.model import Demand, Since
from core.air.subsets import ALWAYS_EXACT, bits, heaviest

Fits = Callable[[int], bool]
"""Whether a set has place."""


def heaviest_that(demands: Sequence[Demand], mask: int, fits: Fits) -> tuple[int, bool]:
    """The heaviest set within one that fits, and whether that is proven.

    Of equals it is the larger. The empty set has to fit.
    """
    if fits(mask):
        return mask, True
    able = [number for number in bits(mask) if demands[number].starts]
    if len(able) <= ALWAYS_EXACT:
        return next(one for one in heaviest(demands, mask) if fits(one)), True
    kept = 0
    for number in sorted(able, key=lambda number: -demands[number].weight):
        if fits(kept | 1 << number):
            kept |= 1 << number
    return kept, False


class Heaviest:
    """The same, asked again and again as time goes by.

    As time goes by a set can only lose its place: the heaviest that fitted is the heaviest as long
    as it does.
    """

    def __init__(self, demands: Sequence[Demand], mask: int) -> None:
        self._demands, self._mask = demands, mask
        self._asked: Since | None = None
        self._most = 0

    def at(self, since: Since, fits: Fits) -> int:
        """The heaviest of them that fits then."""
        stands = self._asked is not None and _goes_on(since, self._asked) and fits(self._most)
        if not stands:
            self._most, _ = heaviest_that(self._demands, self._mask, fits)
        self._asked = since
        return self._most


def _goes_on(since: Since, before: Since) -> bool:
    """Whether whatever had no place before has none now."""
    later = since.item_ms >= before.item_ms and since.break_ms >= before.break_ms
    return later and since.sponsor == before.sponsor
