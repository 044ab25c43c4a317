"""Draws the sheet: as many strips side by side as the stretch needs, on a page to print."""

import math
import sys
from dataclasses import dataclass

from PySide6.QtCore import QBuffer, QIODevice, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QGuiApplication, QImage, QPainter, QPen

from app.commands.sheets import Sheet
from app.fonts import FILES, load_fonts
from app.patterns import Patterns
from app.picture.labels import LINE_PX, PageLabels
from app.resources import asset
from app.strip.columns import Columns
from app.strip.frame import Across, Frame
from app.strip.painting import StripPainter
from app.strip.scale import Scale
from app.theme import LIGHT, Text, Theme
from app.words import Words, paint_words
from core.errors import LimbwatchError

_HOUR_MS = 3_600_000
_HOUR_PX = 150
_PAGE_PX = 1000
"""As wide as one or two columns together; more columns make a larger page."""
_MARGIN_PX = 30
_TOP_PX = 44
_LEFT_PX = 88
_LANE_PX, _BETWEEN_PX, _GROUND_PX, _NOTES_PX = 86, 8, 40, 310
_WIDEST_LANE_PX = 150
_LEGEND_PX = 70
_SHAPE = math.sqrt(2)
"""How much higher than wide a sheet of paper is."""
_MOST = 8
"""Columns; beyond, nobody could read it on paper."""


class TooLong(LimbwatchError):
    """The stretch does not fit on a page that can be read; the message says what to ask for."""


@dataclass(frozen=True, slots=True)
class Layout:
    """How the page is shared out, in pixels; `each_ms` is what one column shows."""

    width_px: int
    height_px: int
    head_px: int
    body_px: int
    columns: int
    each_ms: int

    @property
    def column_px(self) -> int:
        """The width of one column."""
        return (self.width_px - 2 * _MARGIN_PX) // self.columns


