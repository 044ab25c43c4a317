"""The programme of the day: items as they ran, what is to be made good, and the network's hours."""

from collections.abc import Mapping, Sequence

from core.air.running import Programme, Running, Stands
from core.entries.aired import Aired, aired
from core.entries.airing import Begin, Drop
from core.entries.model import Entry
from core.plan.model import Item, Plan
from core.session.record.happenings import credit_of
from core.session.record.model import Absence, Credit, Ended, ItemRow
from core.times.writing import SECOND_MS


def item_rows(plan: Plan, standing: Sequence[Entry], end_ms: int) -> tuple[ItemRow, ...]:
    """The items in the order in which they ran, then the others in the plan's order."""
    told = aired(standing)
    whose = _credits(standing)
    rows = [_row(one, told, whose, plan, end_ms) for one in Programme(plan.items, told).items]
    return tuple(sorted(rows, key=lambda row: (row.from_ms is None, row.from_ms or 0)))


def absences(standing: Sequence[Entry]) -> tuple[Absence, ...]:
    """The stretches in which the network had the air."""
    return tuple(Absence(each.from_ms, each.until_ms) for each in aired(standing).away)


def _credits(standing: Sequence[Entry]) -> Mapping[str, Credit]:
    """Whose word each item rests on: that it began, or that it was dropped."""
    return {
        entry.action.item: credit_of(entry)
        for entry in standing
        if isinstance(entry.action, Begin | Drop)
    }


def _row(
    one: Running, told: Aired, whose: Mapping[str, Credit], plan: Plan, end_ms: int
) -> ItemRow:
    item, ran = one.item, told.ran(one.item.id)
    begun = one.stands in (Stands.RUN, Stands.ON_AIR)
    ended = _ended(one, plan, end_ms)
    over_ms = one.over_ms(end_ms) if begun else None
    return ItemRow(
        item.id,
        item.kind,
        item.name,
        item.length_ms,
        ended,
        item.sponsor,
        owed=item.owed,
        placed_ms=item.at_ms if ran.placed_ms is None else ran.placed_ms,
        from_ms=one.from_ms if begun else None,
        to_ms=one.to_ms if begun else None,
        over_ms=over_ms,
        make_good_ms=_make_good_ms(item, ended, over_ms),
        credit=whose.get(item.id, Credit()),
    )


def _ended(one: Running, plan: Plan, end_ms: int) -> Ended:
    if one.stands is Stands.RUN:
        return Ended.RAN
    if one.stands is Stands.ON_AIR:
        return Ended.ON_AIR
    dropped = one.stands is Stands.DROPPED
    if not one.item.owed:
        return Ended.DROPPED if dropped else Ended.NOT_RUN
    return Ended.LOST if dropped or _is_too_late(one.item, plan, end_ms) else Ended.OWED


def _is_too_late(item: Item, plan: Plan, end_ms: int) -> bool:
    """Whether its hours, or the programme's, are over."""
    off_ms = None if plan.air is None else plan.air.off_ms
    limits = [limit_ms for limit_ms in (item.latest_ms, off_ms) if limit_ms is not None]
    return any(limit_ms < end_ms for limit_ms in limits)


def _make_good_ms(item: Item, ended: Ended, over_ms: int | None) -> int:
    """What of an owed item is to be made good: all of a lost one, what one that ran is short by."""
    if ended is Ended.LOST:
        return item.length_ms
    short_ms = -(over_ms or 0)
    return short_ms if item.owed and ended is Ended.RAN and short_ms >= SECOND_MS else 0
