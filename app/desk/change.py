"""LAST CHANGE: what the last entry moved, what stayed, when it came and who said so."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.panel import HEAD, PAD, Panel
from app.theme import Text, Theme
from core.board.model import LastChange, Said

_ROW = 29
_HEADLINE = 26


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
        headline = ink.wrapped(self._shown.headline, self.theme.font(Text.STRONG), room_px, 2)
        rows = len(headline) * _HEADLINE + len(self._shown.rows) * _ROW
        return self.theme.px(HEAD + 12 + rows + 16)

    def heading_runs(self) -> list[Run]:
        """Give the heading with the time and the source."""
        runs = super().heading_runs()
        if self._shown is not None:
            told = ", ".join(part for part in (self._shown.when, self._shown.source) if part)
            runs.append(Run(told, self.theme.font(Text.TAG), self.theme.ink.quiet))
        return runs

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint the headline, then what moved and stayed, as far as there is room."""
        shown, theme = self._shown, self.theme
        if shown is None:
            return
        baseline = room.top() + theme.px(6)
        font = theme.font(Text.STRONG)
        for line in ink.wrapped(shown.headline, font, room.width(), 2):
            baseline += theme.px(_HEADLINE)
            ink.draw(painter, room.left(), baseline, [Run(line, font, theme.ink.text)])
        baseline += theme.px(6)
        fitting = max(0, int((room.bottom() - baseline) / theme.px(_ROW)))
        for text, value in self._rows_for(shown, fitting):
            baseline += theme.px(_ROW)
            self._paint_row(painter, room, baseline, text, value)

    def _rows_for(self, shown: LastChange, fitting: int) -> tuple[tuple[str, Said], ...]:
        if len(shown.rows) <= fitting:
            return shown.rows
        kept = max(0, fitting - 1)
        return (*shown.rows[:kept], (f"and {len(shown.rows) - kept} more", Said("")))

    def _paint_row(
        self, painter: QPainter, room: QRectF, baseline: float, text: str, value: Said
    ) -> None:
        theme = self.theme
        said = Run(value.text, theme.font(Text.SUMMARY), theme.ink.tone(value.tone))
        ink.draw_right(painter, room.right(), baseline, [said])
        left_px = room.width() - said.width_px - theme.px(12)
        ink.draw(
            painter,
            room.left(),
            baseline,
            [ink.fitted(Run(text, theme.font(Text.BODY), theme.ink.text), left_px)],
        )
