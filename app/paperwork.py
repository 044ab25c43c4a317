"""The plan printed from the desk window: its words at once, the pages in a thread of their own."""

import time
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from threading import Thread
from typing import Protocol

from PySide6.QtCore import QLocale, QObject, Signal

from app.desk.keys import Command
from app.printing.saving import CannotWrite, save
from core.board.paper.model import PlanSheet
from core.board.paper.sheet import AsOf
from core.plan.model import Plan
from core.times.writing import local_time

_BADGE = "REHEARSAL"
_NOT_IN_NAMES = '/\\:*?"<>|'
_LONGEST_NAME = 80


class PrintedDesk(Protocol):
    """What has the words of the printed plan."""

    @property
    def plan(self) -> Plan:
        """The plan in force."""

    def sheet(self, as_of: AsOf) -> PlanSheet:
        """Give the plan as it stands, every word of it."""


class Paperwork(QObject):
    """Prints the plan as it stands to a file of its own in a folder, and says where it is.

    One at a time: asked again while it is laid out, it does nothing. No file is written over.
    """

    said = Signal(str)
    """A line for the desk: where it is, or why it is not."""

    def __init__(
        self, desk: PrintedDesk, now_ms: Callable[[], int], folder: Path, *, rehearsal: bool
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
        if self._thread is not None and self._thread.is_alive():
            return
        now_ms = self._now_ms()
        sheet = self._desk.sheet(AsOf(now_ms, time.time_ns() // 1_000_000))
        stem = _stem(sheet.title, local_time(now_ms, self._desk.plan.zones[0]), self._badge)
        letter = QLocale.system().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
        self._thread = Thread(
            target=self._print, args=(sheet, stem, letter), name="printing", daemon=True
        )
        self._thread.start()

    def stop(self) -> None:
        """Wait until what is being printed is there."""
        if self._thread is not None:
            self._thread.join()

    def _print(self, sheet: PlanSheet, stem: str, letter: bool) -> None:  # noqa: FBT001
        # Late: what lays out pages is not needed for the first frame.
        from app.printing.paper import Size  # noqa: PLC0415
        from app.printing.plan_pages import plan_pdf  # noqa: PLC0415

        try:
            printed = plan_pdf(sheet, Size.LETTER if letter else Size.A4, self._badge)
            path = _free(self._folder, stem)
            save(path, printed.data)
        except CannotWrite as problem:
            self.said.emit(f"Not printed. {problem}")
            return
        pages = f"{printed.pages} page{'' if printed.pages == 1 else 's'}"
        self.said.emit(f"Printed, {pages}: {_short(path)}")


def _stem(title: str, there: datetime, badge: str) -> str:
    """'Petrel 4, arrival at the Moon 2031-05-14 16.41.12': the board's time, in the desk's zone."""
    plain = "".join("-" if sign in _NOT_IN_NAMES or ord(sign) < 32 else sign for sign in title)
    when = f"{there:%Y-%m-%d %H.%M.%S}"
    named = plain.strip(" .")[:_LONGEST_NAME] or "Plan"
    return f"{named} {when}{f' {badge.lower()}' if badge else ''}"


def _free(folder: Path, stem: str) -> Path:
    """A name that no file has yet. Raises CannotWrite where the folder cannot be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise CannotWrite(f"Cannot make the folder {folder}: {problem.strerror}") from problem
    number, path = 1, folder / f"{stem}.pdf"
    while path.exists():
        number += 1
        path = folder / f"{stem} {number}.pdf"
    return path


def _short(path: Path) -> str:
    home = Path.home()
    return f"~/{path.relative_to(home)}" if path.is_relative_to(home) else str(path)
