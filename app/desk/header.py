"""The top line: what the flight is, the clock as a sentence, UTC, elapsed time, and the status."""

from PySide6.QtCore import QLineF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import Header

_GAP = 26
_NEAR = 6


class HeaderLine(QWidget):
    """Painted anew at each second; its digits are tabular, so that nothing moves under the eye."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._header: Header | None = None
        self._saved = ""

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.update()

    def show_header(self, header: Header, saved: str) -> None:
        """Show a header, and whether the entries are kept."""
        if (header, saved) == (self._header, self._saved):
            return
        self._header, self._saved = header, saved
        self.setAccessibleName(f"{header.weekday}, {header.clock} {header.zone}")
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the line: left the flight, then the clocks, at the right the status."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        header, theme = self._header, self._theme
        if header is None:
            return
        baseline = round(self.height() / 2 + theme.px(8))
        clocks = self._clocks(header)
        clocks_px = ink.width_px(clocks)
        # The clocks are never cut: the names give way, then the status.
        aside_px = self.width() - clocks_px - theme.px(_GAP)
        flight = self._flight(header, aside_px - min(self._state_px(header), aside_px / 2))
        left = ink.draw(painter, 0, baseline, flight)
        begin = max(left, (self.width() - clocks_px) / 2 - theme.px(90))
        end = ink.draw(painter, begin, baseline, clocks) + theme.px(_GAP)
        ink.draw_right(painter, self.width(), baseline, self._state(header, self.width() - end))
        painter.setPen(theme.ink.rule)
        under = self.height() - 0.5
        painter.drawLine(QLineF(0, under, self.width(), under))

    def _flight(self, header: Header, room_px: float) -> list[Run]:
        theme = self._theme
        near, gap = theme.px(14), theme.px(_GAP)
        title = Run(header.title, theme.font(Text.TITLE), theme.ink.text, near)
        title = ink.fitted(title, room_px - gap)
        subtitle = Run(header.subtitle, theme.font(Text.BODY), theme.ink.quiet, gap)
        return [title, ink.fitted(subtitle, room_px - title.width_px - near - gap)]

    def _state_px(self, header: Header) -> float:
        return ink.width_px(self._state(header, self.width()))

    def _clocks(self, header: Header) -> list[Run]:
        theme = self._theme
        near, gap = theme.px(_NEAR), theme.px(_GAP)
        small, large, other = (
            theme.font(Text.BODY),
            theme.font(Text.WALL_CLOCK),
            theme.font(Text.BIG_LINE),
        )
        runs = [
            Run(f"{header.weekday},", small, theme.ink.quiet, near),
            Run(header.clock, large, theme.ink.text, near),
            Run(header.zone, small, theme.ink.quiet, gap),
            Run(header.utc, other, theme.ink.quiet, near),
            Run("UTC", small, theme.ink.quiet, gap),
        ]
        if header.elapsed:
            runs += [
                Run(header.elapsed, other, theme.ink.quiet, near),
                Run(header.elapsed_word, small, theme.ink.quiet),
            ]
        return runs

    def _state(self, header: Header, room_px: float) -> list[Run]:
        theme = self._theme
        saved = Run(self._saved, theme.font(Text.NOTE), theme.ink.quiet)
        status = Run(
            header.status.text,
            theme.font(Text.NAME),
            theme.ink.tone(header.status.tone),
            theme.px(16) if self._saved else 0,
        )
        return [ink.fitted(status, room_px - saved.width_px - status.after_px), saved]
