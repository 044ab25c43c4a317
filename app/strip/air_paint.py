"""Paints the ON AIR lane: items outlined, live stretches at its edge, junctions, hours away."""

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.strip.air import AirColumn
from app.strip.frame import Frame
from app.theme import Theme
from core.board.programme import AirBox, ItemState

LEAST_PX = 4
"""No item is drawn lower than this, so that one far ahead is still seen."""
_CORNER_PX = 3
_WITHIN_PX = 4
"""Between the two outlines of what is on the air."""
_LIVE_PX = 3
_LIVE_OFF_PX = 5
"""So far right of the lane stands the line of a live stretch."""
_TOOTH_PX = 5
_DIAMOND_PX = 5
_POINTER_PX = 5


@dataclass(frozen=True, slots=True)
class Held:
    """What is marked in the lane: the selected item, and where items would go."""

    selected: str = ""
    carried: tuple[tuple[str, int], ...] = ()
    """Items with the starts they would have."""


NOTHING_HELD = Held()


class AirPainter:
    """Paints the lane of a frame: first what sinks behind the limb, then what is marked."""

    def __init__(self, theme: Theme) -> None:
        self._theme = theme

    def paint(self, painter: QPainter, frame: Frame, air: AirColumn) -> None:
        """Paint everything that time passes over."""
        for from_ms, to_ms in air.away:
            self._away(painter, frame.air_rect(from_ms, to_ms))
        for live in air.live.between(frame.from_ms, frame.to_ms):
            self._live(painter, frame, live.from_ms, live.to_ms)
        for box in air.boxes.between(frame.from_ms, frame.to_ms):
            self._box(painter, box_rect(frame, box, self._theme), box)
        for at_ms, _ in air.junctions:
            if frame.from_ms <= at_ms <= frame.to_ms:
                self._junction(painter, frame, at_ms)

    def paint_held(self, painter: QPainter, frame: Frame, air: AirColumn, held: Held) -> None:
        """Mark the selected item, and show in dashes where one would go."""
        selected = air.box(held.selected)
        if selected is not None and _in_sight(frame, selected):
            self._selected(painter, box_rect(frame, selected, self._theme))
        for rect in carried_rects(frame, air, held, self._theme):
            self._carried(painter, rect)

    def _away(self, painter: QPainter, rect: QRectF) -> None:
        if rect.height() <= 0:
            return
        painter.fillRect(rect, self._theme.ink.rule)
        painter.setPen(QPen(self._theme.ink.thread, self._theme.px(1)))
        painter.drawLine(QLineF(rect.topLeft(), rect.topRight()))
        painter.drawLine(QLineF(rect.bottomLeft(), rect.bottomRight()))

    def _live(self, painter: QPainter, frame: Frame, from_ms: int, to_ms: int) -> None:
        theme, rect = self._theme, frame.air_rect(from_ms, to_ms)
        wide_px, tooth_px = theme.px(_LIVE_PX), theme.px(_TOOTH_PX)
        high_px = max(rect.height(), wide_px)
        left_px = rect.right() + theme.px(_LIVE_OFF_PX) - wide_px
        painter.fillRect(QRectF(left_px, rect.top(), wide_px, high_px), theme.ink.limb)
        for instant_ms, top_px in ((from_ms, rect.top()), (to_ms, rect.top() + high_px - 1)):
            if frame.from_ms <= instant_ms <= frame.to_ms:
                tooth = QRectF(left_px - tooth_px, top_px, tooth_px, theme.px(1))
                painter.fillRect(tooth, theme.ink.limb)

    def _box(self, painter: QPainter, rect: QRectF, box: AirBox) -> None:
        theme = self._theme
        colour = outline(box, theme)
        painter.setPen(QPen(colour, theme.px(2 if box.clash else 1.6)))
        painter.setBrush(theme.ink.panel)
        self._rounded(painter, rect)
        within_px = theme.px(_WITHIN_PX)
        inner = rect.adjusted(within_px, within_px, -within_px, -within_px)
        if box.state is ItemState.ON_AIR and inner.height() > within_px:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            self._rounded(painter, inner)
        if box.clash:
            self._diamond(painter, QPointF(rect.left(), rect.center().y()))

    def _rounded(self, painter: QPainter, rect: QRectF) -> None:
        corner_px = min(self._theme.px(_CORNER_PX), rect.height() / 2)
        half_px = painter.pen().widthF() / 2
        inside = rect.adjusted(half_px, half_px, -half_px, -half_px)
        painter.drawRoundedRect(inside, corner_px, corner_px)

    def _diamond(self, painter: QPainter, middle: QPointF) -> None:
        """The mark of a clash on the box's edge: it is there where no word has room."""
        reach_px = self._theme.px(_DIAMOND_PX)
        steps = ((0, -reach_px), (reach_px, 0), (0, reach_px), (-reach_px, 0))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._theme.ink.clash)
        painter.drawPolygon(QPolygonF([middle + QPointF(x, y) for x, y in steps]))

    def _junction(self, painter: QPainter, frame: Frame, at_ms: int) -> None:
        theme, rect = self._theme, frame.air_rect(at_ms, at_ms)
        reach_px = theme.px(_LIVE_OFF_PX)
        painter.setPen(QPen(theme.ink.text, theme.px(2)))
        painter.drawLine(
            QLineF(rect.left() - reach_px, rect.top(), rect.right() + reach_px, rect.top())
        )

    def _selected(self, painter: QPainter, rect: QRectF) -> None:
        """A thick frame round the box, and an arrow head that points to it."""
        theme = self._theme
        wide_px, reach_px = theme.px(3), theme.px(_POINTER_PX)
        painter.setPen(QPen(theme.ink.outline, wide_px))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        off_px = theme.px(3)
        self._rounded(painter, rect.adjusted(-off_px, -off_px, off_px, off_px))
        tip = QPointF(rect.left() - off_px - 1, rect.center().y())
        back = tip.x() - reach_px * 1.4
        head = [tip, QPointF(back, tip.y() - reach_px), QPointF(back, tip.y() + reach_px)]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.ink.outline)
        painter.drawPolygon(QPolygonF(head))

    def _carried(self, painter: QPainter, rect: QRectF) -> None:
        """A box in dashes; of an item without a box so far only where it would begin."""
        theme = self._theme
        dashes = QPen(theme.ink.change, theme.px(2))
        dashes.setDashPattern([4.0, 2.0])
        painter.setPen(dashes)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        self._rounded(painter, rect)


