"""Paints rows of the column: grounds, contact marks, words."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app.patterns import Patterns
from app.theme import Theme
from core.board.model import Mark

MARK_PX = 11
_CORNER_PX = 5


def paint_ground(painter: QPainter, rect: QRectF, colour: QColor, theme: Theme) -> None:
    """Paint a card's ground with its rounded corners."""
    corner_px = theme.px(_CORNER_PX)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawRoundedRect(rect, corner_px, corner_px)


def paint_mark(
    painter: QPainter, rect: QRectF, mark: Mark, patterns: Patterns, theme: Theme
) -> None:
    """Paint the contact mark on a card's left edge, what is before above what is after."""
    half_px = round(rect.height() / 2)
    width_px = theme.px(MARK_PX)
    upper = QRectF(rect.left(), rect.top(), width_px, half_px)
    lower = QRectF(rect.left(), rect.top() + half_px, width_px, rect.height() - half_px)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
    patterns.fill(painter, upper, mark.lane, mark.before)
    patterns.fill(painter, lower, mark.lane, mark.after)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)


def paint_outline(painter: QPainter, rect: QRectF, theme: Theme) -> None:
    """Paint the frame of the selected card, wholly inside the rectangle."""
    width_px = theme.px(2)
    pen = QPen(theme.ink.outline, width_px)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    inset = width_px / 2
    corner_px = theme.px(_CORNER_PX)
    painter.drawRoundedRect(rect.adjusted(inset, inset, -inset, -inset), corner_px, corner_px)


def paint_bracket(painter: QPainter, right_px: float, heights_px: list[int], theme: Theme) -> None:
    """Join paired outcomes by a bracket that opens to the right, a tooth at each card."""
    left_px = right_px - theme.px(10)
    painter.setPen(QPen(theme.ink.quiet, theme.px(2)))
    for y_px in heights_px:
        painter.drawLine(QPointF(left_px, y_px), QPointF(right_px, y_px))
    painter.drawLine(QPointF(left_px, heights_px[0]), QPointF(left_px, heights_px[-1]))
