import math
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.times.clocks import RealClock, Step
from tests.fakes import HandMachine

NOW_MS = 1_936_989_672_250


def test_the_real_clock_gives_the_machines_time_in_whole_milliseconds() -> None:
    assert HandMachine(wall_at_ns=NOW_MS * 1_000_000 + 999_999).real_clock().now_ms() == NOW_MS
    assert abs(RealClock().now_ms() - time.time() * 1000) < 1000


def test_the_next_second_is_never_nought_away() -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    assert clock.until_next_second_ms() == clock.until_next_tick_ms() == 750.0
    machine.run(750)
    assert clock.until_next_second_ms() == 1000.0


def test_a_clock_that_only_runs_has_nothing_to_tell() -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    for _ in range(5):
        machine.run(1000)
        assert clock.watch() is None


@pytest.mark.parametrize("by_ms", [-3_000, 40_000, 51, -51])
def test_a_step_is_told_once(by_ms: int) -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    machine.run(1000)
    machine.set_clock(by_ms)
    machine.run(20)
    assert clock.watch() == Step(by_ms, slept=False)
    machine.run(1000)
    assert clock.watch() is None
    assert clock.now_ms() == NOW_MS + 2020 + by_ms


def test_a_clock_steered_gently_is_no_step_however_far_it_gets() -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    for _ in range(20):
        machine.run(1000)
        machine.set_clock(49)
        assert clock.watch() is None


def test_a_sleep_of_ten_minutes_is_told_as_a_sleep() -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    machine.sleep(600_000)
    machine.run(300)
    assert clock.watch() == Step(600_000, slept=True)
    machine.run(1000)
    assert clock.watch() is None


def test_a_clock_set_right_after_a_sleep_is_told_after_it() -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    machine.sleep(600_000)
    machine.set_clock(-800)
    assert clock.watch() == Step(600_000, slept=True)
    assert clock.watch() == Step(-800, slept=False)
    assert clock.watch() is None


def test_a_busy_machine_is_not_taken_for_a_step() -> None:
    machine = HandMachine.at(NOW_MS)
    clock = machine.real_clock()
    machine.reading_takes_ms = 80
    assert clock.watch() is None
    machine.reading_takes_ms = 0
    assert clock.watch() is None
    machine.reading_takes_ms = 80
    machine.set_clock(40_000)
    assert clock.watch() is None
    machine.reading_takes_ms = 0
    assert clock.watch() == Step(40_000, slept=False)


def test_a_simulated_clock_runs_at_its_rate() -> None:
    machine = HandMachine()
    clock = machine.sim_clock(NOW_MS, rate=60)
    assert clock.simulated
    assert clock.now_ms() == NOW_MS
    machine.run(1000)
    assert clock.now_ms() == NOW_MS + 60_000


def test_pausing_stops_it_and_it_goes_on_from_there() -> None:
    machine = HandMachine()
    clock = machine.sim_clock(NOW_MS)
    machine.run(500)
    clock.pause()
    machine.run(10_000)
    assert clock.paused
    assert clock.now_ms() == NOW_MS + 500
    assert clock.until_next_tick_ms() == math.inf
    clock.go()
    machine.run(100)
    assert clock.now_ms() == NOW_MS + 600


def test_pausing_twice_and_going_twice_lose_no_time() -> None:
    machine = HandMachine()
    clock = machine.sim_clock(NOW_MS)
    machine.run(100)
    clock.go()
    machine.run(100)
    clock.pause()
    clock.pause()
    assert clock.now_ms() == NOW_MS + 200


@pytest.mark.parametrize("paused", [False, True])
def test_it_can_be_stepped_and_set(paused: bool) -> None:
    clock = HandMachine().sim_clock(NOW_MS, paused=paused)
    clock.step(30_000)
    assert clock.now_ms() == NOW_MS + 30_000
    clock.step(-31_000)
    assert clock.now_ms() == NOW_MS - 1_000
    clock.jump(5)
    assert clock.now_ms() == 5


def test_a_new_rate_counts_from_now_on_and_is_kept_through_a_pause() -> None:
    machine = HandMachine()
    clock = machine.sim_clock(NOW_MS)
    machine.run(1000)
    clock.set_rate(0.1)
    machine.run(1000)
    assert clock.now_ms() == NOW_MS + 1100
    clock.pause()
    clock.set_rate(600)
    assert clock.rate == 600
    clock.go()
    machine.run(1000)
    assert clock.now_ms() == NOW_MS + 601_100


@pytest.mark.parametrize("rate", [0.09, 601, 0, -1, math.nan])
def test_a_rate_out_of_range_changes_nothing(rate: float) -> None:
    clock = HandMachine().sim_clock(NOW_MS)
    with pytest.raises(ValueError, match="outside"):
        clock.set_rate(rate)
    assert clock.rate == 1
    with pytest.raises(ValueError, match="outside"):
        HandMachine().sim_clock(NOW_MS, rate=rate)


def test_the_machines_steps_do_not_reach_a_simulated_clock() -> None:
    machine = HandMachine()
    clock = machine.sim_clock(NOW_MS)
    machine.set_clock(40_000)
    machine.sleep(600_000)
    clock.watch()
    assert clock.now_ms() == NOW_MS


@pytest.mark.parametrize(("rate", "wait_ms"), [(0.1, 7500.0), (1, 750.0), (10, 75.0), (20, 37.5)])
def test_up_to_twenty_a_second_every_board_second_is_painted(rate: float, wait_ms: float) -> None:
    clock = HandMachine().sim_clock(NOW_MS, rate=rate)
    assert clock.until_next_tick_ms() == pytest.approx(wait_ms)


@given(rate=st.floats(0.1, 600), start_ms=st.integers(0, 10**9))
def test_a_tick_falls_on_a_whole_board_second_at_most_twenty_times_a_second(
    rate: float, start_ms: int
) -> None:
    machine = HandMachine()
    clock = machine.sim_clock(start_ms, rate=rate)
    machine.run(clock.until_next_tick_ms())
    for _ in range(5):
        # A simulated clock is exact to the nanosecond of real time, which at 600 is 0.6 us.
        assert (clock._exact_ms() + 0.01) % 1000 < 0.02
        wait_ms = clock.until_next_tick_ms()
        if wait_ms < 0.001:  # a hair before the second: the timer's own care
            machine.run(0.001)
            wait_ms = clock.until_next_tick_ms()
        assert wait_ms >= 1000 / 20 - 0.01
        machine.run(wait_ms)


def test_a_timer_that_fires_a_little_early_does_not_tick_twice_for_one_stride() -> None:
    machine = HandMachine()
    clock = machine.sim_clock(0, rate=600)
    machine.run(clock.until_next_tick_ms() - 0.9)
    assert clock.until_next_tick_ms() == pytest.approx(50.9)
