"""The composition root of a rehearsal in the windows: desk, trainer's and presenter window."""

import signal
import sys
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import PySide6
from PySide6.QtCore import QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from app.awake import Awake, session_bus
from app.crash import Alarm, state_folder
from app.desk.commanding import CLOCK_HELD
from app.desk.keys import Command
from app.fetching import Fetcher
from app.folders import papers_folder, sessions_folder, settings_file
from app.keeping import Keeping
from app.main import Board, QtRefused, application, as_chosen, calm, fit
from app.recording import Recording
from app.rehearsal.keys import Ask, key_text
from app.rehearsal.leading import Leading
from app.rehearsal.page import PageFile
from app.rehearsal.unchanged import Unchanged
from app.rehearsal.window import TrainerWindow
from app.remembering import Memory
from app.settings import SettingsFile
from app.skies import skies_for
from app.theme import DARK, LIGHT
from app.units import Units
from app.versions import refusal
from core.board.model import Said
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.live import LiveRun
from core.rehearsal.model import Surprises
from core.session.keeping import About
from core.session.shelf import Shelf
from core.session.sqlite_store import SqliteStore
from core.times.clocks import SimClock


@dataclass(frozen=True, slots=True)
class Wanted:
    """What was asked for: files, a rate, and where the score page is to be, if not as usual.

    The file of surprises is not read again; without one the day was drawn.
    """

    plan: Path
    surprises: Path | None = None
    rate: float = 1.0
    page: Path | None = None


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """The windows of a rehearsal, and what leads it."""

    board: Board
    trainer: TrainerWindow
    leading: Leading

    def start(self) -> None:
        """Show the trainer's window, then the desk's before it."""
        self.trainer.show()
        self.board.start()


def rehearse(plan: Plan, day: Surprises, wanted: Wanted) -> tuple[int, str]:
    """Open the windows and run until the desk's or the trainer's is closed.

    Gives the exit status, and in words where the score page is. Raises QtRefused.
    """
    refused = refusal(sys.version_info[:2], PySide6.__version_info__[:2])
    if refused is not None:
        raise QtRefused(refused)
    memory, shelf = Memory(state_folder() / "computed"), Shelf(sessions_folder())
    chosen, units = SettingsFile(settings_file()), Units()
    hours = chosen.settings.hours
    app = application()
    clock = SimClock(day.begin_ms, rate=wanted.rate, paused=True)
    file = shelf.new(wanted.plan, time.time_ns() // 1_000_000, rehearsal=True)
    store = SqliteStore(file, About(plan, str(wanted.plan.absolute()), rehearsal=True))
    desk = OpenDesk(plan, clock, store, memory.skies_for, hours, units)
    page = PageFile(file.with_suffix(".html"), wanted.page)
    run = LiveRun(plan, day, desk, clock, skies_for, hours)
    recording = Recording(store.path, papers_folder(), hours, lambda: store.unsaved)
    made = windows(run, desk, clock, chosen, page.write, recording.commands())
    ticker, window = made.board.ticker, made.board.window
    recording.said.connect(window.show_briefly)
    alarm = Alarm(state_folder() / "limbwatch.log")
    alarm.raised.connect(window.show_line)
    alarm.install()
    keeping = Keeping(desk, store, ticker, lambda: shelf.mark(file))
    fetcher = Fetcher(desk, skies_for, clock.now_ms)
    ticker.ticked.connect(fetcher.look)
    fetcher.fetched.connect(ticker.again)
    files = tuple(each for each in (wanted.plan, wanted.surprises) if each is not None)
    Unchanged(files, lambda text: made.trainer.say(Said(text)), made.trainer)
    awake = Awake(session_bus())

    def settled() -> None:
        awake.hold()
        memory.keep()
        calm()
        units.begin()

    window.strip_added.connect(lambda: QTimer.singleShot(0, window, settled))
    made.start()
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # Ctrl+C in the terminal ends it
    status = app.exec()
    ticker.stop()
    fetcher.stop()
    recording.stop()
    page.write(run)
    keeping.stop()
    awake.release()
    alarm.remove()
    for each in (made.trainer, window):
        each.deleteLater()
    return status, page.told


def windows(
    run: LiveRun,
    desk: OpenDesk,
    clock: SimClock,
    chosen: SettingsFile,
    write: Callable[[LiveRun], str],
    more: Mapping[Command, Callable[[], object]] | None = None,
) -> Rehearsal:
    """Make the windows, and have the rehearsal led from the trainer's.

    `more` is what further keys of the desk's window do.
    """
    trainer = TrainerWindow(DARK if chosen.settings.dark else LIGHT)
    desk.hold_clock(CLOCK_HELD)
    keys = {Command.TRAINER: lambda: _to(trainer), **(more or {})}
    board = as_chosen(desk, clock, chosen, keys)
    leading = Leading(run, clock, board.running, board.window, trainer, write)
    board.window.bar.line.installEventFilter(leading)
    board.window.ends_rehearsal = lambda: leading.ends_by_closing
    trainer.asked.connect(lambda ask: _to(board.window) if ask is Ask.DESK else None)
    trainer.closed.connect(board.window.close)
    board.window.closed.connect(trainer.end)
    fit(board.window)
    _beside(trainer, board.window)
    trainer.say(Said(f"The clock stands: {key_text(Ask.PAUSE)} lets it go"))
    return Rehearsal(board, trainer, leading)


def _to(window: QWidget) -> None:
    """Bring a window to the front, and the keyboard to it."""
    if window.isMinimized():
        window.showNormal()
    window.raise_()
    window.activateWindow()


def _beside(trainer: QWidget, desk: QWidget) -> None:
    """On another screen than the desk's, where there is one: the desk must not see it."""
    others = [each for each in QGuiApplication.screens() if each is not desk.screen()]
    if others:
        trainer.setScreen(others[-1])
        trainer.move(others[-1].availableGeometry().topLeft())
    fit(trainer)
