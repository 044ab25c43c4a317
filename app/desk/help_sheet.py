"""The help sheet: the forms of the line, then the keys; it stands in the right column."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.keys import KEYS, Command, Part, key_text, keys_text
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.entries.forms import catalogue

_ROW = 44
_SECOND = 18
_FOOT = 46
_EDITORIAL = "For editorial use: not for navigation, range safety or flight control."


@dataclass(frozen=True, slots=True)
class Row:
    """One form or key, and what it does; a heading has no second line."""

    what: str
    meaning: str


class HelpSheet(Panel):
    """As many pages as the height asks for, one after the other at the same key."""

    def __init__(self, theme: Theme, *, simulated: bool) -> None:
        super().__init__("HELP", theme)
        self.rows = tuple(_rows((), simulated=simulated))
        self.page = 0

    def open(self) -> None:
        """Begin at the first page."""
        self.page = 0
        self.update()

    def turn(self) -> bool:
        """Turn to the next page; False after the last, when the sheet is to be closed."""
        self.page += 1
        self.update()
        return self.page < len(self.pages())

    def heading_runs(self) -> list[Run]:
        """Give the heading with the page, and the key that turns it."""
        pages = len(self.pages())
        word = "closes" if self.page >= pages - 1 else "turns the page"
        told = f"{min(self.page, pages - 1) + 1} of {pages}; {key_text(Command.HELP)} {word}"
        run = Run(told, self.theme.font(Text.SMALL), self.theme.ink.quiet)
        return [*super().heading_runs(), run]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint the page, and at its foot what the program is not for."""
        pages = self.pages()
        top = room.top() + self.theme.px(6)
        for row in pages[min(self.page, len(pages) - 1)]:
            self._paint_row(painter, room, top, row)
            top += self.theme.px(_ROW)
        font = self.theme.font(Text.SMALL)
        baseline = room.bottom() - self.theme.px(_SECOND)
        for line in ink.wrapped(_EDITORIAL, font, room.width(), 2):
            ink.draw(painter, room.left(), baseline, [Run(line, font, self.theme.ink.quiet)])
            baseline += self.theme.px(_SECOND)

    def _paint_row(self, painter: QPainter, room: QRectF, top: float, row: Row) -> None:
        theme = self.theme
        if not row.meaning:
            run = Run(row.what, theme.font(Text.HEADING), theme.ink.quiet)
            ink.draw(painter, room.left(), top + theme.px(30), [run])
            return
        what = Run(row.what, theme.font(Text.CLOCK), theme.ink.text)
        meaning = Run(row.meaning, theme.font(Text.SMALL), theme.ink.quiet)
        first = top + theme.px(22)
        ink.draw(painter, room.left(), first, [ink.fitted(what, room.width())])
        second = first + theme.px(_SECOND)
        ink.draw(painter, room.left(), second, [ink.fitted(meaning, room.width())])

    def pages(self) -> list[tuple[Row, ...]]:
        """Give the rows of each page, as many to a page as the height holds."""
        room = self.height() - self.theme.px(_FOOT + 45)
        size = max(1, room // self.theme.px(_ROW))
        return [self.rows[at : at + size] for at in range(0, len(self.rows), size)]


def _rows(zones: Sequence[str], *, simulated: bool) -> Iterator[Row]:
    yield Row("What can be typed", "")
    for form in catalogue(zones=zones, simulated=simulated):
        yield Row(" · ".join(form.typed), form.read_as)
    for part in Part:
        if part is Part.REHEARSAL and not simulated:
            continue
        yield Row(f"Keys: {part.value}", "")
        for key in KEYS:
            if key.part is part:
                yield Row(keys_text(key), key.words)
