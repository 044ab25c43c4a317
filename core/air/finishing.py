"""The earliest instant by which a set of items can have run: F[S], with time turned round."""

from dataclasses import replace

from core.air.fitting import Fitting
from core.air.frontier import Frontier, repeats_fact
from core.air.latest import Latest
from core.air.model import Demand, Fixed, Since
from core.air.spans import EVER_MS


def earliest_finish(fitting: Fitting, mask: int, since: Since) -> int | None:
    """When the last of the set is over at the earliest; None: not all of them have place.

    The last end with time turned round is the first start: the same reckoning answers both.
    """
    turned = [_turned(demand) for demand in fitting.demands]
    bound = Since(
        fitting.gap_ms - since.item_ms, fitting.break_gap_ms - since.break_ms, since.sponsor
    )
    if isinstance(fitting.sets, Latest):
        found_ms = Latest(turned, fitting.gap_ms, bound.item_ms).latest(mask)
        return None if found_ms == -EVER_MS else -found_ms
    fixed = [_fixed(each) for each in reversed(fitting.fixed)]
    sets = Frontier(turned, fitting.gap_ms, fitting.break_gap_ms, fixed, bound)
    ends = [
        -item_ms
        for passed in range(len(fixed) + 1)
        for item_ms, _, before in sets.points(mask, passed)
        if not (passed < len(fixed) and item_ms == fixed[passed].at_ms)
        and not (passed and repeats_fact(sets.number(fixed[passed - 1].sponsor), before))
        and not (passed and item_ms < fixed[passed - 1].at_ms)
    ]
    return min(ends, default=None)


def _turned(demand: Demand) -> Demand:
    starts = tuple(
        (-high - demand.length_ms, -low - demand.length_ms) for low, high in reversed(demand.starts)
    )
    return replace(demand, starts=starts)


def _fixed(each: Fixed) -> Fixed:
    return Fixed(each.id, -each.to_ms, -each.at_ms, each.sponsor)
