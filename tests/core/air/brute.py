"""Small days tried out start by start: every rule looked at by itself, nothing clever."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.air.model import Day, Moment
from core.plan.model import Item


@dataclass(frozen=True)
class Trial:
    """A small day with its items; what is placed, and what ran last: end, end of break, sponsor."""

    day: Day
    items: tuple[Item, ...]
    placed: tuple[tuple[Item, int], ...] = ()
    now: int = 0
    last_end: int | None = None
    last_break_end: int | None = None
    last_sponsor: str = ""


def tried(trial: Trial, item: Item, start: int) -> bool:
    """Whether the item could run there, all others apart."""
    day = trial.day
    end = start + item.length_ms
    rules = (
        start >= max(trial.now, day.on_ms),
        end <= day.off_ms,
        item.earliest_ms is None or start >= item.earliest_ms,
        item.latest_ms is None or end <= item.latest_ms,
        trial.last_end is None or start >= trial.last_end + day.item_gap_ms,
        item.kind != "break"
        or trial.last_break_end is None
        or start >= trial.last_break_end + max(day.item_gap_ms, day.break_gap_ms),
        not item.booked or any(low <= start and end <= high for low, high in item.booked),
        item.needs is None
        or any(low <= start and end <= high for low, high in day.lane(item.needs)),
        all(end <= low or start >= high for low, high in day.away),
        all(_misses(day, item, start, moment) for moment in day.moments),
    )
    return all(rules)


def _misses(day: Day, item: Item, start: int, moment: Moment) -> bool:
    paid = item.kind == "break" and bool(item.sponsor) and not moment.junction
    end = start + item.length_ms
    ends_well = end + item.turnaround_ms <= moment.back_by_ms
    begins_well = start >= moment.until_ms
    if paid:
        ends_well = ends_well and end + day.item_gap_ms <= moment.back_by_ms
        begins_well = start >= moment.until_ms + day.item_gap_ms
    return ends_well or begins_well


def agree(trial: Trial, places: Mapping[str, int]) -> bool:
    """Whether items at those starts agree with each other and with what is placed."""
    day = trial.day
    known = {item.id: item for item in trial.items}
    chosen = [(start, known[name], False) for name, start in places.items()]
    row = sorted(
        [*chosen, *((start, item, True) for item, start in trial.placed)],
        key=lambda each: each[0],
    )
    for number, (start, item, fact) in enumerate(row):
        for later, other, other_fact in row[number + 1 :]:
            both = item.kind == other.kind == "break"
            gap = max(day.item_gap_ms, day.break_gap_ms) if both else day.item_gap_ms
            if not (fact and other_fact) and later < start + item.length_ms + gap:
                return False
    breaks = [(trial.last_sponsor, True)] if trial.last_break_end is not None else []
    breaks += [(item.sponsor, fact) for _, item, fact in row if item.kind == "break"]
    return not any(
        one and one == other and not (fact and other_fact)
        for (one, fact), (other, other_fact) in pairwise(breaks)
    )


def placements(
    trial: Trial, wanted: Sequence[Item], given: Mapping[str, int], after: int = -1
) -> Iterator[Mapping[str, int]]:
    """Every way to place all of them beside what is given, each later than `after`."""
    if not wanted:
        if agree(trial, given):
            yield given
        return
    first, *rest = wanted
    for start in range(max(trial.now, after + 1), trial.day.off_ms):
        if tried(trial, first, start) and _apart(trial, given, first, start):
            yield from placements(trial, rest, {**given, first.id: start}, after)


def _apart(trial: Trial, given: Mapping[str, int], item: Item, start: int) -> bool:
    """A quick look: overlapping ones need not be gone on with."""
    lengths = {each.id: each.length_ms for each in trial.items}
    return all(
        start + item.length_ms <= other or start >= other + lengths[name]
        for name, other in given.items()
    )
