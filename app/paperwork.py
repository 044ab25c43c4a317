"""The plan printed from the desk window: its words at once, the pages in a thread of their own."""

from collections.abc import Callable, Mapping
from pathlib import Path
from threading import Thread

from PySide6.QtCore import QObject, Signal

from app.desk.keys import Command
from core.session.desk import Desk

_BADGE = "REHEARSAL"


class Paperwork(QObject):
    """Prints the plan as it stands to a file of its own in a folder, and says where it is.

    One at a time: asked again while it is laid out, it does nothing. No file is written over.
    """

    said = Signal(str)
    """A line for the desk: where it is, or why it is not."""

    def __init__(
        self, desk: Desk, now_ms: Callable[[], int], folder: Path, *, rehearsal: bool
    ) -> None:
        super().__init__()
        self._desk, self._now_ms, self._folder = desk, now_ms, folder
        self._badge = _BADGE if rehearsal else ""
        self._thread: Thread | None = None

    def commands(self) -> Mapping[Command, Callable[[], object]]:
        """Give what its key does."""
        return {Command.PRINT: self.begin}

    def begin(self) -> None:
        """Print the plan as it stands now."""
        # Late: nothing that prints is needed for the first frame.
        from app.printing.plan_file import printing  # noqa: PLC0415

        if self._thread is not None and self._thread.is_alive():
            return
        job = printing(self._desk, self._now_ms(), self._folder, self._badge)
        self._thread = Thread(target=lambda: self.said.emit(job()), name="printing", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Wait until what is being printed is there."""
        if self._thread is not None:
            self._thread.join()
