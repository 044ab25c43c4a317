"""The plan of a desk printed to a file of its own in a folder: no file is ever written over."""

import time
from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path

from PySide6.QtCore import QLocale

from app.commands.writing import counted
from app.printing.paper import Size
from app.printing.plan_pages import plan_pdf
from app.printing.saving import CannotWrite, save
from core.board.paper.model import PlanSheet
from core.board.paper.sheet import AsOf
from core.session.desk import Desk
from core.session.on_paper import printed_plan
from core.times.writing import local_time

_NOT_IN_NAMES = '/\\:*?"<>|'
_LONGEST_NAME = 80


def printing(desk: Desk, now_ms: int, folder: Path, badge: str) -> Callable[[], str]:
    """Take down every word as it stands now; gives the job that is left, for another thread.

    The job gives the line to say: where the file is, or why it is not.
    """
    sheet = printed_plan(desk, AsOf(now_ms, time.time_ns() // 1_000_000))
    stem = _stem(sheet.title, local_time(now_ms, desk.plan.zones[0]), badge)
    return partial(_print, sheet, folder, stem, badge, size_here())


def size_here() -> Size:
    """The paper of the country that the system is set to."""
    measures = QLocale.system().measurementSystem()
    american = measures is QLocale.MeasurementSystem.ImperialUSSystem
    return Size.LETTER if american else Size.A4


def _print(sheet: PlanSheet, folder: Path, stem: str, badge: str, size: Size) -> str:
    try:
        printed = plan_pdf(sheet, size, badge)
        path = _free(folder, stem)
        save(path, printed.data)
    except CannotWrite as problem:
        return f"Not printed. {problem}"
    return f"Printed, {counted(printed.pages, 'page')}: {_short(path)}"


def _stem(title: str, there: datetime, badge: str) -> str:
    """'Petrel 4, arrival at the Moon 2031-05-14 16.41.12': the board's time, in the desk's zone."""
    plain = "".join("-" if sign in _NOT_IN_NAMES or ord(sign) < 32 else sign for sign in title)
    named = plain.strip(" .")[:_LONGEST_NAME] or "Plan"
    return f"{named} {there:%Y-%m-%d %H.%M.%S}{f' {badge.lower()}' if badge else ''}"


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
