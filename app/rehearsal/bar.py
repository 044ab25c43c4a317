"""The bar at the foot of the trainer's window: the line, and beside it what was answered."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Run
from app.rehearsal.line import TrainerLine
from app.theme import Text, Theme
from core.board.model import Said

_HIGH = 92
_FIELD_HIGH = 52
_GAP = 26
_PAD = 18
_LINE = 24
_MOST_LINES = 3
_FIELD_SHARE = 0.5


class TrainerBar(QWidget):
    """Holds the line, and paints the ground, the field's frame and the answer."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._margin_px = 0
        self.said = Said("")
        """The answer that stands."""
        self.line = TrainerLine(self)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.line.setFont(theme.font(Text.SPOKEN))
        self.line.setPalette(theme.qt_palette())
        self._lay_out()
        self.update()

    def set_margin(self, margin_px: int) -> None:
        """Keep so far from the sides."""
        self._margin_px = margin_px
        self._lay_out()

    def wanted_px(self) -> int:
        """How high it is."""
        return self._theme.px(_HIGH)

    def say(self, said: Said) -> None:
        """Show an answer until there is another."""
        self.said = said
        self.setAccessibleName(said.text)
        self.update()

    def field(self) -> QRectF:
        """Give where the frame of the line stands."""
        high = self._theme.px(_FIELD_HIGH)
        wide = (self.width() - 2 * self._margin_px) * _FIELD_SHARE
        return QRectF(self._margin_px + 1, (self.height() - high) / 2, wide - 2, high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out anew."""
        del event
        self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, the frame and the answer."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        theme, field = self._theme, self.field()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), theme.ink.bar)
        painter.setPen(QPen(theme.ink.outline, theme.px(2)))
        painter.setBrush(theme.ink.field)
        painter.drawRoundedRect(field, theme.px(5), theme.px(5))
        left = field.right() + theme.px(_GAP)
        font, colour = theme.font(Text.BODY), theme.ink.tone(self.said.tone)
        room_px = self.width() - self._margin_px - left
        lines = ink.wrapped(ink.marked(self.said), font, room_px, _MOST_LINES)
        baseline = self.height() / 2 + theme.px(7) - (len(lines) - 1) * theme.px(_LINE) / 2
        for text in lines:
            ink.draw(painter, left, baseline, [Run(text, font, colour)])
            baseline += theme.px(_LINE)

    def _lay_out(self) -> None:
        pad = self._theme.px(_PAD)
        self.line.setGeometry(self.field().adjusted(pad, 4, -pad, -4).toRect())
