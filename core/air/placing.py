"""A place for everything owed, and for as much else as has room, that loses no live moment.

Which items run is proven: all that is owed, else the heaviest set of it; then the heaviest set of
the rest beside it. Where they go is chosen so: what prefers a gap goes into one if that costs no
other item its place; then as early as may be, one after the other, and of those that could start
at the same instant the one whose last chance comes first. Each step is only taken if all the rest
still has place after it. Starts are on the minute and at least half a minute ahead where that can
be had, so that what is proposed stays as it is while one reads it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from core.air.fitting import Fitting
from core.air.model import Demand, Placement, Since
from core.air.spans import EVER_MS, first_from, holding
from core.air.subsets import affordable, bits, heaviest

_STEADY_MS = (60_000, 10_000)
_WRITTEN_MS = (10_000, 1_000)
_AHEAD_MS = 30_000


@dataclass(frozen=True, slots=True)
class Proposal:
    """What goes where, in order of time. `left` are owed items that have no place.

    `proven` is False where there were too many items at once: then one may have place that is
    left, or that was not placed.
    """

    places: tuple[Placement, ...]
    left: tuple[str, ...] = ()
    proven: bool = True


def propose(
    fitting: Fitting, now_ms: int, since: Since, *, only: frozenset[str] | None = None
) -> Proposal:
    """The best placement from `now_ms` on; `only` leaves all but those out."""
    asked = sum(1 << n for n, each in enumerate(fitting.demands) if only is None or each.id in only)
    wanted = _wanted(fitting, since) & asked
    start = next(
        (later for later in _steady(now_ms, since) if fitting.can(wanted, later)),
        since,
    )
    chosen, proven = _with_others(fitting, wanted, asked, start)
    narrowed = _into_gaps(fitting, chosen, start)
    places = _placed(narrowed, chosen, start)
    left = tuple(
        each.id
        for n, each in enumerate(fitting.demands)
        if each.owed and asked >> n & 1 and not chosen >> n & 1
    )
    return Proposal(places, left, proven and not fitting.unproven)


def _wanted(fitting: Fitting, since: Since) -> int:
    return fitting.owed if fitting.can(fitting.owed, since) else fitting.most(since)


def _steady(now_ms: int, since: Since) -> Iterable[Since]:
    """From when on things may start: on the minute, if need be on ten seconds."""
    for step_ms in _STEADY_MS:
        ahead_ms = max(now_ms + _AHEAD_MS, since.item_ms)
        yield replace(since, item_ms=-(-ahead_ms // step_ms) * step_ms)


def _with_others(fitting: Fitting, wanted: int, asked: int, since: Since) -> tuple[int, bool]:
    """The heaviest set of all that is asked for, with what is wanted in it."""
    demands = fitting.demands
    others = asked & ~wanted & ~_owed(demands)
    kept = affordable(demands, others | wanted, fitting.break_gap_ms) & others
    proven = kept == others
    for extra in heaviest(demands, kept):
        if fitting.can(wanted | extra, since):
            return wanted | extra, proven
    return wanted, proven


def _owed(demands: Sequence[Demand]) -> int:
    return sum(1 << n for n, each in enumerate(demands) if each.owed)


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


def _narrowed(fitting: Fitting, numbers: Sequence[int]) -> Fitting:
    if not numbers:
        return fitting
    demands = list(fitting.demands)
    for n in numbers:
        demands[n] = replace(demands[n], starts=demands[n].quiet)
    return Fitting(demands, fitting.gap_ms, fitting.break_gap_ms, fitting.fixed)


def _placed(fitting: Fitting, chosen: int, since: Since) -> tuple[Placement, ...]:
    """One after the other, each as early as it may, as long as the rest still has place."""
    places: list[Placement] = []
    passed = 0
    while chosen:
        ways = list(_ways(fitting, chosen, since, passed))
        if not ways:
            raise ValueError("the set has no place")
        at_ms, _, one = min(ways)
        if one < 0:
            passed += 1
            since = fitting.passed(passed, since)
            continue
        demand = fitting.demands[one]
        end_ms = at_ms + demand.length_ms
        places.append(Placement(demand.id, at_ms, end_ms))
        chosen &= ~(1 << one)
        since = Since(
            end_ms + fitting.gap_ms,
            end_ms + fitting.break_gap_ms if demand.is_break else since.break_ms,
            demand.sponsor if demand.is_break else since.sponsor,
        )
    return tuple(places)


def _ways(
    fitting: Fitting, chosen: int, since: Since, passed: int
) -> Iterable[tuple[int, int, int]]:
    """(start, last chance, number) of whichever may come next; -1 is the next fact."""
    next_fact_ms = fitting.fixed[passed].at_ms if passed < len(fitting.fixed) else EVER_MS
    for one in bits(chosen):
        demand = fitting.demands[one]
        from_ms = max(since.item_ms, since.break_ms) if demand.is_break else since.item_ms
        at_ms = first_from(demand.starts, from_ms)
        bound_ms = fitting.bound(one, chosen & ~(1 << one), since, passed)
        if at_ms is not None and at_ms <= min(bound_ms, next_fact_ms):
            yield _rounded(demand, at_ms, bound_ms), demand.starts[-1][1], one
    if next_fact_ms < EVER_MS and fitting.can(
        chosen, fitting.passed(passed + 1, since), passed + 1
    ):
        yield next_fact_ms, 0, -1


def _rounded(demand: Demand, at_ms: int, bound_ms: int) -> int:
    """The start as one would write it, if it may be that late."""
    stretch = holding(demand.starts, at_ms)
    last_ms = bound_ms if stretch is None else min(bound_ms, stretch[1])
    rounded = (-(-at_ms // step_ms) * step_ms for step_ms in _WRITTEN_MS)
    return next((up_ms for up_ms in rounded if up_ms <= last_ms), at_ms)
