"""What the strip shows of a plan that is being made: worked out in a thread, the latest wins."""

from dataclasses import dataclass
from threading import Lock, Thread

from PySide6.QtCore import QObject, Signal

from app.skies import skies_for
from core.board.model import View
from core.errors import LimbwatchError
from core.plan.model import Plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.writing import Hours

_BEFORE_MS = 600_000
"""The board is looked at so long before its first event."""


@dataclass(frozen=True, slots=True)
class Looked:
    """A plan as the board shows it, or why it does not; and when each event is expected."""

    plan: Plan
    view: View | None
    said: str = ""
    expected_ms: tuple[tuple[str, int], ...] = ()


def looked(plan: Plan) -> Looked:
    """How a plan looks on the board, shortly before its first event."""
    try:
        first_ms = min((event.at_ms for event in plan.events if event.at_ms is not None), default=0)
        now_ms = first_ms - _BEFORE_MS
        clock = SimClock(now_ms, paused=True)
        # The tables count hours to 24: a window has one style.
        desk = Desk(plan, clock, hours=Hours.TWENTY_FOUR, skies_for=skies_for)
        view = desk.view(now_ms)
        times = ((event.id, desk.schedule.expected_ms(event.id)) for event in plan.events)
        expected = tuple((name, at_ms) for name, at_ms in times if at_ms is not None)
        return Looked(plan, view, _clashes(desk), expected)
    except LimbwatchError as problem:
        return Looked(plan, None, f"The signal cannot be worked out: {problem}")


def _clashes(desk: Desk) -> str:
    return "The plan contradicts itself: the board shows where" if desk.clashes else ""


class Looker(QObject):
    """Looks at plans away from the screen's thread."""

    looked = Signal(object)
    """A Looked."""
    _came = Signal(int, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._wanted: Plan | None = None
        self._lock = Lock()
        self._thread: Thread | None = None
        self._ended = False
        self._turn = 0
        self._came.connect(self._tell)

    def look(self, plan: Plan) -> None:
        """Look at a plan; one that waits is forgotten for it."""
        with self._lock:
            if self._ended:
                return
            self._wanted = plan
            if self._thread is None:
                self._thread = Thread(target=self._work, name="builder strip", daemon=True)
                self._thread.start()

    def forget(self) -> None:
        """Tell no more of any plan that was looked at until now."""
        with self._lock:
            self._wanted, self._turn = None, self._turn + 1

    def _tell(self, turn: int, seen: Looked) -> None:
        if turn == self._turn:
            self.looked.emit(seen)

    def stop(self) -> None:
        """Look at no more, ever; comes back when the thread has ended."""
        with self._lock:
            self._wanted, self._ended = None, True
            thread = self._thread
        if thread is not None:
            thread.join()

    def _work(self) -> None:
        while True:
            with self._lock:
                plan, self._wanted, turn = self._wanted, None, self._turn
                if plan is None:
                    self._thread = None
                    return
            self._came.emit(turn, looked(plan))
