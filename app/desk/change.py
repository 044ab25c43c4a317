"""LAST CHANGE: what the last entry moved, what stayed, when it came and who said so."""

from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.panel import HEAD, PAD, Panel
from app.theme import Text, Theme
from core.board.model import LastChange, Said

_ROW = 29
_NEXT_LINE = 23
_ROW_LINES = 3
_HEADLINE_LINES = 3
_HEADLINE = 26


@dataclass(frozen=True, slots=True)
class _Row:
    """A row as it breaks at the panel's width; its value stands beside the first line."""

    lines: tuple[str, ...]
    value: Said

    @property
    def high(self) -> int:
        """How high it is at 1600x1000."""
        return _ROW + (len(self.lines) - 1) * _NEXT_LINE


class LastChangePanel(Panel):
    """The panel of the last change; it is only there once something has changed."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("LAST CHANGE", theme)
        self._shown: LastChange | None = None

    def show_change(self, change: LastChange | None) -> None:
        """Show another change."""
        if change != self._shown:
            self._shown = change
            self.setAccessibleDescription(change.headline if change else "")
            self.update()

    def wanted_px(self) -> float:
        """How high it would like to be at its present width."""
        if self._shown is None:
            return 0
        room_px = self.width() - 2 * self.theme.px(PAD)
        headline = ink.wrapped(
            self._shown.headline, self.theme.font(Text.STRONG), room_px, _HEADLINE_LINES
        )
        rows = sum(row.high for row in self._rows(room_px))
        return self.theme.px(HEAD + 12 + len(headline) * _HEADLINE + rows + 16)

    def heading_runs(self) -> list[Run]:
        """Give the heading with the time and the source."""
        runs = super().heading_runs()
        if self._shown is not None:
            told = ", ".join(part for part in (self._shown.when, self._shown.source) if part)
            aside = Run(told, self.theme.font(Text.TAG), self.theme.ink.quiet)
            room_px = self.width() - 2 * self.theme.px(PAD) - ink.width_px([*runs, aside])
            runs.append(ink.fitted(aside, aside.width_px + min(0.0, room_px)))
        return runs

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint the headline, then what moved and stayed, as far as there is room."""
        shown, theme = self._shown, self.theme
        if shown is None:
            return
        baseline = room.top() + theme.px(6)
        font = theme.font(Text.STRONG)
        for line in ink.wrapped(shown.headline, font, room.width(), _HEADLINE_LINES):
            baseline += theme.px(_HEADLINE)
            ink.draw(painter, room.left(), baseline, [Run(line, font, theme.ink.text)])
        baseline += theme.px(6)
        rows = self._rows(room.width())
        for place, row in enumerate(rows):
            if baseline + theme.px(row.high) > room.bottom() + theme.px(6):
                more = Run(f"and {len(rows) - place} more", theme.font(Text.BODY), theme.ink.quiet)
                ink.draw(painter, room.left(), baseline + theme.px(_NEXT_LINE), [more])
                return
            self._paint_row(painter, room, baseline + theme.px(_ROW), row)
            baseline += theme.px(row.high)

    def _rows(self, room_px: float) -> list[_Row]:
        rows = self._shown.rows if self._shown else ()
        font = self.theme.font(Text.BODY)
        aside = self.theme.px(16)
        return [
            _Row(
                ink.wrapped(text, font, room_px - aside - self._value(value).width_px, _ROW_LINES),
                value,
            )
            for text, value in rows
        ]

    def _value(self, value: Said) -> Run:
        return Run(
            ink.marked(value), self.theme.font(Text.SUMMARY), self.theme.ink.tone(value.tone)
        )

    def _paint_row(self, painter: QPainter, room: QRectF, baseline: float, row: _Row) -> None:
        theme = self.theme
        ink.draw_right(painter, room.right(), baseline, [self._value(row.value)])
        for line in row.lines:
            run = Run(line, theme.font(Text.BODY), theme.ink.text)
            ink.draw(painter, room.left(), baseline, [run])
            baseline += theme.px(_NEXT_LINE)
