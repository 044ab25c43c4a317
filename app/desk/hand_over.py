"""The page that hands the desk over; it stands in the right column, beside the countdowns."""

from dataclasses import dataclass, field

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.keys import Command, key_text
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.board.handing.model import HandPage, HandPart, HandRow, as_text
from core.board.written import Said

_LINE = 22
_AFTER = 7
_ABOVE_HEADING = 10
_BELOW_HEAD = 12
_FOOT = 12
_BESIDE = 12
_MOST_LINES = 3
_MOST_AWAY_LINES = 6


@dataclass(frozen=True, slots=True)
class _Block:
    """Lines that stand together, and what stands left of the first and at its right end."""

    lines: tuple[str, ...]
    style: Text
    said: Said = field(default=Said(""))
    quiet: bool = False
    left: str = ""
    right: str = ""
    above: int = 0
    """Room above it at 1600x1000: a heading's."""


class HandOver(Panel):
    """As many sheets as the height asks for, one after the other at the same key."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("HANDOVER", theme)
        self._page = HandPage()
        self._at = 0

    @property
    def text(self) -> str:
        """All of the page as lines of text."""
        return as_text(self._page)

    def open(self) -> None:
        """Begin at the top."""
        self._at = 0
        self.update()

    def turn(self) -> bool:
        """Go on to the next sheet; False after the last, when the page is to be closed."""
        self._at = min(self._at, len(self.sheets()) - 1) + 1
        self.update()
        return self._at < len(self.sheets())

    def show_page(self, page: HandPage) -> None:
        """Show what there is to know now."""
        if page != self._page:
            self._page = page
            self.setAccessibleDescription(page.who.text)
            self.update()

    def heading_runs(self) -> list[Run]:
        """Give the heading with the sheet, and the key that goes on."""
        count = len(self.sheets())
        at = min(self._at, count - 1)
        word = "closes" if at == count - 1 else "turns the page"
        told = f"{key_text(Command.HAND_OVER)} {word}"
        if count > 1:
            told = f"{at + 1} of {count}; {told}"
        run = Run(told, self.theme.font(Text.SMALL), self.theme.ink.quiet)
        return [*super().heading_runs(), run]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint the blocks of the sheet, one below the other."""
        sheets = self.sheets()
        top_px = room.top() + self.theme.px(_BELOW_HEAD)
        for block in sheets[min(self._at, len(sheets) - 1)]:
            self._paint_block(painter, room, top_px, block)
            top_px += self._high_px(block)

    def sheets(self) -> list[tuple[_Block, ...]]:
        """Give the blocks of each sheet; a part that goes on over it has its heading again."""
        room_px = self.room().height() - self.theme.px(_BELOW_HEAD + _FOOT)
        sheets: list[tuple[_Block, ...]] = []
        sheet: list[_Block] = []
        used_px = 0
        for heading, blocks in self._groups():
            for place, block in enumerate(blocks):
                group = [heading, block] if heading is not None and not place else [block]
                if sheet and used_px + sum(map(self._high_px, group)) > room_px:
                    sheets.append(tuple(sheet))
                    sheet, used_px = [], 0
                    group = [block] if heading is None else [heading, block]
                sheet += group
                used_px += sum(map(self._high_px, group))
        return [*sheets, tuple(sheet)]

    def _groups(self) -> list[tuple[_Block | None, list[_Block]]]:
        """Lay out all of it, each part with its heading, which never stands alone."""
        page = self._page
        top = [self._said(page.who, Text.STRONG)]
        if page.away:
            top.append(self._said(Said(page.away), Text.BODY, most=_MOST_AWAY_LINES))
        groups: list[tuple[_Block | None, list[_Block]]] = [(None, top)]
        for part in page.parts:
            heading = self._part_heading(part)
            rows = [self._row(row) for row in part.rows]
            groups.append((heading, rows) if rows else (None, [heading]))
        return groups

    def _said(self, said: Said, style: Text, most: int = 2) -> _Block:
        lines = ink.wrapped(said.text, self.theme.font(style), self.room().width(), most)
        return _Block(lines, style, said)

    def _part_heading(self, part: HandPart) -> _Block:
        told = part.heading if part.rows else f"{part.heading}: {part.none}"
        return _Block((told,), Text.HEADING, quiet=True, above=_ABOVE_HEADING)

    def _row(self, row: HandRow) -> _Block:
        room_px = self.room().width() - self._left_px()
        if row.by:
            room_px -= self._small_px(row.by)
        lines = ink.wrapped(ink.marked(row.words), self.theme.font(Text.NOTE), room_px, _MOST_LINES)
        return _Block(lines, Text.NOTE, row.words, left=row.when, right=row.by)

    def _left_px(self) -> float:
        """How wide the times are: as the widest of the page."""
        rows = (row for part in self._page.parts for row in part.rows)
        return max((self._small_px(row.when) for row in rows if row.when), default=0.0)

    def _small_px(self, text: str) -> float:
        return self.theme.width_px(Text.SMALL, text) + self.theme.px(_BESIDE)

    def _high_px(self, block: _Block) -> int:
        return (
            self.theme.px(block.above)
            + self.theme.px(_LINE) * len(block.lines)
            + self.theme.px(_AFTER)
        )

    def _paint_block(self, painter: QPainter, room: QRectF, top_px: float, block: _Block) -> None:
        theme = self.theme
        colour = theme.ink.quiet if block.quiet else theme.ink.tone(block.said.tone)
        small, font = theme.font(Text.SMALL), theme.font(block.style)
        baseline_px = top_px + theme.px(block.above) + theme.px(_LINE - 4)
        is_row = block.style is Text.NOTE
        if is_row:
            ink.draw(painter, room.left(), baseline_px, [Run(block.left, small, theme.ink.quiet)])
            by = Run(block.right, small, theme.ink.quiet)
            ink.draw_right(painter, room.right(), baseline_px, [by])
        left_px = room.left() + (self._left_px() if is_row else 0)
        for line in block.lines:
            ink.draw(painter, left_px, baseline_px, [Run(line, font, colour)])
            baseline_px += theme.px(_LINE)
