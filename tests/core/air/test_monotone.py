from dataclasses import replace

import pytest

from core.air.model import Fits
from tests.core.air.brute import Trial
from tests.core.air.days import draw, fitting_of, since_of

DAYS = [draw(40_000 + seed, items=5) for seed in range(80)]


def sets_that_fit(trial: Trial) -> set[int]:
    """All sets of the day's items that have place."""
    fitting, since = fitting_of(trial), since_of(trial)
    return {mask for mask in range(1 << len(trial.items)) if fitting.can(mask, since)}


def every_fit(trial: Trial) -> list[Fits]:
    fitting, since = fitting_of(trial), since_of(trial)
    return [fitting.fits(each.id, trial.now, since) for each in trial.items]


@pytest.mark.parametrize("trial", DAYS)
def test_as_time_goes_by_nothing_gains_a_place(trial: Trial) -> None:
    before = sets_that_fit(trial)
    for now in range(trial.now + 1, trial.now + 12, 3):
        if any(start < now for _, start in trial.placed):
            break
        after = sets_that_fit(replace(trial, now=now))
        assert after <= before
        before = after


@pytest.mark.parametrize("trial", DAYS)
def test_a_latest_start_stands_until_it_has_gone_by(trial: Trial) -> None:
    first = every_fit(trial)
    for now in range(trial.now + 1, trial.now + 12, 3):
        if any(start < now for _, start in trial.placed):
            break
        for before, after in zip(first, every_fit(replace(trial, now=now)), strict=True):
            latest = before.latest_start_ms
            stands = latest is not None and latest >= now
            assert after.latest_start_ms == (latest if stands else None)


@pytest.mark.parametrize("trial", DAYS)
def test_without_a_moment_or_with_smaller_gaps_nothing_loses_its_place(trial: Trial) -> None:
    before, day = sets_that_fit(trial), trial.day
    eased = [replace(day, item_gap_ms=max(0, day.item_gap_ms - 1)), replace(day, off_ms=40)]
    eased += [
        replace(day, moments=tuple(one for one in day.moments if one is not each))
        for each in day.moments
    ]
    assert all(sets_that_fit(replace(trial, day=each)) >= before for each in eased)


@pytest.mark.parametrize("trial", DAYS)
def test_a_set_has_place_only_if_every_part_of_it_has(trial: Trial) -> None:
    fit = sets_that_fit(trial)
    if any(each.sponsor for each in trial.items):
        return  # a break of another sponsor may be what keeps two of one apart
    assert all(mask & ~(1 << n) in fit for mask in fit for n in range(len(trial.items)))


@pytest.mark.parametrize("trial", DAYS)
def test_how_an_item_fits_says_no_two_things(trial: Trial) -> None:
    for fit in every_fit(trial):
        assert not fit.fits_with_owed or fit.fits_now
        assert fit.fits_now == (fit.first_start_ms == trial.now)
        assert bool(fit.how) == fit.fits_now
        if fit.fits_with_owed:
            assert fit.latest_start_ms is not None
            assert fit.latest_start_ms >= trial.now
        if fit.owed_by_ms is not None:
            assert fit.leave_by_ms is not None
            assert trial.now <= fit.owed_by_ms <= fit.leave_by_ms
        if fit.how == "safe":
            assert fit.safe_until_ms is not None
            assert fit.leave_by_ms is not None
            assert fit.safe_until_ms <= fit.leave_by_ms
