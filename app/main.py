"""The composition root of the windows: makes every part and hands each what it needs."""

import gc
import signal
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import PySide6
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QWidget

from app.awake import Awake, session_bus
from app.building import Building
from app.clock_trust import clock_watch
from app.crash import Alarm, state_folder
from app.desk.clock_keys import ClockKeys
from app.desk.keys import Command
from app.desk.running import Running
from app.desk.window import DeskWindow
from app.fetching import Fetcher
from app.folders import papers_folder, sessions_folder, settings_file
from app.fonts import FILES, load_fonts
from app.keeping import Keeping, watched
from app.paperwork import Paperwork
from app.plans import take_plan
from app.presenter.screens import QtScreens
from app.presenter.stage import Stage
from app.presenter.window import PresenterWindow
from app.recording import Recording
from app.remembering import Memory
from app.resources import asset
from app.sessions import Wanted, open_day
from app.settings import SettingsFile
from app.skies import skies_for
from app.theme import DARK, HEIGHT_PX, LIGHT, WIDTH_PX, Palette
from app.ticking import Ticker
from app.units import Units
from app.versions import refusal
from core.session.desk import Desk
from core.session.shelf import Shelf
from core.times.clocks import RealClock, SimClock

_SAMPLE_EVENT = "loss"
_SAMPLE_AHEAD_MS = 600_000

_LOADED_MS = 10_000
"""After that the garbage collector works, whatever became of the strip."""


class QtRefused(RuntimeError):
    """This Qt cannot be used on this Python; the message says what to install."""


@dataclass(frozen=True, slots=True)
class Board:
    """A window that runs: show it and start its ticker."""

    window: DeskWindow
    ticker: Ticker
    stage: Stage
    running: Running

    def start(self) -> None:
        """Put the first second on the window, then show it: no frame is ever empty."""
        self.ticker.start()
        self.window.show()


def run_board(
    plan_path: Path | None = None,
    at: str | None = None,
    rate: float | None = None,
    *,
    new: bool = False,
) -> int:
    """Open the desk window and run until it is closed; gives the exit status.

    Without a plan it is the session that was open last, else the arrival sample on a simulated
    clock, ten minutes before the loss of signal. `at` (a time as the commands take it) or a rate
    makes a simulated clock. Raises PlanProblems for a plan that cannot be taken, TimeProblem, and
    QtRefused.
    """
    refused = refusal(sys.version_info[:2], PySide6.__version_info__[:2])
    if refused is not None:
        raise QtRefused(refused)
    memory, shelf = Memory(state_folder() / "computed"), Shelf(sessions_folder())
    chosen = SettingsFile(settings_file())
    hours = chosen.settings.hours
    wanted = Wanted(plan_path, at, rate, new, hours)
    day = open_day(wanted, shelf, partial(take_plan, tried=memory.knows))
    app = application()
    clock, units = day.clock, Units()
    desk = Desk(day.plan, clock, day.store, hours, memory.skies_for, units)
    if day.begun and plan_path is None and at is None and isinstance(clock, SimClock):
        _go_to_the_loss(desk, clock)
    store = day.store
    recording = Recording(store.path, papers_folder(), hours, lambda: store.unsaved)
    building = Building(day.path)
    made = as_chosen(desk, clock, chosen, {**recording.commands(), **building.commands()})
    for told in (recording.said, building.said):
        told.connect(made.window.show_briefly)
    alarm = Alarm(state_folder() / "limbwatch.log")
    alarm.raised.connect(made.window.show_line)
    alarm.install()
    keeping = Keeping(desk, day.store, made.ticker, lambda: shelf.mark(day.store.path))
    watcher = watched(day, desk, made.ticker, chosen.said)
    fetcher = Fetcher(desk, skies_for, clock.now_ms)
    made.ticker.ticked.connect(fetcher.look)
    fetcher.fetched.connect(made.ticker.again)
    awake = Awake(session_bus())
    trust = clock_watch(desk, clock, made.ticker)

    def settled() -> None:
        awake.hold()
        memory.keep(len(store.entries))
        made.ticker.ticked.connect(lambda _ms: memory.follow(len(store.entries)))
        calm()
        units.begin()
        trust.start()

    # Not before the strip is painted, too.
    made.window.strip_added.connect(lambda: QTimer.singleShot(0, made.window, settled))
    patience = QTimer(made.window)  # where nothing is ever painted, too; it goes with the window
    patience.setSingleShot(True)
    patience.timeout.connect(gc.enable)
    patience.start(_LOADED_MS)
    fit(made.window)
    made.start()
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # Ctrl+C in the terminal ends it
    status = app.exec()
    made.ticker.stop()
    for stop in (watcher.stop, fetcher.stop, keeping.stop, trust.stop, recording.stop):
        stop()
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


def board(
    desk: Desk,
    clock: RealClock | SimClock,
    palette: Palette = DARK,
    screen: str = "",
    more: Mapping[Command, Callable[[], object]] | None = None,
) -> Board:
    """Give the window on a desk, with the timer that drives it. `more` is what other keys do."""
    ticker = Ticker(clock)
    running = Running(desk, clock, ticker)
    clock_keys = ClockKeys(clock) if isinstance(clock, SimClock) else None
    screens = QtScreens(application())
    stage = Stage(screens, lambda: screens.name_of(window.screen()), PresenterWindow(), screen)
    paperwork = Paperwork(desk, clock.now_ms, papers_folder(), rehearsal=clock_keys is not None)
    keys = {**stage.commands(), **paperwork.commands(), **(more or {})}
    window = DeskWindow(desk, running, clock_keys, palette, keys)
    running.viewed.connect(stage.show_view)
    stage.said.connect(window.show_briefly)
    paperwork.said.connect(window.show_briefly)
    window.closed.connect(paperwork.stop)
    stage.window.woken.connect(window.activateWindow)
    window.facts_asked.connect(desk.show_facts)
    window.facts_asked.connect(lambda _event: running.refresh())
    window.closed.connect(ticker.stop)
    window.closed.connect(stage.end)
    return Board(window, ticker, stage, running)


def as_chosen(
    desk: Desk,
    clock: RealClock | SimClock,
    chosen: SettingsFile,
    more: Mapping[Command, Callable[[], object]] | None = None,
) -> Board:
    """The window as this user has chosen it to be; what is chosen anew is kept."""
    settings = chosen.settings
    made = board(desk, clock, DARK if settings.dark else LIGHT, settings.screen, more)
    made.window.themed.connect(lambda dark: chosen.choose_theme(dark=dark))
    made.stage.placed.connect(chosen.choose_screen)
    return made


def _go_to_the_loss(desk: Desk, clock: SimClock) -> None:
    at_ms = desk.schedule.expected_ms(_SAMPLE_EVENT)
    if at_ms is not None:
        clock.jump(at_ms - _SAMPLE_AHEAD_MS)


def fit(window: QWidget) -> None:
    """Give the window its size, or the whole screen where that is smaller."""
    room = window.screen().availableSize()
    window.resize(min(WIDTH_PX, room.width()), min(HEIGHT_PX, room.height()))
    if room.width() <= WIDTH_PX or room.height() <= HEIGHT_PX:
        window.setWindowState(Qt.WindowState.WindowMaximized)
