"""What the panels of the right column share: a rounded ground and a small heading."""

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QRegion
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
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter, event.region())

    def _paint(self, painter: QPainter, part: QRegion) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        theme = self._theme
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.ink.panel)
        painter.drawRoundedRect(QRectF(self.rect()), theme.px(5), theme.px(5))
        room = self.room()
        if part.intersects(QRect(0, 0, self.width(), theme.px(2 * HEAD))):
            ink.draw(painter, room.left(), room.top(), self.heading_runs())
        self.paint_part(painter, room, part)

    def room(self) -> QRectF:
        """Give the room below the heading's baseline."""
        left, top = self._theme.px(PAD), self._theme.px(HEAD)
        return QRectF(left, top, self.width() - 2 * left, self.height() - top - self._theme.px(12))

    def heading_runs(self) -> list[Run]:
        """Give the heading's line; a subclass may add to it."""
        theme = self._theme
        return [Run(self._heading, theme.font(Text.HEADING), theme.ink.quiet, theme.px(20))]

    def paint_part(self, painter: QPainter, room: QRectF, part: QRegion) -> None:
        """Paint what lies in a part of the panel: all of it, unless a subclass knows better."""
        del part
        self.paint_rows(painter, room)

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint what the panel holds into the room below the heading's baseline."""
        raise NotImplementedError
