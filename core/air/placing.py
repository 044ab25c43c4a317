"""A place for everything owed, and for as much else as has room, that loses no live moment.

Which items run is proven: all that is owed, else the heaviest set of it; then the heaviest set of
the rest beside it. Where they go is chosen so: what prefers a gap goes into one if that costs no
other item its place; breaks lie up to twice as far apart as they must, likewise; then as early as
may be, one after the other, and of those that could start at the same instant what is owed first,
then the one whose last chance comes first. Each step is only taken if all the rest still has place
after it. The first start is on the minute and at least half a minute ahead where that can be had,
so that what is proposed stays as it is while one reads it; all others are on ten seconds, or on the
second, where that costs nothing.

Of more items than can be tried at once the most pressing are placed first, then the others in what
is left: a placement found so is good, but one that was not found is no proof.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from core.air.fitting import Fitting
from core.air.heaviest import heaviest_that
from core.air.model import Demand, Fixed, Placement, Since
from core.air.setting import placed
from core.air.spans import without
from core.air.subsets import affordable, bits

_STEADY_MS = (60_000, 10_000)
_AHEAD_MS = 30_000
_ROUNDS = 6
"""So often what is left is tried: some seventy items, more than a day has."""

_QUICK = 1_000
"""So many sets are looked at again without anybody noticing."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """What goes where, in order of time. `left` are owed items that have no place.

    `proven` is False where there were too many items at once: then one may have place that is
    left, or that was not placed.
    """

    places: tuple[Placement, ...]
    left: tuple[str, ...] = ()
    proven: bool = True


def propose(fitting: Fitting, now_ms: int, since: Since) -> Proposal:
    """The best placement from `now_ms` on."""
    demands = fitting.demands
    places: list[Placement] = []
    proven = not fitting.unproven
    for _ in range(_ROUNDS):
        found, all_tried = _round(fitting, now_ms, since)
        places += found
        proven = proven and all_tried
        if not found or (all_tried and not fitting.unproven):
            break
        fitting = _beside(fitting, found)
    done = {each.item for each in places}
    left = tuple(each.id for each in demands if each.owed and each.id not in done)
    return Proposal(tuple(sorted(places, key=lambda each: each.from_ms)), left, proven)


def _round(fitting: Fitting, now_ms: int, since: Since) -> tuple[tuple[Placement, ...], bool]:
    """Places for as many items as can be tried at once, and whether those are proven to be best."""
    wanted, sure = heaviest_that(
        fitting.demands, fitting.owed, lambda mask: fitting.can(mask, since)
    )
    start = next((at for at in _steady(now_ms, since) if fitting.can(wanted, at)), since)
    demands = fitting.demands
    others = [n for n, each in enumerate(demands) if not each.owed and each.starts]
    others.sort(key=lambda n: -demands[n].weight)
    kept = affordable(demands, [*bits(wanted), *others], fitting.break_gap_ms) & ~wanted
    extra, best = heaviest_that(demands, kept, lambda mask: fitting.can(wanted | mask, start))
    chosen = wanted | extra
    spread = _spread(_into_gaps(fitting, chosen, start), chosen, start)
    return placed(spread, chosen, start), sure and best and len(others) == kept.bit_count()


def _steady(now_ms: int, since: Since) -> Iterable[Since]:
    """From when on things may start: on the minute, if need be on ten seconds."""
    for step_ms in _STEADY_MS:
        ahead_ms = max(now_ms + _AHEAD_MS, since.item_ms)
        yield replace(since, item_ms=-(-ahead_ms // step_ms) * step_ms)


def _beside(fitting: Fitting, found: Sequence[Placement]) -> Fitting:
    """The items that are left, kept clear of those that were placed."""
    known = {each.id: each for each in fitting.demands}
    facts = [(known[each.item], each) for each in found]
    demands = [
        replace(each, starts=_clear(fitting, each, facts), quiet=())
        for each in fitting.demands
        if each.id not in {fact.id for fact, _ in facts}
    ]
    breaks = [
        Fixed(fact.id, at.from_ms, at.to_ms, fact.sponsor) for fact, at in facts if fact.is_break
    ]
    fixed = sorted([*fitting.fixed, *breaks], key=lambda each: each.at_ms)
    return Fitting(demands, fitting.gap_ms, fitting.break_gap_ms, fixed)


def _clear(
    fitting: Fitting, demand: Demand, facts: Sequence[tuple[Demand, Placement]]
) -> tuple[tuple[int, int], ...]:
    starts = demand.starts
    for fact, at in facts:
        both = fact.is_break and demand.is_break
        between_ms = fitting.break_gap_ms if both else fitting.gap_ms
        from_ms = at.from_ms - between_ms - demand.length_ms
        starts = without(starts, from_ms, at.to_ms + between_ms)
    return starts


def _into_gaps(fitting: Fitting, chosen: int, since: Since) -> Fitting:
    """With those that prefer a gap held to one, as long as all still have place."""
    asking = [n for n in bits(chosen) if fitting.demands[n].quiet]
    together = _narrowed(fitting, asking)
    if not asking or together.can(chosen, since):
        return together
    for n in sorted(asking, key=lambda n: -fitting.demands[n].weight):
        alone = _narrowed(fitting, [n])
        if alone.can(chosen, since):
            fitting = alone
    return fitting


def _spread(fitting: Fitting, chosen: int, since: Since) -> Fitting:
    """With breaks further apart than they must be, if that costs nothing else its place.

    Not where so many sets have to be looked at that it would take long.
    """
    breaks = [n for n in bits(chosen) if fitting.demands[n].is_break]
    if len(breaks) < 2 or fitting.sets.looked_at > _QUICK:
        return fitting
    for gap_ms in (2 * fitting.break_gap_ms, 3 * fitting.break_gap_ms // 2):
        wider = Fitting(fitting.demands, fitting.gap_ms, gap_ms, fitting.fixed)
        if wider.can(chosen, since):
            return wider
    return fitting


def _narrowed(fitting: Fitting, numbers: Sequence[int]) -> Fitting:
    if not numbers:
        return fitting
    demands = list(fitting.demands)
    for n in numbers:
        demands[n] = replace(demands[n], starts=demands[n].quiet)
    return Fitting(demands, fitting.gap_ms, fitting.break_gap_ms, fitting.fixed)
