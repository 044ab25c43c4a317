"""The hidden timeline: what the desk was told above the line of now, what is coming below it."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app.desk import ink
from app.desk.ink import Run
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.board.model import Said
from core.rehearsal.rows import Of, Row
from core.rehearsal.showing import TrainerView

_ROW = 31
_BASELINE = 21
_TOP = 12
_CLOCK, _AWAY, _OF = 118, 166, 76
_GAP = 14
_STANDS_SHARE = 0.38
_PAST_SHARE = 3
"""Nobody having selected a row, so large a part of the room, 1/n, is for what is past."""

_WORDS = {Of.SURPRISE: "surprise", Of.FLIGHT: "", Of.MARK: "mark"}


class TimelinePanel(Panel):
    """Rows in order of time; the selected one is framed and in sight."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("THE HIDDEN TIMELINE", theme)
        self._view: TrainerView | None = None
        self._clock = ""
        self._selected = ""

    def show_trainer(self, view: TrainerView, clock: str) -> None:
        """Show another moment."""
        self._view, self._clock = view, clock
        self._name()
        self.update()

    @property
    def selected(self) -> Row | None:
        """The selected row, None where none is or it has gone."""
        return next((row for row in self._rows() if row.key == self._selected), None)

    def select(self, key: str) -> None:
        """Select a row by its key, or none: then now is in sight."""
        self._selected = key
        self._name()
        self.update()

    def select_by(self, by: int) -> None:
        """Select so many rows further down; from none, what is next or what was last."""
        rows = self._rows()
        if not rows:
            return
        at = next((n for n, row in enumerate(rows) if row.key == self._selected), None)
        if at is None:
            at = self._next() - (1 if by > 0 else 0)
        self.select(rows[max(0, min(len(rows) - 1, at + by))].key)

    def heading_runs(self) -> list[Run]:
        """Give the heading with what the rehearsal is, and when it ends."""
        runs = super().heading_runs()
        if self._view is None:
            return runs
        theme = self.theme
        title = Run(self._view.title, theme.font(Text.CLOCK), theme.ink.text, theme.px(_GAP))
        ends = Run(self._view.ends, theme.font(Text.TAG), theme.ink.quiet)
        room_px = self.room().width() - ink.width_px([*runs, ends]) - theme.px(_GAP)
        return [*runs, ink.fitted(title, room_px), ends]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint as many rows as fit, and the line of now among them."""
        rows, row_px = self._rows(), self.theme.px(_ROW)
        fitting = max(1, int((room.height() - self.theme.px(_TOP)) / row_px) - 1)
        first = self._first(fitting)
        top = room.top() + self.theme.px(_TOP)
        for place in range(first, min(first + fitting, len(rows)) + 1):
            if place == self._next():
                self._paint_now(painter, QRectF(room.left(), top, room.width(), row_px))
                top += row_px
            if place < min(first + fitting, len(rows)):
                self._paint_row(
                    painter, QRectF(room.left(), top, room.width(), row_px), rows[place]
                )
                top += row_px

    def _rows(self) -> tuple[Row, ...]:
        return () if self._view is None else self._view.rows

    def _next(self) -> int:
        return 0 if self._view is None else self._view.next_index

    def _first(self, fitting: int) -> int:
        """The first row in sight: now a third down, unless the selected row is elsewhere."""
        rows = self._rows()
        first = max(0, min(self._next() - fitting // _PAST_SHARE, len(rows) - fitting))
        at = next((n for n, row in enumerate(rows) if row.key == self._selected), None)
        if at is None:
            return first
        return min(at, max(first, at - fitting + 1))

    def _paint_now(self, painter: QPainter, room: QRectF) -> None:
        theme = self.theme
        now = Run(f"NOW  {self._clock}", theme.font(Text.NOW), theme.ink.text, theme.px(_GAP))
        end = ink.draw(painter, room.left(), room.top() + theme.px(_BASELINE), [now])
        painter.setPen(QPen(theme.ink.limb, theme.px(2)))
        middle = room.center().y()
        painter.drawLine(int(end), int(middle), int(room.right()), int(middle))

    def _paint_row(self, painter: QPainter, room: QRectF, row: Row) -> None:
        theme = self.theme
        if row.key == self._selected:
            painter.setPen(QPen(theme.ink.outline, theme.px(1)))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            edge = theme.px(10)
            painter.drawRoundedRect(room.adjusted(-edge, 1, edge, -1), theme.px(4), theme.px(4))
        quiet, plain = theme.ink.quiet, theme.ink.text
        ours = row.of is not Of.FLIGHT
        baseline = room.top() + theme.px(_BASELINE)
        left = room.left()
        clock = Run(row.clock, theme.font(Text.CLOCK), quiet if row.past else plain)
        ink.draw(painter, left, baseline, [clock])
        left += theme.px(_CLOCK)
        away = ink.fitted(Run(row.away, theme.font(Text.NOTE), quiet), theme.px(_AWAY))
        ink.draw(painter, left, baseline, [away])
        left += theme.px(_AWAY) + theme.px(_GAP)
        ink.draw(painter, left, baseline, [Run(_WORDS[row.of], theme.font(Text.SMALL), quiet)])
        left += theme.px(_OF)
        stands = self._stands(row.stands, room.width() * _STANDS_SHARE)
        ink.draw_right(painter, room.right(), baseline, [stands])
        room_px = room.right() - left - stands.width_px - theme.px(_GAP)
        colour: QColor = plain if ours or not row.past else quiet
        font = theme.font(Text.CLOCK if ours else Text.NOTE)
        ink.draw(painter, left, baseline, [ink.fitted(Run(row.what, font, colour), room_px)])

    def _stands(self, said: Said, room_px: float) -> Run:
        theme = self.theme
        run = Run(ink.marked(said), theme.font(Text.NOTE), theme.ink.tone(said.tone))
        return ink.fitted(run, room_px)

    def _name(self) -> None:
        row = self.selected
        told = "" if row is None else f"{row.clock}, {row.away}: {row.what} {row.stands.text}"
        self.setAccessibleDescription(told)
