import json
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from core.air.cutting import demand
from core.air.finishing import earliest_finish
from core.air.fitting import Fitting
from core.air.model import Day, Moment, Since
from core.air.subsets import bits
from core.plan.model import Item
from tests.core.air.brute import Trial, placements, tried
from tests.core.air.days import draw, fitting_of, since_of

_CASES = sorted((Path(__file__).parent / "cases").glob("f*.json"))


def _of_case(case: dict[str, Any]) -> tuple[Fitting, Since, int]:
    """A case of the independent solver: every item is owed and keeps `spacing` from the next."""
    lost = case["nosignal"]
    edges = [case["now"] - 10**9, *(at for pair in lost for at in pair), case["out"] + 10**9]
    day = Day(
        off_ms=case["out"],
        item_gap_ms=case["spacing"],
        moments=tuple(
            Moment(f"m{at}", "", at, at - guard, at + stay, at - guard)
            for at, guard, stay in case["live"]
        ),
        contact=(("voice", tuple(zip(edges[::2], edges[1::2], strict=True))),),
    )
    items = [
        Item(
            id=each["id"],
            kind="tape",
            name=each["id"],
            length_ms=each["len"],
            owed=True,
            needs="voice" if each.get("signal") else None,
            weight=each["weight"],
        )
        for each in case["items"]
    ]
    now = case["now"]
    last = case.get("last_end")
    since = Since(now if last is None else max(now, last + case["spacing"]))
    return Fitting([demand(item, day) for item in items], case["spacing"], 0), since, now


@pytest.mark.parametrize("path", _CASES, ids=lambda path: path.stem)
def test_every_figure_of_the_independent_solver_comes_out(path: Path) -> None:
    case = json.loads(path.read_text())
    fitting, since, now = _of_case(case)
    expect = case["expect"]
    assert fitting.can(fitting.owed, since) is expect["all_fit"]
    assert earliest_finish(fitting, fitting.owed, since) == expect["earliest_finish_of_all"]
    latest = fitting.latest_first(fitting.owed, since)
    assert latest == expect["latest_first_start"]
    found = {
        item: {
            "fits_now_alone": (fits := fitting.fits(item, now, since)).fits_now,
            "fits_now_and_rest_still_fit": fits.fits_with_owed,
            "latest_safe_start_as_next": fits.latest_start_ms,
        }
        for item in expect["items"]
    }
    assert found == expect["items"]
    most = fitting.most(since)
    weight = sum(fitting.demands[n].weight for n in bits(most))
    assert weight == expect["largest_weight_that_fits"]


def _compare(trial: Trial) -> None:
    """Every answer beside that of trying all starts."""
    fitting, since, now = fitting_of(trial), since_of(trial), trial.now
    owed = [item for item in trial.items if item.owed]
    for item in trial.items:
        rest = [other for other in owed if other is not item]
        fits = fitting.fits(item.id, now, since)
        alone = any(True for _ in placements(trial, [], {item.id: now}))
        assert fits.fits_now is (tried(trial, item, now) and alone)
        possible = [
            start
            for start in range(now, trial.day.off_ms)
            if tried(trial, item, start)
            and next(placements(trial, rest, {item.id: start}, after=start), None) is not None
        ]
        assert fits.latest_start_ms == max(possible, default=None)
        assert fits.fits_with_owed is (now in possible)
    weights = []
    for count in range(len(owed) + 1):
        for some in combinations(owed, count):
            ways = list(placements(trial, some, {}))
            mask = sum(1 << fitting.index[item.id] for item in some)
            assert fitting.can(mask, since) is bool(ways)
            latest = max((min(way.values()) for way in ways if way), default=None)
            assert not some or fitting.latest_of_any(mask, since) == latest
            if ways:
                weights.append(sum(item.weight for item in some))
            if some:
                lengths = {item.id: item.length_ms for item in some}
                ends = [max(at + lengths[name] for name, at in way.items()) for way in ways]
                assert earliest_finish(fitting, mask, since) == min(ends, default=None)
    most = fitting.most(since)
    assert sum(fitting.demands[n].weight for n in bits(most)) == max(weights)


@pytest.mark.parametrize("seed", range(60))
def test_all_answers_are_those_of_trying_every_start(seed: int) -> None:
    for number in range(5):
        _compare(draw(seed * 5 + number, items=3))


@pytest.mark.parametrize("seed", range(20))
def test_with_one_gap_between_all_items_they_are_too(seed: int) -> None:
    for number in range(5):
        _compare(draw(10_000 + seed * 5 + number, items=3, uniform=True))