def layout(long_ms: int, lanes: int, notes: int, lines: int) -> Layout:
    """The smallest page that has room for the stretch and the notes. Raises TooLong."""
    head_px = 2 * _MARGIN_PX + 24 * lines + _TOP_PX
    least_px = _LEFT_PX + lanes * (_LANE_PX + _BETWEEN_PX) + _GROUND_PX + _NOTES_PX
    wanted_px = max(long_ms / _HOUR_MS * _HOUR_PX, notes * LINE_PX)
    for columns in range(1, _MOST + 1):
        width_px = max(_PAGE_PX, columns * least_px + 2 * _MARGIN_PX)
        body_px = round(width_px * _SHAPE) - head_px - _LEGEND_PX - _MARGIN_PX
        if columns * body_px >= wanted_px:
            used_px = max(400, math.ceil(wanted_px)) if columns == 1 else body_px
            height_px = head_px + min(used_px, body_px) + _LEGEND_PX + _MARGIN_PX
            each_ms = -(-long_ms // columns)
            return Layout(width_px, height_px, head_px, min(used_px, body_px), columns, each_ms)
    days = _MOST * body_px / _HOUR_PX / 24
    raise TooLong(f"One picture holds {days:.0f} days at most: ask for less with --from and --to")


def png(sheet: Sheet) -> bytes:
    """The picture as the bytes of a PNG file. Raises TooLong."""
    image = drawn(sheet)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stub knows no str here
    return bytes(buffer.data().data())


def drawn(sheet: Sheet) -> QImage:
    """The picture. Makes a Qt application where there is none."""
    if QGuiApplication.instance() is None:
        _keep_alive = QGuiApplication(sys.argv[:1])
    load_fonts(asset(name) for name in FILES)
    long_ms = sheet.to_ms - sheet.from_ms
    lines = 1 + len(sheet.lines)
    plan = layout(long_ms, len(sheet.strip.lanes), len(sheet.notes), lines)
    image = QImage(plan.width_px, plan.height_px, QImage.Format.Format_RGB32)
    theme = Theme(LIGHT)
    image.fill(theme.ink.ground)
    with QPainter(image) as painter:
        _Page(painter, theme, sheet, plan).paint()
    return image


class _Page:
    """Paints one page."""

    def __init__(self, painter: QPainter, theme: Theme, sheet: Sheet, plan: Layout) -> None:
        self._painter, self._theme, self._sheet, self._plan = painter, theme, sheet, plan
        self._columns = Columns.of(sheet.strip)
        self._strips = StripPainter(theme)

    def paint(self) -> None:
        """Paint heading, columns, legend."""
        self._painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._heading()
        for number in range(self._plan.columns):
            self._painter.save()
            across_px = _MARGIN_PX + number * self._plan.column_px
            self._painter.translate(across_px, self._plan.head_px - _TOP_PX)
            self._column(number)
            self._painter.restore()
        self._legend()

    def _heading(self) -> None:
        ink, room_px = self._theme.ink, self._plan.width_px - 2 * _MARGIN_PX
        rows = [(self._sheet.title, Text.TITLE, ink.text)]
        rows += [(line, Text.NOTE, ink.quiet) for line in self._sheet.lines]
        y_px = float(_MARGIN_PX)
        for text, style, colour in rows:
            y_px += 24
            shown = _fitted(self._theme, style, text, room_px)
            words = Words(shown, _MARGIN_PX, y_px, room_px, style, colour)
            paint_words(self._painter, [words], self._theme)

    def _column(self, number: int) -> None:
        plan, painter, ink = self._plan, self._painter, self._theme.ink
        frame = self._frame(number)
        labels = PageLabels(frame, self._columns, self._theme, self._sheet)
        words = labels.place()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        self._strips.paint(painter, frame, self._columns, ())
        self._days(frame)
        painter.setPen(QPen(ink.thread, 1))
        start_px = frame.across.ticks_px - 22
        for at_px, note_px in labels.leaders:
            painter.drawLine(QLineF(start_px, at_px, frame.across.ticks_px - 4, note_px))
        paint_words(painter, words, self._theme)
        for text, middle in labels.upright:
            self._upright(text, middle)
        if number + 1 < plan.columns:
            painter.setPen(QPen(ink.rule, 1))
            painter.drawLine(QLineF(plan.column_px - 6, 0, plan.column_px - 6, _TOP_PX))

    def _frame(self, number: int) -> Frame:
        plan, lanes = self._plan, len(self._columns.lanes)
        from_ms = self._sheet.from_ms + number * plan.each_ms
        fixed_px = _LEFT_PX + lanes * _BETWEEN_PX + _GROUND_PX + _NOTES_PX
        lane_px = min(_WIDEST_LANE_PX, (plan.column_px - fixed_px) // lanes)
        step_px = lane_px + _BETWEEN_PX
        places = tuple((float(_LEFT_PX + i * step_px), float(lane_px)) for i in range(lanes))
        ground_px = float(_LEFT_PX + lanes * step_px + 6)
        across = Across(places, ground_px, ground_px + _GROUND_PX + 6, plan.column_px - 14.0)
        bottom_px = float(_TOP_PX + plan.body_px)
        scale = Scale(from_ms, _TOP_PX, _TOP_PX, bottom_px, even=True, far_ms=plan.each_ms)
        return Frame(across, scale, from_ms - 1000 * _HOUR_MS, "")

    def _days(self, frame: Frame) -> None:
        """A line at each midnight, a short one at each hour."""
        left_px, right_px = frame.across.left_px, frame.across.lanes_end_px
        for notes, end_px, wide in (
            (self._sheet.days, right_px, 2.0),
            (self._sheet.hours, left_px, 1.0),
        ):
            self._painter.setPen(QPen(self._theme.ink.text, wide))
            for note in notes:
                if frame.from_ms <= note.at_ms < frame.to_ms:
                    y_px = frame.scale.y_of(note.at_ms)
                    self._painter.drawLine(QLineF(left_px - 6, y_px, end_px, y_px))

    def _upright(self, text: str, middle: QPointF) -> None:
        painter, theme = self._painter, self._theme
        long_px = theme.width_px(Text.EDGE, text)
        cap_px = theme.metrics(Text.EDGE).capHeight()
        painter.save()
        painter.translate(middle)
        painter.rotate(-90)
        painter.fillRect(
            QRectF(-long_px / 2 - 4, -cap_px / 2 - 4, long_px + 8, cap_px + 8), theme.ink.ground
        )
        painter.setFont(theme.font(Text.EDGE))
        painter.setPen(theme.ink.quiet)
        painter.drawText(QPointF(-long_px / 2, cap_px / 2), text)
        painter.restore()

    def _legend(self) -> None:
        theme, painter = self._theme, self._painter
        role = self._columns.lanes[0].role
        top_px = self._plan.height_px - _LEGEND_PX - _MARGIN_PX / 2 + 10
        x_px = float(_MARGIN_PX)
        patterns = Patterns(theme)
        for fill, text in self._sheet.legend:
            patterns.fill(painter, QRectF(x_px, top_px, 34, 18), role, fill)
            width_px = theme.width_px(Text.EDGE, text)
            words = Words(text, x_px + 42, top_px + 14, width_px, Text.EDGE, theme.ink.text)
            paint_words(painter, [words], theme)
            x_px += width_px + 70
        foot = Words(self._sheet.foot, _MARGIN_PX, top_px + 44, 0, Text.SMALL, theme.ink.quiet)
        paint_words(painter, [foot], theme)


def _fitted(theme: Theme, style: Text, text: str, room_px: float) -> str:
    """The text, shortened with dots where it has no room."""
    return theme.metrics(style).elidedText(text, Qt.TextElideMode.ElideRight, room_px)
