"""The second's timer: one precise single shot after another, each armed for the next boundary."""

import math

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from core.times.clocks import Clock

SECOND_MS = 1000

_EARLY_MS = 50
"""A timer is never earlier than this; a clock that seems to be was stepped back."""


class Ticker(QObject):
    """Hands down each board second as it begins, floored, so that nothing else reads the clock.

    While a simulated clock stands still nothing is armed; `again` sets it going.
    """

    ticked = Signal(object)
    """The boundary, in UTC milliseconds (too large for Qt's int)."""

    def __init__(self, clock: Clock, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._clock = clock
        self._due_ms = 0
        self._over = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._fire)

    def start(self) -> None:
        """Tick at once, and at each boundary from then on."""
        self._over = False
        self._tick()

    def again(self) -> None:
        """Tick at once, and look anew how long it is: the clock was set, paused or let go.

        Nothing after `stop`: who was told late finds the windows gone.
        """
        if not self._over:
            self._tick()

    def stop(self) -> None:
        """Tick no more."""
        self._over = True
        self._timer.stop()

    @property
    def running(self) -> bool:
        """Whether a tick is on its way."""
        return self._timer.isActive()

    def _fire(self) -> None:
        if 0 < self._due_ms - self._clock.now_ms() <= _EARLY_MS:
            self._timer.start(1)
        else:
            self._tick()

    def _tick(self) -> None:
        # Armed first: whatever goes wrong while painting, the next second comes.
        second_ms = self._clock.now_ms() // SECOND_MS * SECOND_MS
        self._arm(second_ms)
        self.ticked.emit(second_ms)

    def _arm(self, second_ms: int) -> None:
        wait_ms = self._clock.until_next_tick_ms()
        if math.isinf(wait_ms):
            self._timer.stop()
            return
        self._due_ms = second_ms + SECOND_MS
        self._timer.start(max(0, math.floor(wait_ms)))
