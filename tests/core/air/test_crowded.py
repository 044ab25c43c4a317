"""More owed items than can be tried in all orders: only what is certain is told."""

import pytest

from core.air.crowded import Crowd, Crowded
from core.air.fitting import Fitting
from core.air.model import Demand, Since
from core.air.placing import propose

GAP_MS = 20_000
MINUTE_MS = 60_000


def crowd(count: int, minutes: int) -> Fitting:
    """Items of a minute and some seconds, no two alike, all to run within so many minutes."""
    lengths = [MINUTE_MS + number * 1000 for number in range(count)]
    demands = [
        Demand(f"i{n}", length, ((0, minutes * MINUTE_MS - length),), (), owed=True)
        for n, length in enumerate(lengths)
    ]
    return Fitting(demands, GAP_MS, 0)


def test_places_that_were_found_for_all_are_certain() -> None:
    fitting = crowd(16, 40)
    assert fitting.unproven
    assert Crowded(fitting).at(0, Since(0)) == Crowd(all_fit=True)


def test_what_takes_more_time_than_is_left_is_told_by_how_much() -> None:
    fitting = crowd(16, 20)
    takes = sum(each.length_ms + GAP_MS for each in fitting.demands) - GAP_MS
    assert Crowded(fitting).at(0, Since(0)).over_ms == takes - 20 * MINUTE_MS
    later = Since(5 * MINUTE_MS)
    assert Crowded(fitting).at(0, later).over_ms == takes - 15 * MINUTE_MS


@pytest.mark.parametrize("minutes", [23, 25, 40])
def test_as_time_goes_by_it_is_what_it_would_be_made_anew(minutes: int) -> None:
    fitting = crowd(14, minutes)
    kept = Crowded(fitting)
    for now_ms in range(0, 12 * MINUTE_MS, 1000):
        since = Since(now_ms)
        told = kept.at(now_ms, since)
        if told.all_fit and now_ms % 30_000 == 0:
            assert not propose(fitting, now_ms, since).left or now_ms <= kept._until_ms
        if told.over_ms:
            assert propose(fitting, now_ms, since).left
