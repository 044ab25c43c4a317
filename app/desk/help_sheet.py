"""The help sheet: the forms of the line, the keys, the signs; it stands in the right column."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetricsF, QPainter

from app import EDITORIAL
from app.desk import ink
from app.desk.ink import Run
from app.desk.keys import KEYS, Command, Part, key_text, keys_text
from app.desk.panel import PAD, Panel
from app.theme import Text, Theme
from core.entries.forms import catalogue

_FIRST = 24
_LINE = 18
_AFTER = 6
_FOOT = 98

_SIGNS = (
    ("Arc across the strip", "now; what is past sinks behind it"),
    ("Filled, hatched", "in contact; out of contact, dark or closed by the ground"),
    ("either", "hatched on colour: in contact under one outcome only"),
    ("Bracket beside the strip", "the ground station one hears through"),
    ("Bracket beside cards", "two outcomes of one event: only one of them will come"),
    ("Outlined box", "an item on the air: break, remote, tape or studio"),
    ("Mark at a card's edge", "what one has before the event, above; after it, below"),
    ("≈, about", "a time that may be off by half a minute or more"),
    ("± 20 s", "how far off a time may be, either way"),
    ("3 more", "so many rows have no room here"),
)
"""Signs of the screen, and what they mean."""


@dataclass(frozen=True, slots=True)
class Row:
    """One form or key with its examples, and what it does; a heading has no meaning."""

    what: tuple[str, ...]
    meaning: str


class HelpSheet(Panel):
    """As many pages as the height asks for, one after the other at the same key."""

    def __init__(self, theme: Theme, *, simulated: bool, trained: bool = False) -> None:
        super().__init__("HELP", theme)
        self.rows = tuple(_rows((), simulated=simulated, trained=trained))
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

    def turn_back(self) -> None:
        """Turn to the page before; the first one stays."""
        self.page = max(0, self.page - 1)
        self.update()

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
        top = room.top() + self.theme.px(10)
        for row in pages[min(self.page, len(pages) - 1)]:
            self._paint_row(painter, room, top, row)
            top += self._high_px(row)
        font = self.theme.font(Text.SMALL)
        baseline = room.bottom() - self.theme.px(_LINE)
        for line in ink.wrapped(EDITORIAL, font, room.width(), 2):
            ink.draw(painter, room.left(), baseline, [Run(line, font, self.theme.ink.quiet)])
            baseline += self.theme.px(_LINE)

    def pages(self) -> list[tuple[Row, ...]]:
        """Give the rows of each page, as many to a page as the height holds."""
        room_px = self.height() - self.theme.px(_FOOT)
        pages: list[tuple[Row, ...]] = []
        page: list[Row] = []
        used_px = 0
        for row in self.rows:
            high_px = self._high_px(row)
            if page and used_px + high_px > room_px:
                pages.append(tuple(page))
                page, used_px = [], 0
            page.append(row)
            used_px += high_px
        return [*pages, tuple(page)]

    def _high_px(self, row: Row) -> int:
        lines = len(self._lines(row)) - 1 + len(self._meaning(row))
        return self.theme.px(_FIRST) + self.theme.px(_LINE) * lines + self.theme.px(_AFTER)

    def _lines(self, row: Row) -> list[str]:
        """Break the examples into lines between them, never within one."""
        room_px = self.width() - 2 * self.theme.px(PAD)
        font = self.theme.font(Text.CLOCK)
        lines: list[str] = []
        for example in row.what:
            longer = f"{lines[-1]} · {example}" if lines else example
            if lines and QFontMetricsF(font).horizontalAdvance(longer) <= room_px:
                lines[-1] = longer
            else:
                lines.append(example)
        return lines

    def _paint_row(self, painter: QPainter, room: QRectF, top: float, row: Row) -> None:
        theme = self.theme
        baseline = top + theme.px(_FIRST - 4)
        font = theme.font(Text.CLOCK if row.meaning else Text.HEADING)
        colour = theme.ink.text if row.meaning else theme.ink.quiet
        for line in self._lines(row):
            run = ink.fitted(Run(line, font, colour), room.width())
            ink.draw(painter, room.left(), baseline, [run])
            baseline += theme.px(_LINE)
        small = theme.font(Text.SMALL)
        for line in self._meaning(row):
            ink.draw(painter, room.left(), baseline, [Run(line, small, theme.ink.quiet)])
            baseline += theme.px(_LINE)

    def _meaning(self, row: Row) -> tuple[str, ...]:
        room_px = self.width() - 2 * self.theme.px(PAD)
        return ink.wrapped(row.meaning, self.theme.font(Text.SMALL), room_px, 2)


def _rows(zones: Sequence[str], *, simulated: bool, trained: bool) -> Iterator[Row]:
    yield Row(("What can be typed",), "")
    for form in catalogue(zones=zones, simulated=simulated):
        yield Row(form.typed, form.read_as)
    for part in Part:
        if part is Part.REHEARSAL and not simulated:
            continue
        if part is Part.TRAINER and not trained:
            continue
        yield Row((f"Keys: {part.value}",), "")
        for key in KEYS:
            if key.part is part:
                yield Row((keys_text(key),), key.words)
    yield Row(("Signs",), "")
    for sign, words in _SIGNS:
        yield Row((sign,), words)
