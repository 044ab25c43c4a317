"""Paints one frame of the strip, from what lies deepest to what lies on top."""

import math
from collections.abc import Iterable, Sequence

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen

from app.patterns import Patterns
from app.strip.air import NO_AIR, AirColumn
from app.strip.air_paint import NOTHING_HELD, AirPainter, Held
from app.strip.columns import Column, Columns
from app.strip.frame import Frame, sagitta_px
from app.strip.grounds import ground_names
from app.strip.scale import Instants
from app.theme import Text, Theme
from app.words import Words, paint_words

_APART_PX = 4
"""Of events nearer to each other than this only the first has a line."""


class StripPainter:
    """Holds what is the same from frame to frame: the theme and the tiles of the patterns."""

    def __init__(self, theme: Theme) -> None:
        self._theme = theme
        self._patterns = Patterns(theme)
        self._air = AirPainter(theme)

    def paint(
        self,
        painter: QPainter,
        frame: Frame,
        columns: Columns,
        words: Iterable[Words],
        ghosts: Instants | None = None,
        air: AirColumn = NO_AIR,
        held: Held = NOTHING_HELD,
    ) -> None:
        """Paint everything; `ghosts` are instants that something typed would move to."""
        if not (columns.lanes or air):
            return
        for index, column in enumerate(columns.lanes):
            self._lane(painter, frame, index, column)
        self._events(painter, frame, columns)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._grounds(painter, frame, columns)
        self._air.paint(painter, frame, air)
        self._sink(painter, frame)
        self._air.paint_held(painter, frame, air, held)
        self._origin(painter, frame)
        if ghosts is not None:
            self._ghosts(painter, frame, ghosts)
        self._limb(painter, frame)
        paint_words(painter, words, self._theme)

    def _lane(self, painter: QPainter, frame: Frame, index: int, column: Column) -> None:
        in_sight = column.between(frame.from_ms, frame.to_ms)
        if not len(in_sight):
            return
        # One mapping for all edges in sight; the lower edge of one is the upper one of the next.
        edges_ms = np.append(
            column.starts_ms[in_sight.start : in_sight.stop], column.ends_ms[in_sight.stop - 1]
        )
        edges_px = np.clip(frame.scale.y(edges_ms), frame.scale.top_px, frame.scale.bottom_px)
        heights: list[float] = edges_px.tolist()
        for place, stretch in enumerate(in_sight):
            rect = frame.lane_rect(index, heights[place], heights[place + 1])
            self._patterns.fill(painter, rect, column.role, column.fills[stretch])

    def _events(self, painter: QPainter, frame: Frame, columns: Columns) -> None:
        """A dotted line across the lanes at each event, as far as they can be told apart."""
        in_sight = columns.events_between(frame.from_ms, frame.to_ms)
        apart_px = self._theme.px(_APART_PX)
        _, firsts = np.unique(frame.scale.y(in_sight) // apart_px, return_index=True)
        rows = np.round(frame.scale.y(in_sight[firsts]))
        left_px, right_px = frame.across.left_px, frame.across.lanes_end_px
        pen = QPen(self._theme.ink.thread, self._theme.px(1), Qt.PenStyle.DotLine)
        painter.setPen(pen)
        painter.drawLines([QLineF(left_px, y, right_px, y) for y in rows.tolist()])

    def _grounds(self, painter: QPainter, frame: Frame, columns: Columns) -> None:
        theme, x_px = self._theme, frame.across.ground_px
        tooth_px = theme.px(6)
        painter.setPen(QPen(theme.ink.quiet, theme.px(1.6)))
        for ground in columns.grounds_between(frame.from_ms, frame.to_ms):
            top_px, bottom_px = frame.between(ground.from_ms, ground.to_ms)
            # A pixel apart, so that two brackets that meet are seen as two.
            top_px, bottom_px = top_px + theme.px(2), bottom_px - theme.px(2)
            if bottom_px <= top_px:
                continue
            painter.drawLine(QPointF(x_px, top_px), QPointF(x_px, bottom_px))
            if ground.from_ms >= frame.from_ms:
                painter.drawLine(QPointF(x_px - tooth_px, top_px), QPointF(x_px, top_px))
            if ground.to_ms <= frame.to_ms:
                painter.drawLine(QPointF(x_px - tooth_px, bottom_px), QPointF(x_px, bottom_px))
        for top_px, bottom_px, name in ground_names(frame, columns, theme):
            self._upright(painter, x_px + theme.px(18), (top_px + bottom_px) / 2, name)

    def _upright(self, painter: QPainter, x_px: float, middle_px: float, text: str) -> None:
        """Words that read upwards."""
        painter.save()
        painter.translate(x_px, middle_px + self._theme.width_px(Text.EDGE, text) / 2)
        painter.rotate(-90)
        painter.setFont(self._theme.font(Text.EDGE))
        painter.setPen(self._theme.ink.text)
        painter.drawText(QPointF(0, 0), text)
        painter.restore()

    def _sink(self, painter: QPainter, frame: Frame) -> None:
        """What is past lies behind the limb."""
        top_px, bottom_px = frame.scale.top_px, frame.scale.bottom_px
        left_px, right_px = frame.across.left_px, frame.across.past_right_px
        if frame.now_px < top_px:
            return
        painter.save()
        # Lanes stand on whole pixels, so the last one may end half a pixel further out.
        painter.setClipRect(QRectF(left_px, top_px, right_px - left_px + 1, bottom_px - top_px))
        # Only along the limb is there an edge to be smoothed, and smoothing is dear.
        level_px = max(top_px, math.floor(frame.now_px - sagitta_px(self._theme)))
        painter.fillRect(QRectF(0, top_px, right_px + 1, level_px - top_px), self._theme.ink.sunk)
        path = _arc(frame, self._theme)
        path.lineTo(frame.across.right_px, level_px)
        path.lineTo(0, level_px)
        path.closeSubpath()
        painter.fillPath(path, self._theme.ink.sunk)
        painter.restore()

    def _limb(self, painter: QPainter, frame: Frame) -> None:
        if not frame.now_in_sight:
            return
        pen = QPen(self._theme.ink.limb, self._theme.px(3))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(_arc(frame, self._theme))

    def _origin(self, painter: QPainter, frame: Frame) -> None:
        """Where it is scrolled to: a thin line at the instant of the first card."""
        if frame.at_now:
            return
        painter.setPen(QPen(self._theme.ink.quiet, self._theme.px(1.5)))
        y_px = round(frame.scale.origin_px) + 0.5
        right_px = frame.across.ticks_px - self._theme.px(6)
        painter.drawLine(QPointF(0, y_px), QPointF(right_px, y_px))

    def _ghosts(self, painter: QPainter, frame: Frame, ghosts: Instants) -> None:
        """Where events would go: a dashed line in the colour of a change, a ring at its end."""
        heights: Sequence[float] = frame.scale.y(ghosts).tolist()
        theme, left_px = self._theme, frame.across.left_px
        ring_px = theme.px(4)
        dashes = QPen(theme.ink.change, theme.px(2))
        dashes.setDashPattern([4.0, 2.0])
        for y_px in heights:
            if not frame.scale.top_px <= y_px <= frame.scale.bottom_px:
                continue
            line = QLineF(left_px, y_px, frame.across.lanes_end_px, y_px)
            painter.setPen(QPen(theme.ink.ground, theme.px(5)))
            painter.drawLine(line)
            painter.setPen(dashes)
            painter.drawLine(line)
            painter.setPen(QPen(theme.ink.change, theme.px(2)))
            painter.setBrush(theme.ink.ground)
            painter.drawEllipse(QPointF(left_px - ring_px, y_px), ring_px, ring_px)


def _arc(frame: Frame, theme: Theme) -> QPainterPath:
    """The limb: a shallow arc whose crown is at now."""
    crown_px, hang_px = frame.now_px, sagitta_px(theme)
    right_px = frame.across.ticks_px - theme.px(8)
    path = QPainterPath(QPointF(theme.px(2), crown_px + hang_px))
    path.quadTo(
        QPointF((theme.px(2) + right_px) / 2, crown_px - hang_px),
        QPointF(right_px, crown_px + hang_px),
    )
    return path
