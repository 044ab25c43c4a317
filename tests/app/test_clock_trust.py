"""What the system says of its clock: asked off the window's thread, kept where it has changed."""

import sys
import threading
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.clock_trust import (
    AskKernel,
    ClockWatch,
    clock_watch,
    kernels_call,
    kernels_word,
    system_clock,
)
from app.ticking import Ticker
from core.times.clocks import SimClock
from core.times.trust import NOT_TOLD, ClockTrust, Trust
from tests.fakes import HandMachine

FINE = ClockTrust(Trust.SYNCHRONISED, 3)


def kernel(state: int, status: int = 0, esterror: int = 0, maxerror: int = 0) -> AskKernel:
    """A kernel that gives those; errors in microseconds, as adjtimex(2) has them."""

    def ask(reference: Any) -> int:
        record = reference._obj
        assert record.modes == 0  # nothing is ever set
        record.status, record.esterror, record.maxerror = status, esterror, maxerror
        return state

    return ask


@pytest.mark.parametrize(
    ("ask", "word"),
    [
        (kernel(0), ClockTrust(Trust.SYNCHRONISED)),
        (kernel(0, esterror=3_900), FINE),
        (kernel(0, esterror=820_000), ClockTrust(Trust.SYNCHRONISED, 820)),
        (kernel(0, maxerror=900_000), ClockTrust(Trust.SYNCHRONISED)),
        (kernel(1), ClockTrust(Trust.SYNCHRONISED)),  # a leap second is ahead
        (kernel(5, status=0x40, esterror=16_000_000), ClockTrust(Trust.ALONE)),
        (kernel(0, status=0x40), ClockTrust(Trust.ALONE)),
        (kernel(5, status=0x1000), ClockTrust(Trust.ALONE)),
        (kernel(-1), NOT_TOLD),
        (None, NOT_TOLD),
    ],
)
def test_the_kernels_word_is_read(ask: AskKernel | None, word: ClockTrust) -> None:
    assert kernels_word(ask) == word


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells")
def test_this_kernel_answers_to_anybody() -> None:
    assert kernels_call() is not None
    assert system_clock().trust in (Trust.SYNCHRONISED, Trust.ALONE)


def test_a_system_that_is_not_asked_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "win32")
    assert system_clock() == NOT_TOLD


# ------------------------------------------------------------------ again and again


@pytest.fixture
def watch(qtbot: QtBot) -> Iterator[Callable[..., ClockWatch]]:
    del qtbot
    made: list[ClockWatch] = []

    def make(ask: Callable[[], ClockTrust], again_s: float = 60.0) -> ClockWatch:
        made.append(ClockWatch(None, ask, again_s))
        return made[-1]

    yield make
    for each in made:
        each.stop()


def test_it_is_asked_on_another_thread_and_told_on_the_windows(
    qtbot: QtBot, watch: Callable[..., ClockWatch]
) -> None:
    threads: list[threading.Thread] = []
    told: list[tuple[ClockTrust, threading.Thread]] = []

    def ask() -> ClockTrust:
        threads.append(threading.current_thread())
        return FINE

    asked = watch(ask)
    asked.told.connect(lambda word: told.append((word, threading.current_thread())))
    with qtbot.waitSignal(asked.told, timeout=5_000):
        asked.start()
    assert told == [(FINE, threading.main_thread())]
    assert threading.main_thread() not in threads


def test_it_is_asked_again(qtbot: QtBot, watch: Callable[..., ClockWatch]) -> None:
    words = iter([FINE, ClockTrust(Trust.ALONE)])
    told: list[ClockTrust] = []
    asked = watch(lambda: next(words, FINE), 0.001)
    asked.told.connect(told.append)
    asked.start()
    qtbot.waitUntil(lambda: len(told) >= 2, timeout=5_000)
    assert told[:2] == [FINE, ClockTrust(Trust.ALONE)]


def test_after_the_end_nobody_asks(watch: Callable[..., ClockWatch]) -> None:
    asked: list[int] = []

    def ask() -> ClockTrust:
        asked.append(1)
        return FINE

    made = ClockWatch(None, ask)
    made.stop()
    made.start()
    assert asked == []
    del watch


class Told:
    """A desk that is only told."""

    def __init__(self) -> None:
        self.words: list[tuple[ClockTrust, int]] = []

    def clock_told(self, trust: ClockTrust, now_ms: int) -> None:
        self.words.append((trust, now_ms))


def test_the_desk_is_told_at_the_boards_time(qtbot: QtBot) -> None:
    clock = HandMachine.at(5_000).real_clock()
    desk, ticker = Told(), Ticker(clock)
    made = clock_watch(desk, clock, ticker, lambda: FINE)
    with qtbot.waitSignal(made.told, timeout=5_000):
        made.start()
    made.stop()
    ticker.stop()
    assert desk.words == [(FINE, 5_000)]


def test_a_rehearsal_asks_no_machine() -> None:
    clock = SimClock(5_000, paused=True)
    desk, ticker = Told(), Ticker(clock)
    made = clock_watch(desk, clock, ticker, lambda: FINE)
    made.start()
    made.stop()
    assert not made._thread.is_alive()
    assert desk.words == []
