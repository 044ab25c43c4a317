"""What the panels of the right column share: a rounded ground and a small heading."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme

PAD = 20
HEAD = 29


class Panel(QWidget):
    """A painted panel. A subclass paints its rows below the heading.

    Lengths named here are for a window of 1600x1000; `theme.px` brings them to the real one.
    """

    def __init__(self, heading: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._heading = heading
        self._theme = theme
        self.setAccessibleName(heading)

    @property
    def theme(self) -> Theme:
        """The theme and the size of now."""
        return self._theme

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, the heading and the rows."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        theme = self._theme
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.ink.panel)
        painter.drawRoundedRect(QRectF(self.rect()), theme.px(5), theme.px(5))
        left = theme.px(PAD)
        top = theme.px(HEAD)
        ink.draw(painter, left, top, self.heading_runs())
        room = QRectF(left, top, self.width() - 2 * left, self.height() - top - theme.px(12))
        self.paint_rows(painter, room)

    def heading_runs(self) -> list[Run]:
        """Give the heading's line; a subclass may add to it."""
        theme = self._theme
        return [Run(self._heading, theme.font(Text.HEADING), theme.ink.quiet, theme.px(20))]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint what the panel holds into the room below the heading's baseline."""
        raise NotImplementedError
