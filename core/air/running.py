"""How the items of the programme stand at a moment, and who has the air, by the desk's word."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from core.air.cutting import BREAK
from core.air.spans import EVER_MS, Spans, merged
from core.entries.aired import Aired, Ran
from core.plan.model import Item


class Stands(StrEnum):
    """How an item stands."""

    FLOATING = "floating"
    PLACED = "placed"
    ON_AIR = "on_air"
    RUN = "run"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class Running:
    """One item as it stands: from when, and till when if it is over.

    `from_ms` is 0 for one that floats or was dropped; `to_ms` only stands on one that has run.
    """

    item: Item
    stands: Stands = Stands.FLOATING
    from_ms: int = 0
    to_ms: int | None = None

    @property
    def due_ms(self) -> int:
        """When it is over by its length."""
        return self.from_ms + self.item.length_ms

    def end_ms(self, now_ms: int) -> int:
        """When it is over: as it ended, or by its length; over-running, it ends now."""
        if self.to_ms is not None:
            return self.to_ms
        return max(self.due_ms, now_ms) if self.stands is Stands.ON_AIR else self.due_ms

    def over_ms(self, now_ms: int) -> int:
        """By how much it ran over its length, or runs over by now; below nought: under it."""
        end_ms = now_ms if self.stands is Stands.ON_AIR else self.end_ms(now_ms)
        return end_ms - self.due_ms


class Programme:
    """The items as they stand after what the desk has entered."""

    def __init__(self, items: Iterable[Item], told: Aired) -> None:
        self.away: Spans = merged(
            (each.from_ms, EVER_MS if each.until_ms is None else each.until_ms)
            for each in told.away
        )
        begun = sorted(each.begun_ms for each in told.items.values() if each.begun_ms is not None)
        taken = [each.from_ms for each in told.away]
        self.items = tuple(_stands(item, told.ran(item.id), [*begun, *taken]) for item in items)
        self._by_id = {one.item.id: one for one in self.items}
        placed = (one for one in self.items if one.stands is Stands.PLACED)
        self._placed = tuple(sorted(placed, key=lambda one: one.from_ms))

    @property
    def on_air(self) -> Running | None:
        """The item on the air."""
        return next((one for one in self.items if one.stands is Stands.ON_AIR), None)

    def item(self, item_id: str) -> Running:
        """That item as it stands; KeyError where there is none."""
        return self._by_id[item_id]

    def placed(self) -> tuple[Running, ...]:
        """What has a place and has not begun, in order of time."""
        return self._placed

    def last(self, now_ms: int) -> Running | None:
        """The item that ended last, or that is on the air."""
        return _last((one for one in self.items if _begun(one)), now_ms)

    def last_break(self, now_ms: int) -> Running | None:
        """The break that ended last, or that is on the air."""
        breaks = (one for one in self.items if _begun(one) and one.item.kind == BREAK)
        return _last(breaks, now_ms)


def _stands(item: Item, ran: Ran, others_ms: Iterable[int]) -> Running:
    """How it stands; over as soon as something else is on the air, if nobody has said so before."""
    if ran.dropped:
        return Running(item, Stands.DROPPED)
    begun_ms, over_ms = ran.begun_ms, ran.over_ms
    if begun_ms is not None:
        if over_ms is None or over_ms < begun_ms:
            over_ms = min((at_ms for at_ms in others_ms if at_ms > begun_ms), default=None)
        stands = Stands.ON_AIR if over_ms is None else Stands.RUN
        return Running(item, stands, begun_ms, over_ms)
    if over_ms is None and item.ran is not None:
        return Running(item, Stands.RUN, *item.ran)
    placed_ms = item.at_ms if ran.placed_ms is None else ran.placed_ms
    if over_ms is not None:  # nobody has said when it began
        from_ms = over_ms - item.length_ms
        return Running(item, Stands.RUN, min(from_ms, over_ms), over_ms)
    return Running(item) if placed_ms is None else Running(item, Stands.PLACED, placed_ms)


def _begun(one: Running) -> bool:
    return one.stands in (Stands.RUN, Stands.ON_AIR)


def _last(items: Iterable[Running], now_ms: int) -> Running | None:
    return max(items, key=lambda one: one.end_ms(now_ms), default=None)
