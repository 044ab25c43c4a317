"""A rehearsal in its real windows, on a clock turned by hand; keys are pressed as people do."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.window import DeskWindow
from app.main import application
from app.plans import take_plan
from app.rehearsal.opening import Rehearsal, windows
from app.rehearsal.window import TrainerWindow
from app.resources import sample_plan
from app.settings import SettingsFile
from app.skies import skies_for
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.live import LiveRun
from core.rehearsal.model import Surprises
from core.rehearsal.reading import read_surprises
from core.rehearsal.rows import Row
from core.times.clocks import SimClock

NO_KEY = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@cache
def arrival() -> Plan:
    return take_plan(sample_plan("petrel-arrival"))


@cache
def sample_day(name: str) -> Surprises:
    return read_surprises(sample_plan(f"rehearsals/petrel-{name}"), arrival())


@dataclass
class Room:
    """Desk and trainer, side by side."""

    run: LiveRun
    clock: SimClock
    made: Rehearsal
    pages: list[str] = field(default_factory=list)

    @property
    def desk(self) -> DeskWindow:
        return self.made.board.window

    @property
    def trainer(self) -> TrainerWindow:
        return self.made.trainer

    @property
    def quiet(self) -> str:
        """The lines above the desk's entry bar."""
        return self.desk.notices.accessibleName()

    @property
    def said(self) -> str:
        return self.trainer.bar.said.text

    @property
    def rows(self) -> tuple[Row, ...]:
        view = self.trainer.timeline._view
        assert view is not None
        return view.rows

    def row(self, what: str) -> Row:
        return next(each for each in self.rows if what in each.what)

    def press(self, key: Qt.Key, held: Qt.KeyboardModifier = NO_KEY, times: int = 1) -> None:
        """A key in the trainer's window."""
        for _ in range(times):
            QTest.keyClick(self.trainer.bar.line, key, held)

    def press_at_desk(self, key: Qt.Key, held: Qt.KeyboardModifier = NO_KEY) -> None:
        QTest.keyClick(self.desk.bar.line, key, held)

    def type_at_desk(self, line: str, *, pasted: bool = False) -> None:
        """A line and Enter in the desk window."""
        if pasted:
            self.desk.bar.line.setText(line)
        else:
            QTest.keyClicks(self.desk.bar.line, line)
        self.press_at_desk(Qt.Key.Key_Return)

    def select(self, what: str) -> None:
        """Go to a row with the arrow keys."""
        place = next(n for n, each in enumerate(self.rows) if what in each.what)
        self.press(Qt.Key.Key_Escape)
        by = place - self.trainer.timeline._next()
        key = Qt.Key.Key_Down if by >= 0 else Qt.Key.Key_Up
        self.press(key, times=by + 1 if by >= 0 else -by)
        selected = self.trainer.selected
        assert selected is not None
        assert what in selected.what

    def go_on(self, seconds: int, stride_s: int = 10) -> None:
        """Let the clock go on, in strides."""
        while seconds > 0:
            self.clock.step(1000 * min(stride_s, seconds))
            seconds -= stride_s
            self.made.board.ticker.again()

    def on_to(self, at_ms: int, stride_s: int = 30) -> None:
        self.go_on(max(0, -(-(at_ms - self.clock.now_ms()) // 1000)), stride_s)


@contextmanager
def opened(
    qtbot: QtBot,
    tmp_path: Path,
    day: Surprises,
    plan: Plan | None = None,
    size: tuple[int, int] = (1280, 720),
) -> Iterator[Room]:
    """Open the windows, and close them without leaving anything behind."""
    application()
    of = plan or arrival()
    clock = SimClock(day.begin_ms, lambda: 0.0)  # it goes on by steps only
    desk = OpenDesk(of, clock, skies_for=skies_for)
    run = LiveRun(of, day, desk, clock, skies_for)
    pages: list[str] = []

    def write(_run: LiveRun) -> str:
        pages.append("written")
        return "The score page is there"

    made = windows(run, desk, clock, SettingsFile(tmp_path / "settings.toml"), write)
    window = made.board.window
    with qtbot.waitSignal(window.strip_added, timeout=10_000), qtbot.waitExposed(window):
        made.start()
    for each in (made.trainer, window):
        each.resize(*size)
    QApplication.processEvents()
    try:
        yield Room(run, clock, made, pages)
    finally:
        made.board.ticker.stop()
        window.closing.end_session()  # nothing is kept: it would ask
        window.close()
        made.trainer.close()
        for each in (made.trainer, window):
            each.deleteLater()
        made.board.ticker.deleteLater()
