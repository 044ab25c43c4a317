"""Puts the pieces of a page on paper: black, and greys that only lines have."""

from collections.abc import Iterator

from PySide6.QtCore import QByteArray, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen
from PySide6.QtSvg import QSvgRenderer

from app.fonts import FAMILY
from app.printing.faces import PT, font
from app.printing.pieces import Box, Frame, Page, PictureAt, Rule, SignAt, Words
from core.signal.model import Fill

_BLACK, _GREY = QColor(0, 0, 0), QColor(120, 120, 120)
_OUTLINE_TW, _HATCH_TW = 0.8 * PT, 0.6 * PT
_STEP_TW = 2.6 * PT
_DOT_TW = 0.7 * PT


def paint(painter: QPainter, page: Page) -> None:
    """Paint all of a page; the painter's unit is the twip."""
    for piece in page.pieces:
        match piece:
            case Words(text, left_tw, baseline_tw, face):
                painter.setPen(_BLACK)
                painter.setFont(font(face))
                painter.drawText(QPointF(left_tw, baseline_tw), text)
            case Rule(left_tw, right_tw, y_tw, thick_tw, grey):
                colour = _GREY if grey else _BLACK
                painter.fillRect(QRectF(left_tw, y_tw, right_tw - left_tw, thick_tw), colour)
            case Frame(box, thick_tw):
                painter.setPen(QPen(_BLACK, thick_tw))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(_rect(box))
            case SignAt():
                _sign(painter, piece)
            case PictureAt(svg, box):
                painter.save()
                painter.setFont(QFont(FAMILY))  # or its letters would be as bold as those before
                _renderer(svg).render(painter, _rect(box))
                painter.restore()


def shape(svg: str) -> float:
    """How much wider than high a picture is; ValueError where the text is no picture."""
    size = _renderer(svg).viewBoxF().size()
    if size.isEmpty():
        raise ValueError("the picture has no size")
    return size.width() / size.height()


def _renderer(svg: str) -> QSvgRenderer:
    renderer = QSvgRenderer(QByteArray(svg.encode()))
    if not renderer.isValid():
        raise ValueError("this is no SVG picture")
    return renderer


def _sign(painter: QPainter, at: SignAt) -> None:
    """A loss is filled above and hatched below, a return the other way round."""
    rect, sign = _rect(at.box), at.sign
    if sign.before is sign.after:
        _fill(painter, rect, sign.before)
    else:
        half_tw = rect.height() / 2
        _fill(painter, rect.adjusted(0, 0, 0, -half_tw), sign.before)
        _fill(painter, rect.adjusted(0, half_tw, 0, 0), sign.after)
    painter.setPen(QPen(_BLACK, _OUTLINE_TW))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(rect)


def _fill(painter: QPainter, rect: QRectF, fill: Fill) -> None:
    if fill is Fill.CONTACT:
        painter.fillRect(rect, _BLACK)
    elif fill is Fill.EITHER:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(_BLACK)
        for middle in _dots(rect):
            painter.drawEllipse(middle, _DOT_TW, _DOT_TW)
    else:
        painter.setPen(QPen(_BLACK, _HATCH_TW, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
        painter.drawLines(list(_levels(rect) if fill is Fill.CLOSED else _slants(rect)))


def _slants(rect: QRectF) -> Iterator[QLineF]:
    """Lines that rise to the right, each cut off where it leaves the rectangle."""
    reach = int((rect.width() + rect.height()) / _STEP_TW) + 1
    for step in range(1, reach):
        from_left = step * _STEP_TW  # x + y of all points of the line, from the top left corner
        x0 = max(0.0, from_left - rect.height())
        x1 = min(rect.width(), from_left)
        yield QLineF(
            rect.left() + x0,
            rect.top() + from_left - x0,
            rect.left() + x1,
            rect.top() + from_left - x1,
        )


def _levels(rect: QRectF) -> Iterator[QLineF]:
    for step in range(1, int(rect.height() / _STEP_TW) + 1):
        y = rect.top() + step * _STEP_TW - _STEP_TW / 2
        yield QLineF(rect.left(), y, rect.right(), y)


def _dots(rect: QRectF) -> Iterator[QPointF]:
    high, wide = int(rect.height() / _STEP_TW), int(rect.width() / _STEP_TW)
    for down in range(high):
        for across in range(wide):
            x = rect.width() * (across + 0.5) / wide
            yield rect.topLeft() + QPointF(x, rect.height() * (down + 0.5) / high)


def _rect(box: Box) -> QRectF:
    return QRectF(box.left_tw, box.top_tw, box.width_tw, box.height_tw)
