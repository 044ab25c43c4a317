"""Asks the system, once a minute and off the window's thread, whether the clock is set right.

Linux tells: the kernel keeps what the time service last said. Of macOS and Windows nothing is
asked yet, since neither was tried, so there it is not known.
"""

import ctypes
import sys
from collections.abc import Callable
from threading import Event, Thread
from typing import Any, Protocol

from PySide6.QtCore import QObject, Qt, Signal, Slot

from app.ticking import Ticker
from core.times.clocks import Clock
from core.times.trust import NOT_TOLD, ClockTrust, Trust

AGAIN_S = 60.0
_STOP_S = 2.0

# linux/timex.h: status bits, and what the call gives for a clock that nobody sets right.
_UNSYNCHRONISED = 0x0040
_CLOCK_FAULT = 0x1000
_TIME_ERROR = 5
_PADDING = 64
"""Words behind the fields that are read; the kernel's record has fewer (adjtimex(2))."""


class _Timex(ctypes.Structure):
    """The beginning of the kernel's record of its clock, where a long has 64 bits (adjtimex(2)).

    With no mode set the call changes nothing, and anybody may make it.
    """

    _fields_ = (
        ("modes", ctypes.c_uint),
        ("offset", ctypes.c_long),
        ("freq", ctypes.c_long),
        ("maxerror", ctypes.c_long),
        ("esterror", ctypes.c_long),
        ("status", ctypes.c_int),
        ("rest", ctypes.c_long * _PADDING),
    )


AskKernel = Callable[[Any], int]
"""Fills in such a record; gives the clock's state, below nought where that failed."""


def kernels_word(ask: AskKernel | None) -> ClockTrust:
    """What the kernel says; not known where it cannot be asked, or will not say.

    Its estimate of the error counts, not its bound: that grows from one setting to the next, and
    is over half a second within the hour on a machine that is quite right.
    """
    if ask is None:
        return NOT_TOLD
    record = _Timex()
    state = ask(ctypes.byref(record))
    if state < 0:
        return NOT_TOLD
    alone = state == _TIME_ERROR or record.status & (_UNSYNCHRONISED | _CLOCK_FAULT)
    if alone:  # its estimate is then of long ago, or of nothing
        return ClockTrust(Trust.ALONE)
    return ClockTrust(Trust.SYNCHRONISED, max(0, record.esterror // 1_000))


def kernels_call() -> AskKernel | None:
    """The call that asks the kernel, where there is one that is known."""
    if sys.platform != "linux" or ctypes.sizeof(ctypes.c_long) != 8:
        return None
    try:
        call: AskKernel = ctypes.CDLL(None).adjtimex
    except (OSError, AttributeError):
        return None
    return call


def system_clock() -> ClockTrust:
    """What this system says of its clock."""
    return kernels_word(kernels_call())


class ClockWatch(QObject):
    """Tells, from `start` to `stop`, each minute what the system says of its clock."""

    told = Signal(object)
    """A ClockTrust, on the thread of the window."""
    _came = Signal(object)

    def __init__(
        self,
        parent: QObject | None = None,
        ask: Callable[[], ClockTrust] = system_clock,
        again_s: float = AGAIN_S,
        *,
        needed: bool = True,
    ) -> None:
        super().__init__(parent)
        self._needed = needed
        self._ask = ask
        self._again_s = again_s
        self._ends = Event()
        self._thread = Thread(target=self._run, name="clock", daemon=True)
        self._came.connect(self._take, Qt.ConnectionType.QueuedConnection)

    def start(self) -> None:
        """Ask now, and again and again, where it is needed."""
        if self._needed and not self._thread.is_alive() and not self._ends.is_set():
            self._thread.start()

    def stop(self) -> None:
        """Ask no more."""
        self._ends.set()
        if self._thread.is_alive():
            self._thread.join(_STOP_S)
        self._came.disconnect(self._take)

    def _run(self) -> None:
        while not self._ends.is_set():
            self._came.emit(self._ask())
            self._ends.wait(self._again_s)

    @Slot(object)
    def _take(self, told: ClockTrust) -> None:
        self.told.emit(told)


class ToldOfClock(Protocol):
    """What the desk does with it."""

    def clock_told(self, trust: ClockTrust, now_ms: int) -> None:
        """Take what the machine says of its clock."""


def clock_watch(
    desk: ToldOfClock,
    clock: Clock,
    ticker: Ticker,
    ask: Callable[[], ClockTrust] = system_clock,
) -> ClockWatch:
    """Give what tells the desk of the clock, once it is started; of a simulated one nothing."""
    watch = ClockWatch(ticker, ask, needed=not clock.simulated)
    watch.told.connect(lambda told: desk.clock_told(told, clock.now_ms()))
    watch.told.connect(ticker.again)
    return watch
