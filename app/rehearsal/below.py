"""Below the timeline: more on the selected row, or the words a new surprise is chosen from."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from app.desk import ink
from app.desk.ink import Run
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.rehearsal.choosing import Next
from core.rehearsal.rows import Row

_LINE = 25
_TOP = 26
_MEANS = 130
_NOTHING = (
    "Select a row with the arrow keys: Enter springs a surprise that is coming,",
    "and goes back to before a report that has come. Or type a new surprise.",
)


class Below(Panel):
    """Holds either; what is typed comes first."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("SELECTED", theme)
        self._row: Row | None = None
        self._next: Next | None = None
        self._at = 0

    @property
    def chosen(self) -> str:
        """The word chosen, '' where there is none to choose."""
        options = () if self._next is None else self._next.options
        return options[min(self._at, len(options) - 1)][0] if options else ""

    @property
    def lines(self) -> tuple[str, ...]:
        """What it says, as it is written."""
        if self._next is not None:
            words = (f"{word}  {means}".rstrip() for word, means in self._next.options)
            return (self._next.asks, *words)
        if self._row is None:
            return _NOTHING
        return (self._row.what, *self._row.more, self._does(self._row))

    def show_row(self, row: Row | None) -> None:
        """Show more on a row."""
        if row != self._row:
            self._row = row
            self._say()

    def show_next(self, found: Next | None) -> None:
        """Show what may be typed next, None while nothing is."""
        if found != self._next:
            self._next, self._at = found, 0
            self._say()

    def choose_by(self, by: int) -> None:
        """Choose a word further down or up."""
        options = () if self._next is None else self._next.options
        self._at = max(0, min(self._at + by, len(options) - 1))
        self._say()

    def heading_runs(self) -> list[Run]:
        """Give the heading of what is shown."""
        text = "SELECTED" if self._next is None else "A NEW SURPRISE"
        return [Run(text, self.theme.font(Text.HEADING), self.theme.ink.quiet)]

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint it."""
        theme, baseline = self.theme, room.top() + self.theme.px(_TOP)
        if self._next is None:
            for number, text in enumerate(self.lines):
                font = theme.font(Text.CLOCK if number == 0 and self._row else Text.NOTE)
                colour = theme.ink.text if number == 0 and self._row else theme.ink.quiet
                run = ink.fitted(Run(text, font, colour), room.width())
                ink.draw(painter, room.left(), baseline, [run])
                baseline += theme.px(_LINE)
            return
        asks = Run(self._next.asks, theme.font(Text.CLOCK), theme.ink.text)
        ink.draw(painter, room.left(), baseline, [ink.fitted(asks, room.width())])
        self._paint_options(painter, room, self._next, baseline)

    def _paint_options(self, painter: QPainter, room: QRectF, found: Next, baseline: float) -> None:
        """The words in two columns, the one chosen framed; further ones once they are chosen."""
        theme = self.theme
        rows = max(1, int((room.bottom() - baseline) / theme.px(_LINE)))
        page = self._at // (2 * rows) * 2 * rows
        wide = room.width() / 2
        for place, (word, means) in enumerate(found.options[page : page + 2 * rows]):
            left = room.left() + wide * (place // rows)
            y = baseline + theme.px(_LINE) * (place % rows + 1)
            if page + place == self._at:
                painter.setPen(QPen(theme.ink.outline, theme.px(1)))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                box = QRectF(left - theme.px(6), y - theme.px(19), wide - theme.px(8), theme.px(26))
                painter.drawRoundedRect(box, theme.px(4), theme.px(4))
            name = Run(word, theme.font(Text.CLOCK), theme.ink.text)
            ink.draw(painter, left, y, [name])
            at = left + max(theme.px(_MEANS), name.width_px + theme.px(14))
            told = Run(means, theme.font(Text.SMALL), theme.ink.quiet)
            room_px = left + wide - theme.px(20) - at
            ink.draw(painter, at, y, [ink.fitted(told, room_px)])

    @staticmethod
    def _does(row: Row) -> str:
        if row.surprise:
            return "Enter springs it now"
        if row.mark is not None:
            return "Enter goes back to just before it"
        return "The flight does this by itself"

    def _say(self) -> None:
        self.setAccessibleDescription("; ".join(self.lines))
        self.update()
