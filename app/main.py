"""The composition root of the windows: makes every part and hands each what it needs."""

import gc
import signal
import sys
import time
from pathlib import Path

import PySide6
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication

from app.awake import Awake, session_bus
from app.crash import Alarm, state_folder
from app.desk.clock_keys import ClockKeys
from app.desk.running import Running
from app.desk.window import DeskWindow
from app.fetching import Fetcher
from app.fonts import FILES, load_fonts
from app.plans import take_plan
from app.presenter.screens import QtScreens
from app.presenter.stage import Stage
from app.presenter.window import PresenterWindow
from app.remembering import Memory
from app.resources import asset, sample_plan
from app.skies import skies_for
from app.theme import DARK, HEIGHT_PX, WIDTH_PX, Palette
from app.ticking import Ticker
from app.units import Units
from app.versions import refusal
from app.watching import PlanWatcher
from core.errors import PlanProblems
from core.plan.model import Plan
from core.records import record
from core.session.desk import Desk
from core.times.clocks import RealClock, SimClock
from core.times.zones import typed_to_ms

_SAMPLE = "petrel-arrival"
_SAMPLE_EVENT = "loss"
_SAMPLE_AHEAD_MS = 600_000

_LOADED_MS = 10_000
"""After that the garbage collector works, whatever became of the strip."""


class QtRefused(RuntimeError):
    """This Qt cannot be used on this Python; the message says what to install."""


@record
class Board:
    """A window that runs: show it and start its ticker."""

    window: DeskWindow
    ticker: Ticker
    stage: Stage

    def start(self) -> None:
        """Put the first second on the window, then show it: no frame is ever empty."""
        self.ticker.start()
        self.window.show()


def run_board(
    plan_path: Path | None = None, at: str | None = None, rate: float | None = None
) -> int:
    """Open the desk window and run until it is closed; gives the exit status.

    Without a plan it is the arrival sample on a simulated clock, ten minutes before the loss of
    signal. `at` (a time as the commands take it) or a rate makes a simulated clock. Raises
    PlanProblems for a plan that cannot be taken, TimeProblem, and QtRefused.
    """
    refused = refusal(sys.version_info[:2], PySide6.__version_info__[:2])
    if refused is not None:
        raise QtRefused(refused)
    path = plan_path if plan_path is not None else sample_plan(_SAMPLE)
    memory = Memory(state_folder() / "computed")
    plan = take_plan(path, tried=memory.knows)
    at_ms = None if at is None else typed_to_ms(at, plan.zones[0])
    app = application()
    clock = _clock(at_ms, rate, sample=plan_path is None)
    units = Units()
    desk = Desk(plan, clock, skies_for=memory.skies_for, both=units)
    if plan_path is None and at_ms is None and isinstance(clock, SimClock):
        _go_to_the_loss(desk, clock)
    made = board(desk, clock)
    alarm = Alarm(state_folder() / "limbwatch.log")
    alarm.raised.connect(made.window.show_line)
    alarm.install()
    watcher = _watched(path, plan, desk, made)
    fetcher = Fetcher(desk, skies_for, clock.now_ms)
    made.ticker.ticked.connect(fetcher.look)
    fetcher.fetched.connect(made.ticker.again)
    awake = Awake(session_bus())

    def settled() -> None:
        awake.hold()
        memory.keep()
        calm()
        units.begin()

    # Not before the strip is painted, too.
    made.window.strip_added.connect(lambda: QTimer.singleShot(0, made.window, settled))
    patience = QTimer(made.window)  # where nothing is ever painted, too; it goes with the window
    patience.setSingleShot(True)
    patience.timeout.connect(gc.enable)
    patience.start(_LOADED_MS)
    _fit(made.window)
    made.start()
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # Ctrl+C in the terminal ends it
    status = app.exec()
    made.ticker.stop()
    watcher.stop()
    fetcher.stop()
    awake.release()
    alarm.remove()
    made.window.deleteLater()
    return status


def calm() -> None:
    """Let the garbage collector leave alone what is there from the start, and look after the rest.

    Else it goes through plan, schedule and libraries again and again, some 40 ms between two keys.
    """
    gc.collect()
    gc.freeze()
    gc.enable()


def application() -> QApplication:
    """Give the Qt application, dressed: its style and its font."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(sys.argv[:1])
    app.setApplicationName("limbwatch")
    app.setApplicationDisplayName("Limbwatch")
    app.setStyle("Fusion")
    app.setCursorFlashTime(0)  # nothing on the desk's screens blinks
    load_fonts(asset(name) for name in FILES)
    return app


def board(desk: Desk, clock: RealClock | SimClock, palette: Palette = DARK) -> Board:
    """Give the window on a desk, with the timer that drives it."""
    ticker = Ticker(clock)
    running = Running(desk, clock, ticker)
    clock_keys = ClockKeys(clock) if isinstance(clock, SimClock) else None
    screens = QtScreens(application())
    stage = Stage(screens, lambda: screens.name_of(window.screen()), PresenterWindow())
    window = DeskWindow(desk, running, clock_keys, palette, stage.commands())
    running.viewed.connect(stage.show_view)
    stage.said.connect(window.show_line)
    stage.window.woken.connect(window.activateWindow)
    window.facts_asked.connect(desk.show_facts)
    window.facts_asked.connect(lambda _event: running.refresh())
    window.closed.connect(ticker.stop)
    window.closed.connect(stage.end)
    return Board(window, ticker, stage)


def _clock(at_ms: int | None, rate: float | None, *, sample: bool) -> RealClock | SimClock:
    if at_ms is None and rate is None and not sample:
        return RealClock()
    start_ms = at_ms if at_ms is not None else time.time_ns() // 1_000_000
    return SimClock(start_ms, rate=rate if rate is not None else 1.0)


def _go_to_the_loss(desk: Desk, clock: SimClock) -> None:
    at_ms = desk.schedule.expected_ms(_SAMPLE_EVENT)
    if at_ms is not None:
        clock.jump(at_ms - _SAMPLE_AHEAD_MS)


def _watched(path: Path, plan: Plan, desk: Desk, made: Board) -> PlanWatcher:
    watcher = PlanWatcher(path, plan, take_plan, made.window)

    def take(found: Plan | PlanProblems) -> None:
        desk.plan_on_disk(found, desk.clock.now_ms())
        made.ticker.again()

    watcher.changed.connect(take)
    return watcher


def _fit(window: DeskWindow) -> None:
    """Give the window its size, or the whole screen where that is smaller."""
    room = window.screen().availableSize()
    window.resize(min(WIDTH_PX, room.width()), min(HEIGHT_PX, room.height()))
    if room.width() <= WIDTH_PX or room.height() <= HEIGHT_PX:
        window.setWindowState(Qt.WindowState.WindowMaximized)
