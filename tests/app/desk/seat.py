"""A seat at the desk for tests: the real window on a fake desk, with a clock turned by hand."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.clock_keys import ClockKeys
from app.desk.running import Running
from app.desk.window import DeskWindow
from app.fonts import FILES, load_fonts
from app.resources import asset
from app.ticking import Ticker
from core.board.model import View
from tests.app.fake_desk import FakeDesk, HandClock
from tests.app.views import NOW_MS, arrival_view

NO_KEY = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@dataclass
class Seat:
    """Types and presses keys as a person does: into the window that has the keyboard."""

    window: DeskWindow
    desk: FakeDesk
    clock: HandClock
    ticker: Ticker

    @property
    def text(self) -> str:
        return self.window.bar.line.text()

    @property
    def headline(self) -> str:
        return self.window.bar.answer.shown.headline

    @property
    def lines(self) -> list[str]:
        return [line.text for line in self.window.bar.answer.shown.lines]

    def type(self, text: str) -> None:
        for letter in text:
            # Qt takes a letter as well as a key; its hints leave that out.
            QTest.keyClick(self.window.windowHandle(), letter)  # type: ignore[call-overload]

    def press(self, key: Qt.Key, held: Qt.KeyboardModifier = NO_KEY, times: int = 1) -> None:
        for _ in range(times):
            QTest.keyClick(self.window.windowHandle(), key, held)

    def hold_down(self, key: Qt.Key, held: Qt.KeyboardModifier = NO_KEY) -> None:
        """What a held key sends after its first press."""
        for _ in range(3):
            event = QKeyEvent(QEvent.Type.KeyPress, key, held, "", autorep=True)
            QApplication.sendEvent(self.window.bar.line, event)

    def pass_time(self, seconds: int) -> None:
        self.clock.time_ms += 1000 * seconds
        self.ticker.again()

    def paint(self) -> None:
        QApplication.processEvents()


@contextmanager
def seated(
    qtbot: QtBot,
    view: View | None = None,
    *,
    simulated: bool = False,
    size: tuple[int, int] = (1600, 1000),
) -> Iterator[Seat]:
    """Open the window, and close it without leaving anything behind."""
    QApplication.setStyle("Fusion")
    load_fonts(asset(name) for name in FILES)
    clock = HandClock(NOW_MS + 250)
    desk = FakeDesk(clock, view if view is not None else arrival_view())
    ticker = Ticker(clock)
    running = Running(desk, clock, ticker)
    window = DeskWindow(desk, running, ClockKeys(clock) if simulated else None)
    window.resize(*size)
    with qtbot.waitSignal(window.strip_added, timeout=10_000), qtbot.waitExposed(window):
        window.show()
        ticker.start()
    window.activateWindow()
    try:
        yield Seat(window, desk, clock, ticker)
    finally:
        ticker.stop()
        window.close()
        window.deleteLater()
        ticker.deleteLater()
