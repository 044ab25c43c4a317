"""IF ENTERED: what the line one types would move, and what would stay, before Enter."""

from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk import ink
from app.desk.ink import Run
from app.desk.paired import fitting
from app.desk.panel import HEAD, PAD, Panel
from app.theme import Text, Theme
from core.board.model import Said

_FIRST = 29
_NEXT = 23
_MOST_LINES = 4


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of the preview as it breaks at the panel's width."""

    lines: tuple[str, ...]
    said: Said

    @property
    def high(self) -> int:
        """How high it is at 1600x1000."""
        return _FIRST + (len(self.lines) - 1) * _NEXT


class IfEntered(Panel):
    """The panel of what would happen; it stands in place of the last change while one types."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("IF ENTERED", theme)
        self._shown: tuple[Said, ...] = ()

    @property
    def shown(self) -> tuple[Said, ...]:
        """The lines it is about."""
        return self._shown

    def show_lines(self, lines: tuple[Said, ...]) -> bool:
        """Show other lines; True where they are others than before."""
        if lines == self._shown:
            return False
        self._shown = lines
        self.setAccessibleDescription(". ".join(line.text for line in lines))
        self.update()
        return True

    def least_px(self) -> int:
        """How high it has to be for the first line, and to say how many more there are."""
        highs = self._highs()
        return self._high_px(min(sum(highs), sum(highs[:1]) + _FIRST))

    def wanted_px(self) -> int:
        """How high it would like to be at its present width."""
        return self._high_px(sum(self._highs()))

    def fit_px(self, most_px: float) -> int:
        """How high it is with as many whole lines as fit."""
        highs = self._highs()
        shown = fitting(highs, (most_px - self._high_px(0)) / self.theme.scale, _FIRST)
        more = _FIRST if shown < len(highs) else 0
        return max(self.least_px(), self._high_px(sum(highs[:shown]) + more))

    def _high_px(self, rows: int) -> int:
        return self.theme.px(HEAD + rows + 24)

    def _highs(self) -> list[int]:
        return [row.high for row in self._rows(self.width() - 2 * self.theme.px(PAD))]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint the lines as far as there is room, then how many more there are."""
        theme, rows = self.theme, self._rows(room.width())
        end_px = room.bottom() + theme.px(6)
        top_px = room.top() + theme.px(6)
        for place, row in enumerate(rows):
            last = place == len(rows) - 1
            if top_px + theme.px(row.high + (0 if last else _FIRST)) > end_px:
                more = Run(f"and {len(rows) - place} more", theme.font(Text.BODY), theme.ink.quiet)
                ink.draw(painter, room.left(), top_px + theme.px(_NEXT), [more])
                return
            self._paint_row(painter, room.left(), top_px, row)
            top_px += theme.px(row.high)

    def _paint_row(self, painter: QPainter, left_px: float, top_px: float, row: _Row) -> None:
        theme = self.theme
        baseline_px = top_px + theme.px(_NEXT)
        for line in row.lines:
            run = Run(line, theme.font(Text.BODY), theme.ink.tone(row.said.tone))
            ink.draw(painter, left_px, baseline_px, [run])
            baseline_px += theme.px(_NEXT)

    def _rows(self, room_px: float) -> list[_Row]:
        font = self.theme.font(Text.BODY)
        return [
            _Row(ink.wrapped(ink.marked(said), font, room_px, _MOST_LINES), said)
            for said in self._shown
        ]
