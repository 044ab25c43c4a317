"""Pieces of text with their places, before they are painted: what is written can be looked over."""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter

from app.theme import Text, Theme


@dataclass(frozen=True, slots=True)
class Words:
    """A piece of text: its left end, its baseline, its width, how and in what colour.

    `plate` is painted behind it where the ground is a pattern.
    """

    text: str
    left_px: float
    baseline_px: float
    width_px: float
    style: Text
    colour: QColor
    plate: QColor | None = None

    def box(self, theme: Theme) -> QRectF:
        """The room it takes: from the top of the capitals to the foot of the descenders."""
        metrics = theme.metrics(self.style)
        top_px = self.baseline_px - metrics.capHeight()
        height_px = metrics.capHeight() + metrics.descent() * 0.8
        return QRectF(self.left_px, top_px, self.width_px, height_px)


def paint_words(painter: QPainter, words: Iterable[Words], theme: Theme) -> None:
    """Paint pieces of text where they were placed."""
    for piece in words:
        if piece.plate is not None:
            edge_px = theme.px(3)
            painter.fillRect(
                piece.box(theme).adjusted(-edge_px, -edge_px, edge_px, edge_px), piece.plate
            )
        painter.setFont(theme.font(piece.style))
        painter.setPen(piece.colour)
        painter.drawText(QPointF(piece.left_px, piece.baseline_px), piece.text)
