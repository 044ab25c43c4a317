"""Where an item may start: its own limits, less all that it must keep clear of."""

from collections.abc import Iterable, Sequence

from core.air.model import Against, Day, Demand, Moment, Obstacle
from core.air.spans import ALWAYS, Spans, starts_inside, within, without
from core.plan.model import Item

Placed = tuple[Item, int]
"""An item whose start is a fact."""

BREAK = "break"


def gap_ms(day: Day, one: Item, other: Item) -> int:
    """What must lie between the two, from end to start."""
    both = one.kind == BREAK and other.kind == BREAK
    return max(day.item_gap_ms, day.break_gap_ms) if both else day.item_gap_ms


def demand(item: Item, day: Day, placed: Sequence[Placed] = ()) -> Demand:
    """The item with its possible starts."""
    starts = _apart(own_starts(item, day), item, day, placed)
    expected = clear_of(starts, item, day, day.moments)
    quiet = within(expected, starts_inside(day.quiet, item.length_ms)) if item.prefers else ()
    return Demand(
        id=item.id,
        length_ms=item.length_ms,
        starts=expected,
        safe=clear_of(expected, item, day, day.moments, early=True),
        is_break=item.kind == BREAK,
        sponsor=item.sponsor if item.kind == BREAK else "",
        owed=item.owed,
        weight=item.weight,
        quiet=quiet,
    )


def own_starts(item: Item, day: Day, *, but: frozenset[Against] = frozenset()) -> Spans:
    """The starts that its own limits, its line and the hours of the programme allow.

    `but` leaves some of them out: to see what stands in its way.
    """
    starts = ALWAYS
    if Against.OFF not in but:
        starts = within(starts, [(day.on_ms, day.off_ms - item.length_ms)])
    if Against.WINDOW not in but:
        starts = within(starts, [_window(item)])
    if item.booked and Against.BOOKED not in but:
        starts = within(starts, starts_inside(item.booked, item.length_ms))
    if item.needs is not None and Against.CONTACT not in but:
        starts = within(starts, starts_inside(day.lane(item.needs), item.length_ms))
    if Against.AWAY not in but:
        for from_ms, to_ms in day.away:
            starts = without(starts, from_ms - item.length_ms, to_ms)
    return starts


def _window(item: Item) -> tuple[int, int]:
    low, high = ALWAYS[0]
    first_ms = low if item.earliest_ms is None else item.earliest_ms
    last_ms = high if item.latest_ms is None else item.latest_ms - item.length_ms
    return first_ms, last_ms


def clear_of(
    starts: Spans, item: Item, day: Day, moments: Iterable[Moment], *, early: bool = False
) -> Spans:
    """The starts at which no live moment and no junction is lost."""
    for moment in moments:
        before_ms, after_ms = margins(item, day, moment)
        back_by_ms = moment.early_back_by_ms if early else moment.back_by_ms
        starts = without(
            starts, back_by_ms - item.length_ms - before_ms, moment.until_ms + after_ms
        )
    return starts


def margins(item: Item, day: Day, moment: Moment) -> tuple[int, int]:
    """What must lie between the item and a moment, on either side of the moment.

    A sponsored break keeps its distance from live moments; a junction is none.
    """
    aside_ms = day.item_gap_ms if is_sponsored(item) and not moment.junction else 0
    return max(item.turnaround_ms, aside_ms), aside_ms


def is_sponsored(item: Item) -> bool:
    """Whether it is a break that somebody pays for."""
    return item.kind == BREAK and bool(item.sponsor)


def _apart(starts: Spans, item: Item, day: Day, placed: Sequence[Placed]) -> Spans:
    """The starts that keep their distance from what is placed."""
    for other, at_ms in placed:
        between_ms = gap_ms(day, item, other)
        starts = without(
            starts,
            at_ms - between_ms - item.length_ms,
            at_ms + other.length_ms + between_ms,
        )
    return starts


def in_the_way(
    item: Item, day: Day, placed: Sequence[Placed], from_ms: int
) -> tuple[Obstacle, ...]:
    """What leaves the item no start from then on: each of them, were it not there, would give one.

    Empty where no single one is to blame, or where none of them is.
    """
    own = own_starts(item, day)
    apart = _apart(own, item, day, placed)
    if _has_start(apart, item, day, day.moments, from_ms):
        return ()
    found = [
        Obstacle(kind)
        for kind in (Against.WINDOW, Against.BOOKED, Against.CONTACT, Against.AWAY, Against.OFF)
        if _has_start(
            _apart(own_starts(item, day, but=frozenset({kind})), item, day, placed),
            item,
            day,
            day.moments,
            from_ms,
        )
    ]
    for moment in day.moments:
        others = [other for other in day.moments if other is not moment]
        if _has_start(apart, item, day, others, from_ms):
            kind = Against.JUNCTION if moment.junction else Against.MOMENT
            found.append(Obstacle(kind, moment.id))
    for each in placed:
        rest = [other for other in placed if other is not each]
        if _has_start(_apart(own, item, day, rest), item, day, day.moments, from_ms):
            found.append(Obstacle(Against.ITEM, each[0].id))
    return tuple(found)


def _has_start(
    starts: Spans, item: Item, day: Day, moments: Iterable[Moment], from_ms: int
) -> bool:
    left = clear_of(starts, item, day, moments)
    return bool(left) and left[-1][1] >= from_ms
