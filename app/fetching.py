"""Contacts far ahead: worked out away from the screen's thread, and brought in when ready."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QObject, Qt, QThread, QTimer, Signal, Slot

from core.plan.model import Plan
from core.signal.computing import Skies, Spell
from core.signal.hurried import Question

PATIENCE_MS = 500
"""Work that takes longer is told of in a quiet line."""


STAND_MS = 2000
"""So long a question must stand: longer than the second after which a held count asks another."""


class FetchingDesk(Protocol):
    """What has questions open, and takes the answers."""

    @property
    def plan(self) -> Plan:
        """The plan in force."""

    def unsettled(self) -> tuple[Question, ...]:
        """Give what is to be worked out, as things stand."""

    def settle(self, question: Question, spell: Spell | None, now_ms: int) -> None:
        """Take an answer."""

    def working(self, *, on: bool) -> None:
        """Say, or no longer say, that contacts far ahead are being worked out."""


@dataclass(frozen=True, slots=True)
class Job:
    """A question of a plan."""

    plan: Plan
    question: Question


class _Worker(QObject):
    """Answers in a thread of its own, with a sky of its own for the plan in force."""

    answered = Signal(object, object)
    """A Job, and a Spell or None."""

    failed = Signal()

    def __init__(self, skies_for: Callable[[Plan], Skies | None]) -> None:
        super().__init__()
        self._skies_for = skies_for
        self._made: tuple[Plan, Skies | None] | None = None

    @Slot(object)
    def answer(self, job: Job) -> None:
        """Work a question out."""
        if self._made is None or self._made[0] is not job.plan:
            self._made = (job.plan, self._skies_for(job.plan))
        skies, answered = self._made[1], False
        try:
            spell = None if skies is None else skies.spell(*job.question)
            self.answered.emit(job, spell)
            answered = True
        finally:  # the error itself goes to the alarm; whoever asked must not wait for ever
            if not answered:
                self.failed.emit()


class Fetcher(QObject):
    """Looks at each tick whether something is to be fetched, one question at a time."""

    fetched = Signal()
    """The desk has taken an answer: the board is to be shown anew."""

    _asked = Signal(object)

    def __init__(
        self,
        desk: FetchingDesk,
        skies_for: Callable[[Plan], Skies | None],
        now_ms: Callable[[], int],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._desk = desk
        self._now_ms = now_ms
        self._busy = False
        self._open: Question | None = None
        self._thread = QThread(self)
        self._worker = _Worker(skies_for)
        self._worker.moveToThread(self._thread)
        self._asked.connect(self._worker.answer, Qt.ConnectionType.QueuedConnection)
        self._worker.answered.connect(self._take, Qt.ConnectionType.QueuedConnection)
        self._worker.failed.connect(self._drop, Qt.ConnectionType.QueuedConnection)
        self._patience = QTimer(self)
        self._patience.setSingleShot(True)
        self._patience.setInterval(PATIENCE_MS)
        self._patience.timeout.connect(self._told)
        self._stand = QTimer(self)
        self._stand.setSingleShot(True)
        self._stand.setInterval(STAND_MS)
        self._stand.timeout.connect(self._ask)

    def look(self) -> None:
        """See whether something is open, and ask once it has stood for a while.

        While a count is held its question is another at each second, and not worth asking.
        """
        if self._busy:
            return
        questions = self._desk.unsettled()
        newest = questions[-1] if questions else None
        if newest == self._open:
            return
        self._open = newest
        self._stand.stop()
        if newest is not None:
            self._stand.start()

    @Slot()
    def _ask(self) -> None:
        if self._open is None:
            return
        self._busy = True
        if not self._thread.isRunning():
            self._thread.start()
        self._patience.start()
        self._asked.emit(Job(self._desk.plan, self._open))

    def stop(self) -> None:
        """Fetch no more; what is being worked on is waited for and dropped."""
        self._stand.stop()
        self._patience.stop()
        self._worker.answered.disconnect(self._take)
        self._worker.failed.disconnect(self._drop)
        self._thread.quit()
        self._thread.wait()

    @Slot()
    def _told(self) -> None:
        self._desk.working(on=True)
        self.fetched.emit()

    @Slot()
    def _drop(self) -> None:
        """Be ready for another question; the one that failed is not asked again."""
        self._busy = False
        self._patience.stop()
        self._desk.working(on=False)
        self.fetched.emit()

    @Slot(object, object)
    def _take(self, job: Job, spell: Spell | None) -> None:
        self._busy = False
        self._open = None
        self._patience.stop()
        self._desk.working(on=False)
        if job.plan is self._desk.plan:
            self._desk.settle(job.question, spell, self._now_ms())
        self.fetched.emit()
