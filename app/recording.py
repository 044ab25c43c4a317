"""The record of the day written from the desk window, by a process of its own.

To go through a day once more takes seconds of reckoning; here nothing waits for it.
"""

import os
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QObject, QProcess, QProcessEnvironment, Signal

from app.desk.keys import Command
from core.times.writing import Hours

_ROOT = Path(__file__).resolve().parents[1]
"""Where the package stands that the process is to run."""
_END_MS = 20_000
_WRITING = "The record is being written …"


class Recording(QObject):
    """Writes the record of a session so far into a page in a folder, and says where it is.

    One at a time. A session has one page, named after it, which is written anew. `unsaved` tells
    how many entries are not in the session's file.
    """

    said = Signal(str)
    """A line for the desk: where it is, or why it is not."""

    def __init__(
        self, session: Path, folder: Path, hours: Hours, unsaved: Callable[[], int]
    ) -> None:
        super().__init__()
        self._session, self._hours, self._unsaved = session, hours, unsaved
        self._page = folder / f"{session.stem}.html"
        self._left_out = 0
        self._process = QProcess(self)
        self._process.setProcessEnvironment(_environment())
        self._process.finished.connect(self._finished)
        self._process.errorOccurred.connect(self._failed)

    def commands(self) -> Mapping[Command, Callable[[], object]]:
        """Give what its key does."""
        return {Command.RECORD: self.begin}

    def begin(self) -> None:
        """Write the record as it stands now."""
        if self._process.state() is not QProcess.ProcessState.NotRunning:
            return
        try:
            self._page.parent.mkdir(parents=True, exist_ok=True)
        except OSError as problem:
            self.said.emit(f"No record: cannot make {self._page.parent}: {problem.strerror}")
            return
        self._left_out = self._unsaved()
        hours = str(int(self._hours))
        words = ["record", str(self._session), "--out", str(self._page), "--hours", hours]
        self.said.emit(_WRITING)
        self._process.start(sys.executable, ["-m", "app", *words])

    def stop(self) -> None:
        """Wait until what is being written is there."""
        if self._process.state() is not QProcess.ProcessState.NotRunning:
            self._process.waitForFinished(_END_MS)

    def _finished(self, status: int, _how: QProcess.ExitStatus) -> None:
        if status:
            told = bytes(self._process.readAllStandardError().data()).decode(errors="replace")
            lines = told.strip().splitlines()
            self.said.emit(f"No record: {lines[-1] if lines else 'it ended too soon'}")
            return
        count = self._left_out
        without = f", without {count} not yet on disk" if count else ""
        self.said.emit(f"The record so far{without}: {_short(self._page)}")

    def _failed(self, error: QProcess.ProcessError) -> None:
        if error is QProcess.ProcessError.FailedToStart:
            self.said.emit(f"No record: {self._process.errorString()}")


def _environment() -> QProcessEnvironment:
    """This one's, with the package to be found."""
    environment = QProcessEnvironment.systemEnvironment()
    known = environment.value("PYTHONPATH")
    environment.insert("PYTHONPATH", f"{_ROOT}{os.pathsep}{known}" if known else str(_ROOT))
    return environment


def _short(path: Path) -> str:
    home = Path.home()
    return f"~/{path.relative_to(home)}" if path.is_relative_to(home) else str(path)
