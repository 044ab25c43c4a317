"""What fits: asked of all sets of the items still to run, at any moment, without working anew.

The sets' latest starts are instants, so a tick only compares. See `core.air.latest` for the
uniform case and `core.air.frontier` where breaks or sponsors keep apart.
"""

from collections.abc import Iterator, Sequence

from core.air.frontier import Frontier, repeats, repeats_fact
from core.air.heaviest import Heaviest
from core.air.latest import Latest
from core.air.model import Demand, Fits, Fixed, Since
from core.air.spans import EVER_MS, first_from, holding, last_until
from core.air.subsets import affordable, by_last_chance

_MOST_BOUNDS = 5_000


class Fitting:
    """The items still to run, those owed among them, and the breaks placed as facts, in order.

    `demands` have their starts cut clear of all that is placed: the facts bear on sponsors only,
    and are left out where nobody has any. `unproven` are owed items that were left out of the sets
    because there are too many of them that share their time.
    """

    def __init__(
        self,
        demands: Sequence[Demand],
        item_gap_ms: int,
        break_gap_ms: int,
        fixed: Sequence[Fixed] = (),
    ) -> None:
        self.demands = tuple(demands)
        self.index = {demand.id: number for number, demand in enumerate(demands)}
        sponsored = any(demand.sponsor for demand in demands)
        self.fixed = tuple(fixed) if sponsored else ()
        self.gap_ms, self.break_gap_ms = item_gap_ms, max(item_gap_ms, break_gap_ms)
        self.sets: Latest | Frontier
        if apart(demands, item_gap_ms, break_gap_ms):
            self.sets = Frontier(demands, item_gap_ms, break_gap_ms, self.fixed)
        else:
            self.sets = Latest(demands, item_gap_ms)
        owed = by_last_chance(demands)
        self.owed = affordable(demands, owed, self.break_gap_ms)
        self.unproven = tuple(demands[n].id for n in owed if not self.owed >> n & 1)
        self._heaviest = Heaviest(demands, self.owed)
        self._bounds: dict[tuple[int, int, int, str, bool, int], int] = {}
        self._able: tuple[Since, bool] | None = None

    # ------------------------------------------------------------ one item

    def fits(self, item: str, now_ms: int, since: Since, keep: int | None = None) -> Fits:
        """How that item fits at `now_ms`.

        `keep` are those that are to keep their place beside it where not all that is owed has one.
        """
        one = self.index[item]
        demand = self.demands[one]
        rest = self.owed & ~(1 << one)
        able = self._is_able(since) or (demand.is_break and not demand.owed)
        first_ms = self.first_start(one, now_ms, since)
        fits_now = first_ms == now_ms
        bound_ms = self.bound(one, rest, since) if able else -EVER_MS
        with_owed = fits_now and not self.unproven and now_ms <= bound_ms
        stretch = None if first_ms is None else holding(demand.starts, first_ms)
        safe = None if first_ms is None else holding(demand.safe, first_ms)
        leave_by_ms = None if stretch is None else stretch[1]
        if keep is not None and keep != self.owed:
            bound_ms = self.bound(one, keep & ~(1 << one), since)
        owed_by_ms = None if leave_by_ms is None else min(leave_by_ms, bound_ms)
        return Fits(
            item=item,
            fits_now=fits_now,
            fits_with_owed=with_owed,
            latest_start_ms=self.latest_start(one, rest, now_ms, since) if able else None,
            how=("safe" if safe is not None else "tight") if fits_now else "",
            first_start_ms=first_ms,
            leave_by_ms=leave_by_ms,
            owed_by_ms=owed_by_ms if owed_by_ms is not None and owed_by_ms >= now_ms else None,
            safe_until_ms=None if safe is None else safe[1],
        )

    def _is_able(self, since: Since) -> bool:
        """Whether all that is owed has place: if not, nothing leaves place for all the rest.

        But for a break nobody is owed: it may keep two of one sponsor apart.
        """
        if self._able is None or self._able[0] != since:
            self._able = since, self.can(self.owed, since)
        return self._able[1]

    def first_start(self, one: int, now_ms: int, since: Since) -> int | None:
        """The first start of that item, nothing else still to be placed."""
        for here, passed in self._stages(since):
            from_ms = max(now_ms, self._from_ms(one, here))
            at_ms = first_from(self.demands[one].starts, from_ms)
            if at_ms is not None and at_ms <= self.bound(one, 0, here, passed):
                return at_ms
        return None

    def latest_start(self, one: int, rest: int, now_ms: int, since: Since) -> int | None:
        """The latest start of that item with all the rest after it, placed breaks before it or not.

        None where there is none from `now_ms` on.
        """
        best_ms: int | None = None
        for here, passed in self._stages(since):
            at_ms = last_until(self.demands[one].starts, self.bound(one, rest, here, passed))
            if at_ms is not None and at_ms >= max(now_ms, self._from_ms(one, here)):
                best_ms = at_ms if best_ms is None else max(best_ms, at_ms)
        return best_ms

    def bound(self, one: int, rest: int, since: Since, passed: int = 0) -> int:
        """By when that item must start, as the next, for the rest to follow; -EVER_MS: it cannot.

        What must lie between it and what came before is not looked at, only whose break it was.
        """
        since, passed = self.gone_by(since, passed)
        key = (one, rest, since.break_ms, since.sponsor, since.ours, passed)
        known = self._bounds.get(key)
        if known is None:
            if len(self._bounds) > _MOST_BOUNDS:  # something runs over, so that breaks move
                self._bounds.clear()
            known = self._bounds[key] = self._bound(one, rest, since, passed)
        return known

    def _bound(self, one: int, rest: int, since: Since, passed: int) -> int:
        demand = self.demands[one]
        if demand.sponsor and demand.sponsor == since.sponsor:
            return -EVER_MS
        best_ms = -EVER_MS
        sponsor = self.sets.number(demand.sponsor)
        for item_ms, break_ms, before in self.sets.points(rest, passed):
            bound_ms = item_ms - demand.length_ms - self.gap_ms
            if demand.is_break:
                if repeats(sponsor, before):
                    continue
                bound_ms = min(bound_ms, break_ms - demand.length_ms - self.break_gap_ms)
            elif break_ms < since.break_ms or self._repeats(since, before):
                continue
            best_ms = max(best_ms, bound_ms)
        return best_ms

    # ------------------------------------------------------------ sets of them

    def can(self, mask: int, since: Since, passed: int = 0) -> bool:
        """Whether all of the set can be placed."""
        return self.latest_first(mask, since, passed) is not None

    def latest_first(self, mask: int, since: Since, passed: int = 0) -> int | None:
        """The latest start of whatever comes first, a fact too; None: not all have place."""
        return max(self._firsts(mask, *self.gone_by(since, passed)), default=None)

    def latest_of_any(self, mask: int, since: Since) -> int | None:
        """The latest start of whichever of the set comes first; None: not all have place."""
        facts = {each.at_ms for each in self.fixed}
        return max(
            (
                item_ms
                for here, passed in self._stages(since)
                for item_ms in self._firsts(mask, here, passed)
                if item_ms not in facts
            ),
            default=None,
        )

    def _firsts(self, mask: int, since: Since, passed: int) -> Iterator[int]:
        """The latest first starts of all ways to place the set."""
        for item_ms, break_ms, before in self.sets.points(mask, passed):
            late = item_ms >= since.item_ms and break_ms >= since.break_ms
            if late and not self._repeats(since, before):
                yield item_ms

    def most(self, since: Since) -> int:
        """The heaviest set of the owed that can still be placed; of equals the larger."""
        return self._heaviest.at(since, lambda mask: self.can(mask, since))

    # ------------------------------------------------------------ what is placed

    def passed(self, passed: int, since: Since) -> Since:
        """From when on things may start once so many of the facts have gone by."""
        if not passed:
            return since
        last = self.fixed[passed - 1]
        return Since(max(since.item_ms, last.at_ms), -EVER_MS, last.sponsor)

    def gone_by(self, since: Since, passed: int = 0) -> tuple[Since, int]:
        """The same with the facts behind it that lie before anything may start."""
        while passed < len(self.fixed) and self.fixed[passed].at_ms < since.item_ms:
            passed += 1
            since = self.passed(passed, since)
        return since, passed

    def _stages(self, since: Since) -> Iterator[tuple[Since, int]]:
        """Before the next fact, between that and the one after it, and so on."""
        since, first = self.gone_by(since)
        yield since, first
        for passed in range(first + 1, len(self.fixed) + 1):
            yield self.passed(passed, since), passed

    def _from_ms(self, one: int, since: Since) -> int:
        return max(since.item_ms, since.break_ms) if self.demands[one].is_break else since.item_ms

    def _repeats(self, since: Since, before: int) -> bool:
        """Whether a set whose first break has that sponsor may not follow the last break."""
        number = self.sets.number(since.sponsor)
        return repeats(number, before) if since.ours else repeats_fact(number, before)


def apart(demands: Sequence[Demand], item_gap_ms: int, break_gap_ms: int) -> bool:
    """Whether breaks keep further apart than items, or sponsors may not follow each other."""
    breaks = [demand for demand in demands if demand.is_break]
    return bool(breaks) and (break_gap_ms > item_gap_ms or any(demand.sponsor for demand in breaks))
