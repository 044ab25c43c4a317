"""The top line: what the flight is, the clock as a sentence, UTC, elapsed time, and the status."""

from PySide6.QtCore import QLineF
from PySide6.QtGui import QPainter, QPaintEvent, QRegion, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Placed, Run
from app.theme import Text, Theme
from core.board.model import Header

_GAP = 26
_NEAR = 6
_STATUS_STYLES = (Text.NAME, Text.NOTE, Text.SMALL)


class HeaderLine(QWidget):
    """Of it what has changed is painted at each second; tabular digits keep the rest in place."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._header: Header | None = None
        self._saved = ""
        self._words: list[Placed] = []

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self._words = self._placed()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the line out for another size."""
        super().resizeEvent(event)
        self._words = self._placed()
        self.update()

    def show_header(self, header: Header, saved: str) -> None:
        """Show a header, and whether the entries are kept."""
        if (header, saved) == (self._header, self._saved):
            return
        self._header, self._saved = header, saved
        self.setAccessibleName(f"{header.weekday}, {header.clock} {header.zone}")
        before, self._words = self._words, self._placed()
        self.update(ink.renewed(before, self._words))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the words, and the rule below them."""
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter, event.region())

    def _paint(self, painter: QPainter, part: QRegion) -> None:
        ink.draw_placed(painter, self._words, part)
        painter.setPen(self._theme.ink.rule)
        under = self.height() - 0.5
        painter.drawLine(QLineF(0, under, self.width(), under))

    def _placed(self) -> list[Placed]:
        """Place the line: left the flight, then the clocks, at the right the status."""
        header, theme = self._header, self._theme
        if header is None:
            return []
        baseline = round(self.height() / 2 + theme.px(8))
        clocks = self._clocks(header)
        clocks_px = ink.width_px(clocks)
        # The clocks are never cut: the names give way, but for the title, then the status.
        aside_px = self.width() - clocks_px - theme.px(_GAP)
        state_px = min(self._state_px(header), aside_px - min(self._title_px(header), aside_px / 2))
        flight = self._flight(header, aside_px - state_px)
        left = sum(run.width_px + run.after_px for run in flight)
        begin = min((self.width() - clocks_px) / 2 - theme.px(90), aside_px - state_px)
        begin = max(left, begin)
        end = begin + sum(run.width_px + run.after_px for run in clocks) + theme.px(_GAP)
        state = self._state(header, self.width() - end)
        return [
            *ink.placed(0, baseline, flight),
            *ink.placed(begin, baseline, clocks),
            *ink.placed_right(self.width(), baseline, state),
        ]

    def _flight(self, header: Header, room_px: float) -> list[Run]:
        theme = self._theme
        near, gap = theme.px(14), theme.px(_GAP)
        title = Run(header.title, theme.font(Text.TITLE), theme.ink.text, near)
        title = ink.fitted(title, room_px - gap)
        subtitle = Run(header.subtitle, theme.font(Text.BODY), theme.ink.quiet, gap)
        return [title, ink.fitted(subtitle, room_px - title.width_px - near - gap)]

    def _title_px(self, header: Header) -> float:
        return self._theme.width_px(Text.TITLE, header.title) + self._theme.px(14 + _GAP)

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
        """The status, smaller where it is too long and only then cut.

        After it stand whether all is kept, and what is to be known of the machine's clock.
        """
        theme = self._theme
        font, apart_px = theme.font(Text.NOTE), theme.px(16)
        told = [text for text in (header.trust, self._saved) if text]
        more = [Run(text, font, theme.ink.quiet, apart_px) for text in told]
        after_px = apart_px if more else 0
        room_px -= ink.width_px(more) + after_px
        text, colour = header.status.text, theme.ink.tone(header.status.tone)
        statuses = [Run(text, theme.font(style), colour, after_px) for style in _STATUS_STYLES]
        status = next((run for run in statuses if run.width_px <= room_px), statuses[-1])
        return [ink.fitted(status, room_px), *more]
