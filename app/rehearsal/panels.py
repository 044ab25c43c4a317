"""The right column of the trainer's window: the score so far, and the keys."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.panel import Panel
from app.rehearsal.keys import KEYS
from app.theme import Text, Theme
from core.board.model import Said

_ROW = 24
_TOP = 28
_KEY = 104
_KEY_ROW = 25


class ScoreSoFar(Panel):
    """A figure a row, without any points."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("THE SCORE SO FAR", theme)
        self._rows: tuple[tuple[str, Said], ...] = ()
        self._attempt = 1

    def show_score(self, rows: tuple[tuple[str, Said], ...], attempt: int) -> None:
        """Show another score, of which attempt."""
        if (rows, attempt) != (self._rows, self._attempt):
            self._rows, self._attempt = rows, attempt
            self.setAccessibleDescription("; ".join(f"{n}: {said.text}" for n, said in rows))
            self.update()

    def heading_runs(self) -> list[Run]:
        """Give the heading, with the attempt where it is not the first."""
        if self._attempt == 1:
            return super().heading_runs()
        told = f"attempt {self._attempt}, the earlier ones left out"
        run = Run(told, self.theme.font(Text.SMALL), self.theme.ink.quiet)
        return [*super().heading_runs(), run]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint the names left and the figures right."""
        theme, baseline = self.theme, room.top() + self.theme.px(_TOP)
        for name, said in self._rows:
            figure = Run(ink.marked(said), theme.font(Text.CLOCK), theme.ink.tone(said.tone))
            figure = ink.fitted(figure, room.width() * 0.66)
            ink.draw_right(painter, room.right(), baseline, [figure])
            label = Run(name, theme.font(Text.SMALL), theme.ink.quiet)
            room_px = room.width() - figure.width_px - theme.px(10)
            ink.draw(painter, room.left(), baseline, [ink.fitted(label, room_px)])
            baseline += theme.px(_ROW)


class KeysPanel(Panel):
    """All keys of this window, always in sight."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("KEYS", theme)

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint a key a row."""
        theme, baseline = self.theme, room.top() + self.theme.px(_TOP)
        for key in KEYS:
            name = Run(key.shown, theme.font(Text.TAG), theme.ink.text)
            ink.draw(painter, room.left(), baseline, [name])
            told = Run(key.words, theme.font(Text.SMALL), theme.ink.quiet)
            told = ink.fitted(told, room.width() - theme.px(_KEY))
            ink.draw(painter, room.left() + theme.px(_KEY), baseline, [told])
            baseline += theme.px(_KEY_ROW)
