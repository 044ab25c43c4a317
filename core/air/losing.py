"""What an item on the air or placed loses as things stand, by how much, and the ways out."""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from core.air.cutting import gap_ms, is_sponsored, margins
from core.air.model import Against, Day, Loss, Moment, Way
from core.air.running import Running, Stands
from core.air.spans import EVER_MS, Spans

Move = Callable[[str], int | None]
"""Where a placed item could go instead; None: nowhere."""

CALLS_BACK = frozenset({Against.MOMENT, Against.JUNCTION, Against.OFF})
"""What the presenter must be there for, or what nothing of ours may outlast."""


_AS_IT_BEGINS = frozenset({Against.EARLY, Against.ITEM, Against.SPONSOR})


def losses(items: Sequence[Running], day: Day, now_ms: int, move: Move) -> tuple[Loss, ...]:
    """All that is lost: by the network's absence, then by items in the order of their starts."""
    return Losing(items, day).at(now_ms, move)


@dataclass(frozen=True, slots=True)
class _Known:
    """What something placed loses while so many live moments are over and it could go there."""

    over: int
    to_ms: int | None
    losses: tuple[Loss, ...]


class Losing:
    """The same, second by second.

    What is placed and still to come loses the same from one second to the next, until a live moment
    is over or it could go elsewhere.
    """

    def __init__(self, items: Sequence[Running], day: Day) -> None:
        row = (one for one in items if one.stands in _IN_THE_ROW)
        self._row = sorted(row, key=lambda one: one.from_ms)
        self._day = day
        self._ends_ms = sorted(moment.until_ms for moment in day.moments)
        self._known: dict[str, _Known] = {}

    def at(self, now_ms: int, move: Move) -> tuple[Loss, ...]:
        """All that is lost at that moment; `move` says where something placed could go."""
        found = list(_away_lost(self._day, now_ms))
        over = bisect_right(self._ends_ms, now_ms)
        for place, one in enumerate(self._row):
            if one.stands is Stands.RUN:
                continue
            if one.stands is Stands.PLACED and one.from_ms >= now_ms:
                found += self._still(place, now_ms, over, move)
            else:
                found += self._of(place, now_ms, move)
        return tuple(found)

    def _still(self, place: int, now_ms: int, over: int, move: Move) -> tuple[Loss, ...]:
        item = self._row[place].item.id
        known = self._known.get(item)
        stands = known is not None and known.over == over
        if known is not None and stands and (not known.losses or move(item) == known.to_ms):
            return known.losses
        found = self._of(place, now_ms, move)
        to_ms = move(item) if found else None
        self._known[item] = _Known(over, to_ms, found)
        return found

    def _of(self, place: int, now_ms: int, move: Move) -> tuple[Loss, ...]:
        one, day, row = self._row[place], self._day, self._row
        beside = _beside(one, day, now_ms, row[:place], row[place + 1 :])
        found = []
        for against, of, by_ms, by_when_ms in (*_lost(one, day, now_ms), *beside):
            ways = _ways(one, now_ms, by_when_ms, move)
            after = any(_begins_in(one, each) for each in day.moments if each.id == of)
            found.append(Loss(one.item.id, against, of, by_ms, ways, by_when_ms, after))
        return tuple(found)


def begun_against(items: Sequence[Running], item: str, day: Day) -> tuple[Loss, ...]:
    """What an item on the air broke by beginning when it did: to be told before it begins.

    Sooner than it may run, too near to what ran before it, the same sponsor as the break before.
    """
    row = [
        replace(one, stands=Stands.PLACED) if one.item.id == item else one
        for one in items
        if one.item.id == item or one.stands is Stands.RUN
    ]
    from_ms = next(one.from_ms for one in row if one.item.id == item)
    found = losses(row, day, from_ms, lambda _: None)
    return tuple(replace(loss, ways=()) for loss in found if loss.against in _AS_IT_BEGINS)


def must_end_ms(on_air: Running, day: Day, now_ms: int) -> int | None:
    """When what is on the air must be over lest the presenter is not there; None if it is in time.

    None too where it cannot be cut, for it will not be.
    """
    if not on_air.item.can_cut and on_air.over_ms(now_ms) < 0:
        return None
    ends = (lost[3] for lost in _lost(on_air, day, now_ms) if lost[0] in CALLS_BACK)
    return min(ends, default=None)


def _away_lost(day: Day, now_ms: int) -> Iterator[Loss]:
    """The live moments during which the network has the air.

    Where nobody has said until when, only those that have begun.
    """
    for from_ms, to_ms in day.away:
        since_ms = max(from_ms, now_ms)
        end_ms = since_ms + 1 if to_ms >= EVER_MS else to_ms
        for one in day.moments:
            ours = not one.junction and one.until_ms > day.on_ms and one.back_by_ms < day.off_ms
            if ours and one.back_by_ms < end_ms and one.until_ms > since_ms:
                ways = ((Way.RETURN, max(now_ms, one.back_by_ms)),)
                yield Loss("", Against.MOMENT, one.id, end_ms - one.back_by_ms, ways)


