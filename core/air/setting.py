"""Items set one after the other, each as early as it may, all the rest still having place."""

from collections.abc import Iterator

from core.air.fitting import Fitting
from core.air.model import Demand, Placement, Since
from core.air.spans import first_from, holding
from core.air.subsets import bits

_WRITTEN_MS = (10_000, 1_000)
"""Starts are written on ten seconds, or on the second, where that costs nothing."""

_FACT = -1


def placed(fitting: Fitting, chosen: int, since: Since) -> tuple[Placement, ...]:
    """Places for all of a set that has place; ValueError for one that has none."""
    places: list[Placement] = []
    passed = 0
    while chosen:
        since, passed = fitting.gone_by(since, passed)
        at_ms, _, _, one = min(_ways(fitting, chosen, since, passed))
        if one == _FACT:
            passed += 1
            since = fitting.passed(passed, since)
            continue
        demand = fitting.demands[one]
        chosen &= ~(1 << one)
        places.append(Placement(demand.id, at_ms, at_ms + demand.length_ms))
        since = _after(fitting, demand, at_ms + demand.length_ms, since)
    return tuple(places)


def _after(fitting: Fitting, demand: Demand, end_ms: int, since: Since) -> Since:
    if not demand.is_break:
        return Since(end_ms + fitting.gap_ms, since.break_ms, since.sponsor, since.ours)
    break_ms = end_ms + fitting.break_gap_ms
    return Since(end_ms + fitting.gap_ms, break_ms, demand.sponsor, ours=True)


def _ways(
    fitting: Fitting, chosen: int, since: Since, passed: int
) -> Iterator[tuple[int, bool, int, int]]:
    """(start, not owed, last chance, number) of whichever may come next; the next fact may, too.

    It comes where everything else would start later: whatever has to be before it starts before it.
    """
    for one in bits(chosen):
        demand = fitting.demands[one]
        from_ms = max(since.item_ms, since.break_ms) if demand.is_break else since.item_ms
        at_ms = first_from(demand.starts, from_ms)
        bound_ms = fitting.bound(one, chosen & ~(1 << one), since, passed)
        if at_ms is not None and at_ms <= bound_ms:
            yield _rounded(demand, at_ms, bound_ms), not demand.owed, demand.starts[-1][1], one
    if passed < len(fitting.fixed) and fitting.can(
        chosen, fitting.passed(passed + 1, since), passed + 1
    ):
        yield fitting.fixed[passed].at_ms, False, 0, _FACT


def _rounded(demand: Demand, at_ms: int, bound_ms: int) -> int:
    """The start as one would write it, if it may be that late."""
    stretch = holding(demand.starts, at_ms)
    last_ms = bound_ms if stretch is None else min(bound_ms, stretch[1])
    rounded = (-(-at_ms // step_ms) * step_ms for step_ms in _WRITTEN_MS)
    return next((up_ms for up_ms in rounded if up_ms <= last_ms), at_ms)
