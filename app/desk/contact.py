"""CONTACT: each lane, how long it is as it is, through whom, what comes then, and the totals."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.figures import figure_runs
from app.desk.ink import Run
from app.desk.panel import HEAD, PAD, Panel
from app.theme import Text, Theme
from core.board.model import ContactPanel, LaneNow

_LANE = 100
_LINE = 24
_TOTAL = 23
_TOTAL_LINES = 2
_FIGURE_AT = 130


class Contact(Panel):
    """The panel of the signal as it is now."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("CONTACT", theme)
        self._shown = ContactPanel((), ())
        self._broken: tuple[object, list[tuple[str, ...]]] = (None, [])

    def show_contact(self, contact: ContactPanel) -> None:
        """Show another state of the lanes."""
        if contact != self._shown:
            self._shown = contact
            self.setAccessibleDescription("; ".join(_spoken(lane) for lane in contact.lanes))
            self.update()

    def wanted_px(self) -> float:
        """How high it would like to be at its present width."""
        broken = self._totals(self.width() - 2 * self.theme.px(PAD))
        return self.least_px() + self.theme.px(sum(map(len, broken)) * _TOTAL + 14)

    def least_px(self) -> int:
        """How high it has to be for the lanes alone, without the totals."""
        return self.theme.px(HEAD + len(self._shown.lanes) * _LANE + 12)

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint a block for each lane, and the totals below, as far as there is room."""
        theme = self.theme
        top = room.top()
        for lane in self._shown.lanes:
            self._paint_lane(painter, room, top + theme.px(40), lane)
            top += theme.px(_LANE)
        top += theme.px(8)
        font = theme.font(Text.NOTE)
        for lines in self._totals(room.width()):
            if top + theme.px(_TOTAL) * len(lines) > room.bottom() + theme.px(4):
                return  # half a total says something else than the whole
            for line in lines:
                top += theme.px(_TOTAL)
                ink.draw(painter, room.left(), top, [Run(line, font, theme.ink.quiet)])

    def _totals(self, room_px: float) -> list[tuple[str, ...]]:
        """Give the totals as they break into lines; they stay the same for minutes."""
        key = (self._shown.totals, room_px, self.theme.scale)
        if key != self._broken[0]:
            font = self.theme.font(Text.NOTE)
            found = [ink.wrapped(each, font, room_px, _TOTAL_LINES) for each in self._shown.totals]
            self._broken = (key, found)
        return self._broken[1]

    def _paint_lane(self, painter: QPainter, room: QRectF, baseline: float, lane: LaneNow) -> None:
        theme = self.theme
        tick = QRectF(room.left(), baseline - theme.px(19), theme.px(5), theme.px(22))
        painter.fillRect(tick, theme.ink.lane(lane.colour))
        left = room.left() + theme.px(14)
        name = Run(lane.name, theme.font(Text.BIG_LINE), theme.ink.text, theme.px(12))
        end = ink.draw(painter, left, baseline, [ink.fitted(name, theme.px(_FIGURE_AT - 20))])
        if lane.figure is not None:
            figure_left = room.left() + theme.px(_FIGURE_AT)
            end = ink.draw(painter, figure_left, baseline, figure_runs(lane.figure, theme))
        word = Run(lane.word, theme.font(Text.BODY), theme.ink.quiet)
        below = lane.through
        if end + word.width_px <= room.right():
            ink.draw_right(painter, room.right(), baseline, [word])
        else:  # a long word goes below, before what stands there
            below = "; ".join(part for part in (lane.word, lane.through) if part)
        for text in filter(None, (below, lane.then)):
            baseline += theme.px(_LINE)
            room_px = room.right() - left
            style = Text.NOTE if theme.width_px(Text.NOTE, text) <= room_px else Text.SMALL
            run = Run(text, theme.font(style), theme.ink.quiet)
            ink.draw(painter, left, baseline, [ink.fitted(run, room_px)])


def _spoken(lane: LaneNow) -> str:
    parts = lane.figure.parts if lane.figure else ()
    figure = " ".join(f"{digits} {unit}" for digits, unit in parts)
    return " ".join(part for part in (lane.name, figure, lane.word, lane.through) if part)
