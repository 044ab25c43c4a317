"""Why an owed item has no place: what stands in its way, or which items do not fit together."""

from collections.abc import Sequence
from dataclasses import replace

from core.air.cutting import Placed, in_the_way
from core.air.fitting import Fitting
from core.air.model import Against, Conflict, Day, Obstacle, Since
from core.air.subsets import bits
from core.plan.model import Item


def conflict(
    fitting: Fitting,
    item: Item,
    day: Day,
    placed: Sequence[Placed],
    since: Since,
) -> Conflict:
    """The proof in short: a set of owed items, that one first, that cannot all be placed.

    None of the others can be left out: without it the rest have place. Alone, the item comes with
    what stands in its way, where a single thing does.
    """
    one = fitting.index[item.id]
    alone = 1 << one
    if not fitting.can(alone, since):
        if fitting.can(alone, replace(since, sponsor="")):
            return Conflict((item.id,), (Obstacle(Against.SPONSOR),))
        return Conflict((item.id,), in_the_way(item, day, placed, since.item_ms))
    together = fitting.owed | alone
    for other in bits(fitting.owed & ~alone):
        without = together & ~(1 << other)
        if not fitting.can(without, since):
            together = without
    others = (fitting.demands[number].id for number in bits(together & ~alone))
    return Conflict((item.id, *others))
