"""What is pasted, dropped or opened: recognised, and read in a thread that can be stopped."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import time
from threading import Event, Thread

from PySide6.QtCore import QObject, Signal

from core.errors import PlanProblems
from core.plan.imports.calendar import read_calendar
from core.plan.imports.columns import Columns
from core.plan.imports.kinds import Kind, kind_of
from core.plan.imports.model import Imported, Progress, Setting
from core.plan.imports.opened import Table
from core.plan.imports.table import open_table, read_table
from core.plan.imports.timeline import read_timeline


@dataclass(frozen=True, slots=True)
class Source:
    """A text and what it was recognised as. `table`: it was opened as one.

    `told`: what must be said of how it was decoded.
    """

    name: str
    text: str
    kind: Kind
    table: Table | None = None
    told: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Wish:
    """How a source is to be read, as the person has it."""

    setting: Setting
    columns: Columns | None = None
    all_day_at: time | None = None


def recognised(text: str, name: str, told: tuple[str, ...] = ()) -> Source:
    """What a text is. Raises PlanProblems where it cannot be taken at all."""
    kind = kind_of(text)
    table = open_table(text, name) if kind is Kind.TABLE else None
    return Source(name, text, kind, table, told)


def read_as(source: Source, kind: Kind) -> Source:
    """The same text as a table or as a timeline. Raises PlanProblems where it cannot be one."""
    table = open_table(source.text, source.name) if kind is Kind.TABLE else None
    return replace(source, kind=kind, table=table)


def read_source(source: Source, wish: Wish, progress: Progress) -> Imported:
    """All that a source gives. Raises PlanProblems where it cannot be taken at all."""
    if source.table is not None:
        columns = wish.columns or source.table.proposed
        return read_table(source.table, columns, wish.setting, progress)
    if source.kind is Kind.CALENDAR:
        return read_calendar(source.text, wish.setting, source.name, progress, wish.all_day_at)
    return read_timeline(source.text, wish.setting, source.name, progress)


class Importer(QObject):
    """Reads one source at a time away from the screen's thread."""

    progressed = Signal(int, int)
    """So much is read, of so much."""
    done = Signal(object)
    """An Imported."""
    failed = Signal(str)
    """Why it cannot be taken at all."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop, self._drop = Event(), Event()
        self._thread: Thread | None = None

    def read(self, source: Source, wish: Wish) -> None:
        """Read a source; what is being read is stopped for it, and never told of."""
        self.forget()
        stop, drop = self._stop, self._drop = Event(), Event()

        def go_on(done: int, of: int) -> bool:
            if not stop.is_set():
                self.progressed.emit(done, of)
            return not stop.is_set()

        self._thread = Thread(
            target=self._read, args=(source, wish, go_on, drop), name="builder import", daemon=True
        )
        self._thread.start()

    def stop(self) -> None:
        """Read no further; what was read until then comes by `done`."""
        self._stop.set()

    def forget(self) -> None:
        """Stop reading; comes back when the thread has ended. Nothing of it is told."""
        self._drop.set()
        self._stop.set()
        if self._thread is not None:
            self._thread.join()
            self._thread = None

    def _read(
        self, source: Source, wish: Wish, go_on: Callable[[int, int], bool], drop: Event
    ) -> None:
        try:
            imported = read_source(source, wish, go_on)
        except PlanProblems as problems:
            if not drop.is_set():
                self.failed.emit(str(problems.problems[0]))
            return
        if not drop.is_set():
            self.done.emit(imported)
