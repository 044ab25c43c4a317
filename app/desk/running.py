"""The board as time goes on: each second, and each change, becomes a view for the window."""

from typing import Protocol

from PySide6.QtCore import QObject, Signal

from app.ticking import Ticker
from core.board.model import View
from core.times.clocks import Clock


class ViewedDesk(Protocol):
    """What gives the views."""

    def view(self, now_ms: int) -> View:
        """Give all that is shown at that second."""

    def clock_stepped(self, by_ms: int, slept: bool, now_ms: int) -> None:  # noqa: FBT001
        """Take note that the clock jumped."""


class Running(QObject):
    """Asks the desk for a view at each tick, and in between whenever something was entered."""

    viewed = Signal(object)
    """A View."""

    def __init__(self, desk: ViewedDesk, clock: Clock, ticker: Ticker) -> None:
        super().__init__(ticker)
        self._desk = desk
        self._clock = clock
        self._ticker = ticker
        ticker.ticked.connect(self._second)

    def now_ms(self) -> int:
        """Give the board's time to the millisecond: the instant of a key."""
        return self._clock.now_ms()

    def refresh(self) -> None:
        """Show the present second anew: something was entered, or the clock was set."""
        self._ticker.again()

    def _second(self, second_ms: int) -> None:
        step = self._clock.watch()
        if step is not None:
            self._desk.clock_stepped(step.by_ms, step.slept, second_ms)
        self.viewed.emit(self._desk.view(second_ms))
