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
_APART = 8
_BELOW_LINES = 2
"""At most so many lines for through whom a lane goes, and as many for what comes then."""
_USUAL_LINES = 2
"""Below a lane's figure."""
_FIGURE_AT = 130
_INDENT = 14


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
            spoken = (*(_spoken(lane) for lane in contact.lanes), contact.distance)
            self.setAccessibleDescription("; ".join(filter(None, spoken)))
            self.update()

    def wanted_px(self) -> float:
        """How high it would like to be at its present width."""
        lines = sum(map(len, self._notes(self._room_px())))
        return self.least_px() + self.theme.px(lines * _TOTAL + 14) + self._apart_px()

    def least_px(self) -> int:
        """How high it has to be for the lanes alone, without what stands below them."""
        room_px = self._room_px()
        lanes = sum(self._high(lane, room_px) for lane in self._shown.lanes)
        return self.theme.px(HEAD + lanes + 12)

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint a block for each lane, and the rest below, as far as there is room."""
        theme = self.theme
        top = room.top()
        for lane in self._shown.lanes:
            self._paint_lane(painter, room, top + theme.px(40), lane)
            top += theme.px(self._high(lane, room.width()))
        top += theme.px(8)
        font = theme.font(Text.NOTE)
        high_px = room.bottom() + theme.px(4) - top - self._apart_px()
        for place, lines in enumerate(self.notes_within(room.width(), high_px)):
            top += self._apart_px() if place == 1 else 0
            for line in lines:
                top += theme.px(_TOTAL)
                ink.draw(painter, room.left(), top, [Run(line, font, theme.ink.quiet)])

    def notes_within(self, room_px: float, high_px: float) -> list[tuple[str, ...]]:
        """Give what is written below the lanes in that room: each whole, or not at all.

        Half a total says something else than the whole, and so does the totals' heading alone.
        """
        notes, fitting = self._notes(room_px), list[tuple[str, ...]]()
        heading = len(notes) - len(self._shown.totals)
        for place, lines in enumerate(notes):
            needed = sum(map(len, notes[place : place + 2])) if place == heading else len(lines)
            if self.theme.px(_TOTAL) * needed > high_px:
                break
            fitting.append(lines)
            high_px -= self.theme.px(_TOTAL) * len(lines)
        return fitting

    def _apart_px(self) -> int:
        """How far the totals stand from the distance above them."""
        return self.theme.px(_APART) if self._shown.distance else 0

    def _room_px(self) -> float:
        return self.width() - 2 * self.theme.px(PAD)

    def _high(self, lane: LaneNow, room_px: float) -> int:
        """How high a lane's block is at 1600x1000."""
        lines = sum(len(lines) for lines, _ in self._below(lane, room_px))
        return _LANE + max(0, lines - _USUAL_LINES) * _LINE

    def _notes(self, room_px: float) -> list[tuple[str, ...]]:
        """Give distance and totals as they break into lines; they stay the same for minutes."""
        shown = self._shown
        texts = (shown.distance, *shown.totals) if shown.distance else shown.totals
        key = (texts, room_px, self.theme.scale)
        if key != self._broken[0]:
            font = self.theme.font(Text.NOTE)
            found = [ink.wrapped(each, font, room_px, _TOTAL_LINES) for each in texts]
            self._broken = (key, found)
        return self._broken[1]

    def _paint_lane(self, painter: QPainter, room: QRectF, baseline: float, lane: LaneNow) -> None:
        theme = self.theme
        tick = QRectF(room.left(), baseline - theme.px(19), theme.px(5), theme.px(22))
        painter.fillRect(tick, theme.ink.lane(lane.colour))
        left = room.left() + theme.px(_INDENT)
        name = Run(lane.name, theme.font(Text.BIG_LINE), theme.ink.text, theme.px(12))
        ink.draw(painter, left, baseline, [ink.fitted(name, theme.px(_FIGURE_AT - 20))])
        if lane.figure is not None:
            figure_left = room.left() + theme.px(_FIGURE_AT)
            ink.draw(painter, figure_left, baseline, figure_runs(lane.figure, theme))
        if self._is_beside(lane, room.width()):
            word = Run(lane.word, theme.font(Text.BODY), theme.ink.quiet)
            ink.draw_right(painter, room.right(), baseline, [word])
        for lines, style in self._below(lane, room.width()):
            for line in lines:
                baseline += theme.px(_LINE)
                ink.draw(painter, left, baseline, [Run(line, theme.font(style), theme.ink.quiet)])

    def _is_beside(self, lane: LaneNow, room_px: float) -> bool:
        """Whether a lane's word has room at the right of its figure."""
        theme = self.theme
        end_px = theme.px(_FIGURE_AT)
        if lane.figure is not None:
            end_px += round(ink.width_px(figure_runs(lane.figure, theme))) + theme.px(7)
        return end_px + theme.width_px(Text.BODY, lane.word) <= room_px

    def _below(self, lane: LaneNow, room_px: float) -> list[tuple[tuple[str, ...], Text]]:
        """Give what stands below a lane's figure, smaller where it is too long, then broken.

        A word too long for its place comes before what stands there.
        """
        theme = self.theme
        left_px = room_px - theme.px(_INDENT)
        word = "" if self._is_beside(lane, room_px) else lane.word
        found = []
        for text in ("; ".join(filter(None, (word, lane.through))), lane.then):
            small = theme.width_px(Text.SMALL, text) <= left_px < theme.width_px(Text.NOTE, text)
            style = Text.SMALL if small else Text.NOTE
            lines = ink.wrapped(text, theme.font(style), left_px, _BELOW_LINES)
            if text:
                found.append((lines, style))
        return found


def _spoken(lane: LaneNow) -> str:
    parts = lane.figure.parts if lane.figure else ()
    figure = " ".join(f"{digits} {unit}" for digits, unit in parts)
    return " ".join(part for part in (lane.name, figure, lane.word, lane.through) if part)
