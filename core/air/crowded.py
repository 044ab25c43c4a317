"""More owed items at once than all orders can be tried of: what is known of them all the same."""

from dataclasses import dataclass, replace

from core.air.fitting import Fitting
from core.air.model import Since
from core.air.placing import propose
from core.air.room import Room


@dataclass(frozen=True, slots=True)
class Crowd:
    """What is known for certain: that all have place, or by how much they are too many.

    Neither where places were not found for all, and there is no plain reason why not.
    """

    all_fit: bool = False
    over_ms: int = 0


class Crowded:
    """The same, asked second by second: worked out anew only when it may be otherwise.

    Places that were found for all stand until the first of them has gone by; what was not found is
    tried again every half minute.
    """

    _AGAIN_MS = 30_000

    def __init__(self, fitting: Fitting) -> None:
        self._fitting = fitting
        self._since = Since(0)
        self._until_ms = -1
        self._known = Crowd()

    def at(self, now_ms: int, since: Since) -> Crowd:
        """What is known of all that is owed from then on."""
        same = replace(since, item_ms=self._since.item_ms) == self._since
        if not (same and self._since.item_ms <= since.item_ms <= self._until_ms):
            self._since = since
            self._look(now_ms, since)
        return self._known

    def _look(self, now_ms: int, since: Since) -> None:
        over_ms = self._over_ms(since)
        found = None if over_ms > 0 else propose(self._fitting, now_ms, since)
        if found is not None and not found.left:
            self._known, self._until_ms = Crowd(all_fit=True), found.places[0].from_ms
        else:
            self._known = Crowd(over_ms=max(0, over_ms))
            self._until_ms = since.item_ms + self._AGAIN_MS

    def _over_ms(self, since: Since) -> int:
        """By how much what is owed takes more time than is left."""
        owed = [each for each in self._fitting.demands if each.owed]
        left = [
            replace(
                each,
                starts=tuple(
                    (max(low, since.item_ms), high)
                    for low, high in each.starts
                    if high >= since.item_ms
                ),
            )
            for each in owed
        ]
        return Room(left, self._fitting.gap_ms).over_ms((1 << len(left)) - 1)
