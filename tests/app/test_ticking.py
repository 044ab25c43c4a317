import pytest
from pytestqt.qtbot import QtBot

from app.ticking import Ticker
from tests.app.fake_desk import HandClock

pytestmark = pytest.mark.usefixtures("qapp")


def _ticker(clock: HandClock) -> tuple[Ticker, list[int]]:
    ticker = Ticker(clock)
    seen: list[int] = []
    ticker.ticked.connect(seen.append)
    return ticker, seen


def test_a_tick_hands_down_the_second_that_has_begun() -> None:
    ticker, seen = _ticker(HandClock(61_738))
    ticker.start()
    assert seen == [61_000]


def test_a_clock_that_stands_still_arms_nothing() -> None:
    ticker, _ = _ticker(HandClock(61_738))
    ticker.start()
    assert not ticker.running


def test_it_is_armed_for_the_next_boundary() -> None:
    clock = HandClock(61_738, until_ms=262.0)
    ticker, _ = _ticker(clock)
    ticker.start()
    assert ticker.running
    ticker.stop()
    assert not ticker.running


def test_a_timer_that_fires_early_waits_for_the_boundary(qtbot: QtBot) -> None:
    clock = HandClock(61_999, until_ms=0.4)
    ticker, seen = _ticker(clock)
    ticker.start()
    ticker._fire()
    assert seen == [61_000]
    clock.time_ms = 62_000
    clock.until_ms = 1000.0
    with qtbot.waitSignal(ticker.ticked, timeout=1000):
        pass
    assert seen == [61_000, 62_000]
    ticker.stop()


def test_a_clock_set_back_is_taken_as_it_is() -> None:
    clock = HandClock(62_000, until_ms=1000.0)
    ticker, seen = _ticker(clock)
    ticker.start()
    clock.time_ms = 59_400
    ticker._fire()
    assert seen == [62_000, 59_000]
    ticker.stop()


def test_an_error_while_painting_does_not_stop_the_seconds(qtbot: QtBot) -> None:
    clock = HandClock(62_000, until_ms=1000.0)
    ticker = Ticker(clock)

    def fails(_second_ms: int) -> None:
        raise ZeroDivisionError

    ticker.ticked.connect(fails)
    with qtbot.captureExceptions() as errors:
        ticker.start()
    assert [error[0] for error in errors] == [ZeroDivisionError]
    assert ticker.running
    ticker.stop()


def test_once_stopped_nothing_sets_it_going_but_a_start() -> None:
    clock = HandClock(10_000)
    ticker = Ticker(clock)
    ticks: list[object] = []
    ticker.ticked.connect(ticks.append)
    ticker.start()
    ticker.stop()
    ticker.again()
    assert ticks == [10_000]
    assert not ticker.running
    ticker.start()
    ticker.again()
    ticker.stop()
    assert ticks == [10_000] * 3
