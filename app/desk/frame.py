"""What no one can overlook in a rehearsal: a hatched frame, and the word with the rate."""

from PySide6.QtCore import QMargins, QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import RehearsalBadge

_SIDE = 12
_TOP = 34
_HATCH = 14


class RehearsalFrame(QWidget):
    """The ground of the window; hatched along its edges while the clock is a simulated one.

    It lies under everything and keeps its own margins, so it never covers a countdown.
    """

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._badge: RehearsalBadge | None = None

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.update()

    def show_badge(self, badge: RehearsalBadge | None) -> bool:
        """Show a rate, or no frame at all; True where the margins have become others."""
        if badge == self._badge:
            return False
        turned = (badge is None) != (self._badge is None)
        self._badge = badge
        self.setAccessibleName(badge_words(self._badge))
        self.update()
        return turned

    def margins(self) -> QMargins:
        """Give what the frame needs at each edge."""
        if self._badge is None:
            return QMargins(0, 0, 0, 0)
        side, top = self._theme.px(_SIDE), self._theme.px(_TOP)
        return QMargins(side, top, side, side)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, and the frame where there is one."""
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter, event.rect())

    def _paint(self, painter: QPainter, part: QRect) -> None:
        ground = self._theme.ink.ground
        inner = self.rect().marginsRemoved(self.margins())
        if inner.contains(part):  # each second's part: the frame itself stays as it is
            painter.fillRect(part, ground)
            return
        painter.fillRect(self.rect(), QBrush(hatching(self._theme)))
        painter.fillRect(inner, ground)
        self._paint_word(painter)

    def _paint_word(self, painter: QPainter) -> None:
        theme = self._theme
        run = Run(badge_words(self._badge), theme.font(Text.STRONG), theme.ink.text)
        pad = theme.px(18)
        wide = run.width_px + 2 * pad
        left = (self.width() - wide) / 2
        painter.fillRect(QRectF(left, 0, wide, theme.px(_TOP)), theme.ink.ground)
        ink.draw(painter, left + pad, theme.px(24), [run])


def badge_words(badge: RehearsalBadge | None) -> str:
    """The word of a rehearsal with its rate; empty where it is none."""
    if badge is None:
        return ""
    parts = ["REHEARSAL", f"× {badge.rate}", "paused" if badge.paused else ""]
    return "   ".join(part for part in parts if part)


def hatching(theme: Theme) -> QPixmap:
    """The tile of the frame of a rehearsal."""
    side = theme.px(_HATCH)
    tile = QPixmap(side, side)
    tile.fill(theme.ink.ground)
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = painter.pen()
    pen.setColor(theme.ink.quiet)
    pen.setWidthF(side / 3.2)
    pen.setCapStyle(Qt.PenCapStyle.SquareCap)
    painter.setPen(pen)
    for shift in (-side, 0, side):
        painter.drawLine(shift, side, shift + side, 0)
    painter.end()
    return tile
