"""Watches the plan's file and reads it anew when it has changed, off the window's thread."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QRunnable, QThreadPool, QTimer, Signal

from core.errors import PlanProblems
from core.plan.model import Plan

_SETTLE_MS = 200
"""An editor writes a file in several strokes; it is read once they have ended."""


class PlanWatcher(QObject):
    """Says when the plan on disk has become another one: the plan as read, or its problems.

    The folder is watched too, because a file replaced by renaming is no longer watched itself.
    `read` raises PlanProblems; it runs on another thread, since a long plan takes a while.
    """

    changed = Signal(object)
    """A Plan, or PlanProblems."""

    def __init__(
        self, path: Path, plan: Plan, read: Callable[[Path], Plan], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._path = path
        self._read = read
        self._stamps = _stamps(_files_of(path, plan))
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(_SETTLE_MS)
        self._settle.timeout.connect(self._look)
        self._watcher = QFileSystemWatcher(self)
        self._watcher.fileChanged.connect(self._settle.start)
        self._watcher.directoryChanged.connect(self._settle.start)
        self._watch()

    def stop(self) -> None:
        """Watch no more, and wait for a reading that is under way."""
        self._settle.stop()
        self._watcher.blockSignals(True)  # noqa: FBT003  # Qt's own signature
        QThreadPool.globalInstance().waitForDone()

    def _watch(self) -> None:
        wanted = [str(file) for file in (self._path.parent, *self._stamps) if file.exists()]
        known = {*self._watcher.files(), *self._watcher.directories()}
        missing = [file for file in wanted if file not in known]
        if missing:
            self._watcher.addPaths(missing)

    def _look(self) -> None:
        self._watch()
        stamps = _stamps(tuple(self._stamps))
        if stamps == self._stamps or not self._path.exists():
            return
        self._stamps = stamps
        reading = _Reading(self._path, self._read)
        reading.done.came.connect(self._take)
        QThreadPool.globalInstance().start(reading)

    def _take(self, plan: Plan | PlanProblems) -> None:
        if isinstance(plan, Plan):
            self._stamps = _stamps(_files_of(self._path, plan))
            self._watch()
        self.changed.emit(plan)


class _Done(QObject):
    """Carries what was read over to the window's thread."""

    came = Signal(object)


class _Reading(QRunnable):
    """One reading of the plan's file."""

    def __init__(self, path: Path, read: Callable[[Path], Plan]) -> None:
        super().__init__()
        self._path = path
        self._read = read
        self.done = _Done()

    def run(self) -> None:
        """Read, and hand over the plan or what is wrong with it."""
        try:
            found: Plan | PlanProblems = self._read(self._path)
        except PlanProblems as problems:
            found = problems
        self.done.came.emit(found)


def _files_of(path: Path, plan: Plan) -> tuple[Path, ...]:
    beside = (plan.folder / course.file for course in plan.courses if course.file)
    return (path, *beside)


def _stamps(files: tuple[Path, ...]) -> dict[Path, tuple[int, int]]:
    """Give the size and the time of writing of each file; (0, 0) where it is not there."""
    stamps = {}
    for file in files:
        try:
            told = file.stat()
            stamps[file] = (told.st_size, told.st_mtime_ns)
        except OSError:
            stamps[file] = (0, 0)
    return stamps
