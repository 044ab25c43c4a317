"""Quiet lines above the entry bar: the clock was set, the plan has changed, an error was logged."""

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import Said

_ROW = 27
_MOST = 3


class Notices(QWidget):
    """A few lines, as high as they need; not there at all when there is nothing to say."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._lines: tuple[Said, ...] = ()

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.update()

    def show_notices(self, lines: tuple[Said, ...]) -> bool:
        """Show these; True where their number has changed, and so the height."""
        if lines == self._lines:
            return False
        changed = self._rows(lines) != self._rows(self._lines)
        self._lines = lines
        self.setAccessibleName("; ".join(line.text for line in lines))
        self.update()
        return changed

    def wanted_px(self) -> int:
        """How high it has to be."""
        rows = self._rows(self._lines)
        return self._theme.px(_ROW * rows + 8) if rows else 0

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the lines; beyond three, how many more there are."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        theme = self._theme
        shown = self._lines[:_MOST]
        more = len(self._lines) - len(shown)
        for row, line in enumerate(shown):
            baseline = theme.px(_ROW) * (row + 1) - theme.px(7)
            rest = f"  (and {more} more)" if more and row == _MOST - 1 else ""
            text = f"{ink.marked(line)}{rest}"
            run = Run(text, theme.font(Text.BODY), theme.ink.tone(line.tone))
            ink.draw(painter, 0, baseline, [ink.fitted(run, self.width())])

    @staticmethod
    def _rows(lines: tuple[Said, ...]) -> int:
        return min(len(lines), _MOST)