def carried_rects(frame: Frame, air: AirColumn, held: Held, theme: Theme) -> Iterator[QRectF]:
    """Where items would go, as far as that is in sight."""
    for item, at_ms in held.carried if frame.across.air else ():
        box = air.box(item)
        to_ms = at_ms + (box.to_ms - box.from_ms if box is not None else 0)
        if to_ms >= frame.from_ms and at_ms <= frame.to_ms:
            yield _at_least(frame.air_rect(at_ms, to_ms), theme)


def box_rect(frame: Frame, box: AirBox, theme: Theme) -> QRectF:
    """Where an item's box is drawn, as far as it is in sight."""
    return _at_least(frame.air_rect(box.from_ms, box.to_ms), theme)


def outline(box: AirBox, theme: Theme) -> QColor:
    """The colour of an item's outline."""
    if box.clash:
        return theme.ink.clash
    return theme.ink.quiet if box.state is ItemState.RUN else theme.ink.text


def _at_least(rect: QRectF, theme: Theme) -> QRectF:
    """A box as high as it has to be to be seen, about the same middle."""
    lacking_px = max(0.0, theme.px(LEAST_PX) - rect.height()) / 2
    return rect.adjusted(0, -lacking_px, 0, lacking_px)


def _in_sight(frame: Frame, box: AirBox) -> bool:
    return box.to_ms > frame.from_ms and box.from_ms < frame.to_ms
