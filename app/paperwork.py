"""The plan printed from the desk window: its words at once, the pages in a thread of their own."""

from collections.abc import Callable, Mapping
from pathlib import Path
from threading import Thread

from PySide6.QtCore import QObject, Qt, Signal, Slot

from app.desk.keys import Command
from core.session.desk import Desk

_BADGE = "REHEARSAL"

Printing = Callable[[Desk, int, Path, str], Callable[[], str]]
"""Takes down every word at an instant, for a folder, with a badge; gives the job that is left."""


class Paperwork(QObject):
    """Prints the plan as it stands to a file of its own in a folder, and says where it is.

    One at a time: asked again while it is laid out, it does nothing. No file is written over.
    """

    said = Signal(str)
    """A line for the desk: where it is, or why it is not."""

    _loaded = Signal(object)

    def __init__(
        self, desk: Desk, now_ms: Callable[[], int], folder: Path, *, rehearsal: bool
    ) -> None:
        super().__init__()
        self._desk, self._now_ms, self._folder = desk, now_ms, folder
        self._badge = _BADGE if rehearsal else ""
        self._thread: Thread | None = None
        self._busy = self._stopped = False
        self._loaded.connect(self._take_down, Qt.ConnectionType.QueuedConnection)

    def commands(self) -> Mapping[Command, Callable[[], object]]:
        """Give what its key does."""
        return {Command.PRINT: self.begin}

    def begin(self) -> None:
        """Print the plan as it stands."""
        if not self._busy:
            self._busy = True
            self._start(self._load)

    def stop(self) -> None:
        """Print no more; what is being laid out is waited for."""
        self._stopped = True
        if self._thread is not None:
            self._thread.join()

    def _start(self, work: Callable[[], None]) -> None:
        self._thread = Thread(target=work, name="printing", daemon=True)
        self._thread.start()

    def _load(self) -> None:
        """Fetch what prints, away from the screen's thread: it takes longer than a frame."""
        # Late: nothing that prints is needed for the first frame.
        from app.printing.plan_file import printing  # noqa: PLC0415

        self._loaded.emit(printing)

    @Slot(object)
    def _take_down(self, printing: Printing) -> None:
        """Every word as it stands at this second; then the pages, in a thread again."""
        if self._stopped:
            return
        taken = False
        try:
            job = printing(self._desk, self._now_ms(), self._folder, self._badge)
            taken = True
        finally:
            self._busy = taken
        self._start(lambda: self._lay_out(job))

    def _lay_out(self, job: Callable[[], str]) -> None:
        try:
            self.said.emit(job())
        finally:
            self._busy = False
