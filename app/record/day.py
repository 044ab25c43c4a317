"""What the day's strip shows, cut into stretches that one picture each can hold."""

from dataclasses import dataclass

from core.board.sight import role
from core.session.record.model import DayRecord, EventRow, ItemRow, LaneDay
from core.times.writing import HOUR_MS, MINUTE_MS

_AROUND_MS = 4 * MINUTE_MS
_MOST_LABELS = 46
_LONGEST_MS = 6 * HOUR_MS
_MOST_PICTURES = 12
_LEAST_MS = 5 * MINUTE_MS


@dataclass(frozen=True, slots=True)
class Mark:
    """An event on the strip: when it was, or was expected, and whether anybody confirmed it."""

    at_ms: int
    row: EventRow


@dataclass(frozen=True, slots=True)
class Strip:
    """A stretch of the day with all that lies in it."""

    from_ms: int
    to_ms: int
    lanes: tuple[tuple[LaneDay, str], ...]
    """Each with its role."""
    marks: tuple[Mark, ...]
    items: tuple[ItemRow, ...]


def strips(record: DayRecord) -> tuple[Strip, ...]:
    """The day in as few stretches as can be read, equally long where there is more than one."""
    from_ms, to_ms = record.begin_ms - _AROUND_MS, record.end_ms + _AROUND_MS
    marks = _marks(record, from_ms, to_ms)
    lanes = tuple((lane, role(lane.id)) for lane in record.lanes)
    spans = _spans(from_ms, to_ms, [mark.at_ms for mark in marks])
    return tuple(
        Strip(
            low,
            high,
            lanes,
            tuple(mark for mark in marks if low <= mark.at_ms < high),
            tuple(row for row in record.items if _is_in(row, low, high, record.end_ms)),
        )
        for low, high in spans
    )


def item_end_ms(row: ItemRow, end_ms: int) -> int:
    """When an item ended; one that was on the air still, the end of the record."""
    return end_ms if row.to_ms is None else row.to_ms


def _is_in(row: ItemRow, from_ms: int, to_ms: int, end_ms: int) -> bool:
    begun_ms = row.from_ms
    return begun_ms is not None and begun_ms < to_ms and item_end_ms(row, end_ms) > from_ms


def _marks(record: DayRecord, from_ms: int, to_ms: int) -> tuple[Mark, ...]:
    timed = (
        Mark(row.last_ms, row)
        for row in record.events
        if row.last_ms is not None and from_ms <= row.last_ms < to_ms
    )
    return tuple(sorted(timed, key=lambda mark: mark.at_ms))


def _spans(from_ms: int, to_ms: int, at_ms: list[int]) -> list[tuple[int, int]]:
    """Halved again where too many labels stand together, but never to less than minutes."""
    longest_ms = max(_LONGEST_MS, (to_ms - from_ms) // _MOST_PICTURES + 1)
    count = -(-(to_ms - from_ms) // longest_ms)
    each_ms = -(-(to_ms - from_ms) // count)
    found: list[tuple[int, int]] = []
    for number in range(count):
        low = from_ms + number * each_ms
        found += _halved(low, min(low + each_ms, to_ms), at_ms)
    return found


def _halved(low: int, high: int, at_ms: list[int]) -> list[tuple[int, int]]:
    inside = sum(low <= each < high for each in at_ms)
    if inside <= _MOST_LABELS or high - low < 2 * _LEAST_MS:
        return [(low, high)]
    middle = (low + high) // 2
    return [*_halved(low, middle, at_ms), *_halved(middle, high, at_ms)]
