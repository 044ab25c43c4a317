"""CONTACT: each lane, how long it is as it is, through whom, what comes then, and the totals."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.figures import figure_runs
from app.desk.ink import Run
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.board.model import ContactPanel, LaneNow

_LANE = 112
_LANE_LEAST = 84
_TOTAL = 25


class Contact(Panel):
    """The panel of the signal as it is now."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("CONTACT", theme)
        self._shown = ContactPanel((), ())

    def show_contact(self, contact: ContactPanel) -> None:
        """Show another state of the lanes."""
        if contact != self._shown:
            self._shown = contact
            self.setAccessibleDescription("; ".join(_spoken(lane) for lane in contact.lanes))
            self.update()

    def wanted_px(self) -> float:
        """How high it would like to be."""
        rows = len(self._shown.lanes) * _LANE + len(self._shown.totals) * _TOTAL
        return self.theme.px(52 + rows)

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint a block for each lane, and the totals at the foot."""
        theme = self.theme
        totals_px = len(self._shown.totals) * theme.px(_TOTAL)
        lanes = self._shown.lanes
        block = min(theme.px(_LANE), (room.height() - totals_px) / max(1, len(lanes)))
        top = room.top()
        for lane in lanes:
            self._paint_lane(painter, QRectF(room.left(), top, room.width(), block), lane)
            top += block
        for total in self._shown.totals:
            top += theme.px(_TOTAL)
            run = ink.fitted(Run(total, theme.font(Text.NOTE), theme.ink.quiet), room.width())
            ink.draw(painter, room.left(), top - theme.px(4), [run])

    def _paint_lane(self, painter: QPainter, room: QRectF, lane: LaneNow) -> None:
        theme = self.theme
        first = room.top() + room.height() * 0.40
        second = first + min(theme.px(27), room.height() * 0.27)
        third = second + min(theme.px(24), room.height() * 0.24)
        tick = QRectF(room.left(), first - theme.px(19), theme.px(5), theme.px(22))
        painter.fillRect(tick, theme.ink.lane(lane.colour))
        left = room.left() + theme.px(14)
        ink.draw(painter, left, first, [Run(lane.name, theme.font(Text.BIG_LINE), theme.ink.text)])
        if lane.figure is not None:
            runs = figure_runs(lane.figure, theme)
            ink.draw(painter, room.left() + theme.px(130), first, runs)
        word = Run(lane.word, theme.font(Text.BODY), theme.ink.quiet)
        ink.draw_right(painter, room.right(), first, [word])
        for text, baseline in ((lane.through, second), (lane.then, third)):
            run = Run(text, theme.font(Text.NOTE), theme.ink.quiet)
            ink.draw(painter, left, baseline, [ink.fitted(run, room.right() - left)])


def _spoken(lane: LaneNow) -> str:
    parts = lane.figure.parts if lane.figure else ()
    figure = " ".join(f"{digits} {unit}" for digits, unit in parts)
    return " ".join(part for part in (lane.name, figure, lane.word, lane.through) if part)
