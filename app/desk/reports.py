"""What was reported in a rehearsal, as it came; in the right column."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.keys import Command, key_text
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.board.reported import Reported

_LINE = 23
_GAP = 12
_TOP = 28
_FOOT = 22
_MOST_LINES = 4


class Reports(Panel):
    """The newest report stands on top, in full; older ones as far as there is room."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("REPORTED", theme)
        self._reports: tuple[Reported, ...] = ()

    def show_reports(self, reports: tuple[Reported, ...]) -> None:
        """Show these, given oldest first."""
        if reports != self._reports:
            self._reports = reports
            newest = reversed(reports[-_MOST_LINES:])
            self.setAccessibleDescription("; ".join(f"{e.when}, {e.words}" for e in newest))
            self.update()

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint as many reports as fit, and the keys that close this."""
        theme, line_px = self.theme, self.theme.px(_LINE)
        font, small = theme.font(Text.CLOCK), theme.font(Text.SMALL)
        top, last = room.top() + theme.px(_TOP), room.bottom() - theme.px(_FOOT)
        for each in reversed(self._reports):
            lines = ink.wrapped(each.words, font, room.width(), _MOST_LINES)
            if top + line_px * len(lines) > last:
                break
            ink.draw(painter, room.left(), top, [Run(each.when, small, theme.ink.quiet)])
            if each.entered:
                ink.draw_right(painter, room.right(), top, [Run("entered", small, theme.ink.quiet)])
            colour = theme.ink.quiet if each.entered else theme.ink.text
            for text in lines:
                top += line_px
                ink.draw(painter, room.left(), top, [Run(text, font, colour)])
            top += line_px + theme.px(_GAP)
        hint = f"{key_text(Command.REPORTS)} or {key_text(Command.CLEAR)} closes"
        foot = Run(hint if self._reports else f"None yet. {hint}", small, theme.ink.quiet)
        ink.draw(painter, room.left(), room.bottom() - theme.px(4), [foot])
