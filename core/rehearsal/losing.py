"""Live moments lost to an item, and whether the day left any way not to lose them."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.entries.aired import Aired
from core.plan.model import Plan
from core.rehearsal.record import OnAir, Record
from core.times.writing import SECOND_MS


@dataclass(frozen=True, slots=True)
class LostMoment:
    """The presenter was in an item for so long of a stretch in which they had to be on the air.

    `itself` says that the very instant of the event was lost, and not only what is kept before or
    after it. `unavoidable`: the item fitted when it began, and nothing could be done once word
    came; `proof` says how that is known, or what could have been done.
    """

    event: str
    item: str
    by_ms: int
    itself: bool
    unavoidable: bool
    proof: str


def lost_moments(record: Record, told: Aired, plan: Plan) -> tuple[LostMoment, ...]:
    """All that were lost, by the hidden timeline, in order of the items."""
    return tuple(_lost(record, told, plan))


def _lost(record: Record, told: Aired, plan: Plan) -> Iterator[LostMoment]:
    for airing in record.airings:
        ends_ms = over_ms(record, airing, told, plan)
        for event, from_ms, to_ms in _live(record):
            by_ms = min(ends_ms, to_ms) - max(airing.from_ms, from_ms)
            if by_ms < SECOND_MS:
                continue
            at_ms = record.truth.at_ms(event)
            itself = at_ms is not None and airing.from_ms <= at_ms < ends_ms
            why, unavoidable = _why(airing, event, ends_ms)
            yield LostMoment(event, airing.item, by_ms, itself, unavoidable, why)


def _live(record: Record) -> Iterator[tuple[str, int, int]]:
    """Every stretch in which the presenter really had to be on the air."""
    for span in record.truth.live:
        yield span.event, span.from_ms, span.to_ms
    yield from record.cameras


def over_ms(record: Record, airing: OnAir, told: Aired, plan: Plan) -> int:
    """When the item was over, or was overtaken by another."""
    ended_ms = told.ran(airing.item).over_ms
    if ended_ms is not None:
        return ended_ms
    length_ms = next(item.length_ms for item in plan.items if item.id == airing.item)
    later = [each.from_ms for each in record.airings if each.from_ms > airing.from_ms]
    return min([airing.from_ms + length_ms, *later])


def _why(airing: OnAir, event: str, over_ms: int) -> tuple[str, bool]:
    """How it came to be lost, and whether that could not be helped."""
    if not airing.clean:
        return "it was begun although the board said that it loses something", False
    news_ms = airing.news_ms.get(event)
    if news_ms is None:
        return "it fitted when it began, and no word came before it was over", True
    if not airing.can_cut:
        return "it fitted when it began, and cannot be cut", True
    if over_ms <= news_ms + SECOND_MS:
        return "it fitted when it began, and was ended at once when word came", True
    return "it could have been ended when word came", False
