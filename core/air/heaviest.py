"""The heaviest set that fits, asked again and again as time goes by."""

from collections.abc import Callable, Iterator, Sequence

from core.air.model import Demand, Since
from core.air.subsets import heaviest


class Heaviest:
    """The sets within one, from the heaviest down.

    As time goes by a set can only lose its place: asked at a later moment, it goes on where it was.
    """

    def __init__(self, demands: Sequence[Demand], mask: int) -> None:
        self._demands, self._mask = demands, mask
        self._asked: Since | None = None
        self._ranked: Iterator[int] = iter(())
        self._most = 0

    def at(self, since: Since, fits: Callable[[int], bool]) -> int:
        """The heaviest of them that fits then; the empty one always does."""
        if self._asked is None or not _goes_on(since, self._asked):
            self._ranked = heaviest(self._demands, self._mask)
            self._most = next(self._ranked)
        self._asked = since
        while self._most and not fits(self._most):
            self._most = next(self._ranked)
        return self._most


def _goes_on(since: Since, before: Since) -> bool:
    """Whether whatever had no place before has none now."""
    later = since.item_ms >= before.item_ms and since.break_ms >= before.break_ms
    return later and since.sponsor == before.sponsor