_IN_THE_ROW = frozenset({Stands.RUN, Stands.ON_AIR, Stands.PLACED})

_Lost = tuple[Against, str, int, int]
"""What is lost, whose it is, by how much, and when the item would have to be over not to."""


def _lost(one: Running, day: Day, now_ms: int) -> Iterator[_Lost]:
    start_ms, end_ms = one.from_ms, one.end_ms(now_ms)
    item, runs = one.item, one.stands is Stands.ON_AIR
    if not runs and start_ms < now_ms:
        yield Against.PAST, item.id, now_ms - start_ms, end_ms
        return
    for moment in day.moments:
        yield from _moment_lost(one, day, moment, now_ms)
    if end_ms > day.off_ms:
        yield Against.OFF, "", end_ms - day.off_ms, day.off_ms
    for from_ms, to_ms in day.away:
        if start_ms < to_ms and end_ms > from_ms:
            yield Against.AWAY, "", min(end_ms, to_ms) - max(start_ms, from_ms), from_ms
    if item.latest_ms is not None and end_ms > item.latest_ms:
        yield Against.LATE, "", end_ms - item.latest_ms, item.latest_ms
    if item.earliest_ms is not None and start_ms < item.earliest_ms and not runs:
        yield Against.EARLY, "", item.earliest_ms - start_ms, end_ms
    if item.booked:
        yield from _outside(Against.BOOKED, "", item.booked, max(start_ms, now_ms), end_ms)
    if item.needs is not None:
        contact = day.lane(item.needs)
        yield from _outside(Against.CONTACT, item.needs, contact, max(start_ms, now_ms), end_ms)


def _moment_lost(one: Running, day: Day, moment: Moment, now_ms: int) -> Iterator[_Lost]:
    start_ms, end_ms = one.from_ms, one.end_ms(now_ms)
    before_ms, after_ms = margins(one.item, day, moment)
    late_ms = end_ms + before_ms - moment.back_by_ms
    soon_ms = moment.until_ms + after_ms - start_ms
    if late_ms <= 0 or soon_ms <= 0 or moment.until_ms <= now_ms:
        return
    kind = Against.JUNCTION if moment.junction else Against.MOMENT
    by_ms = soon_ms if _begins_in(one, moment) else late_ms
    yield kind, moment.id, by_ms, moment.back_by_ms - before_ms


def _begins_in(one: Running, moment: Moment) -> bool:
    """Whether a placed item would begin while the moment lasts, or too soon after it."""
    return one.stands is Stands.PLACED and one.from_ms >= moment.back_by_ms


def _outside(kind: Against, of: str, spans: Spans, from_ms: int, end_ms: int) -> Iterator[_Lost]:
    """How much of the item lies in none of the stretches, and when it would have to be over."""
    here = [(max(low, from_ms), min(high, end_ms)) for low, high in spans]
    held_ms = sum(high - low for low, high in here if high > low)
    if end_ms - from_ms > held_ms:
        first = next((high for low, high in spans if low <= from_ms < high), from_ms)
        yield kind, of, end_ms - from_ms - held_ms, first


def _beside(
    one: Running, day: Day, now_ms: int, earlier: Sequence[Running], later: Sequence[Running]
) -> Iterator[_Lost]:
    """What is too near, and the break before it if the same sponsor has it.

    What is on the air is in the way of what comes after it; else the later is too near.
    """
    end_ms = one.end_ms(now_ms)
    if one.stands is Stands.ON_AIR:
        for other in later:
            between_ms = gap_ms(day, one.item, other.item)
            if end_ms + between_ms > other.from_ms:
                short_ms = end_ms + between_ms - other.from_ms
                yield Against.ITEM, other.item.id, short_ms, other.from_ms - between_ms
        return
    if one.from_ms < now_ms:
        return
    for other in earlier:
        short_ms = other.end_ms(now_ms) + gap_ms(day, other.item, one.item) - one.from_ms
        if short_ms > 0 and other.stands is not Stands.ON_AIR:
            yield Against.ITEM, other.item.id, short_ms, end_ms
    before = next((each for each in reversed(earlier) if each.item.kind == one.item.kind), None)
    if before is not None and is_sponsored(one.item) and before.item.sponsor == one.item.sponsor:
        yield Against.SPONSOR, before.item.id, 0, end_ms


def _ways(
    one: Running, now_ms: int, by_when_ms: int, move: Move
) -> tuple[tuple[Way, int | None], ...]:
    end_ms = one.end_ms(now_ms)
    if one.stands is Stands.PLACED:
        to_ms = move(one.item.id)
        return ((Way.NONE, None),) if to_ms is None else ((Way.MOVE, to_ms),)
    if one.item.can_cut or one.over_ms(now_ms) >= 0:
        return ((Way.END, max(now_ms, by_when_ms)),)
    return ((Way.REJOIN, end_ms + one.item.turnaround_ms),)
