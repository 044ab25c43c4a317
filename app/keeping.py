"""Between the board and its files: signs of life, reading along, and a plan that has changed."""

import time
from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal, Slot

from app.plans import take_plan
from app.sessions import Day
from app.ticking import Ticker
from app.watching import PlanWatcher
from core.errors import PlanProblems
from core.plan.model import Plan
from core.session.desk import Desk
from core.session.keeping import Beat
from core.session.opening import ReadingStore
from core.session.sqlite_store import SqliteStore
from core.times.clocks import SimClock


class Keeping(QObject):
    """Has the session written while the board runs, from its making to `stop`."""

    _told = Signal()
    """The store's own thread says that something has changed."""

    def __init__(
        self,
        desk: Desk,
        store: SqliteStore | ReadingStore,
        ticker: Ticker,
        mark: Callable[[], None],
    ) -> None:
        super().__init__(ticker)
        self._desk = desk
        self._store = store
        self._ticker = ticker
        self._mark = mark
        self._told.connect(ticker.again, Qt.ConnectionType.QueuedConnection)
        ticker.ticked.connect(self._tick)
        if isinstance(store, SqliteStore):
            store.told = self._told.emit
            store.start()
            mark()

    def stop(self) -> None:
        """Write all there is, and the last sign of life."""
        if isinstance(self._store, SqliteStore):
            self._store.beat(self._beat(self._desk.clock.now_ms()))
            self._store.close()
            self._mark()  # again: at the start there may have been no room
        self._told.disconnect(self._ticker.again)

    @Slot(object)
    def _tick(self, second_ms: int) -> None:
        if isinstance(self._store, SqliteStore):
            self._store.beat(self._beat(second_ms))
        elif self._store.look():
            self._desk.caught_up(second_ms)
            self._told.emit()

    def _beat(self, board_ms: int) -> Beat:
        machine_ms = time.time_ns() // 1_000_000
        clock = self._desk.clock
        if isinstance(clock, SimClock):
            return Beat(machine_ms, board_ms, clock.rate, clock.paused)
        return Beat(machine_ms, board_ms)


def watched(day: Day, desk: Desk, ticker: Ticker, said: str) -> PlanWatcher:
    """Watch the plan's file; tell what is `said`, of the day, and of the file as it is now."""
    words = ". ".join(each for each in (said, day.said) if each)
    if words:
        desk.tell(words, desk.clock.now_ms())
    if day.found is not None:
        desk.plan_on_disk(day.found, desk.clock.now_ms())
    watcher = PlanWatcher(day.path, day.plan, take_plan, ticker)

    def take(found: Plan | PlanProblems) -> None:
        desk.plan_on_disk(found, desk.clock.now_ms())
        ticker.again()

    watcher.changed.connect(take)
    return watcher
