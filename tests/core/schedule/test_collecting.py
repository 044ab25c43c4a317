"""The collector of cycles waits while a schedule is built, and goes on after it."""

import gc

import pytest

from core.schedule.collecting import uncollected


def test_the_collector_waits_and_goes_on_also_after_an_error() -> None:
    waited = []

    @uncollected()
    def fails() -> None:
        waited.append(not gc.isenabled())
        raise KeyError

    with pytest.raises(KeyError):
        fails()
    assert waited == [True]
    assert gc.isenabled()


def test_a_collector_that_was_off_stays_off() -> None:
    gc.disable()
    try:
        with uncollected():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
