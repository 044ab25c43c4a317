"""The day's entries, each of which can be taken back and brought back; in the right column."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen

from app.desk import ink
from app.desk.ink import Run
from app.desk.keys import Command, key_text
from app.desk.panel import Panel
from app.theme import Text, Theme
from core.board.model import EntryRow

_ROW = 66
_TOP = 12
_HINT = 30
_MORE = 26


class DayList(Panel):
    """The newest entry stands on top; the selected one is framed and always in sight."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("THE DAY'S ENTRIES", theme)
        self._entries: tuple[EntryRow, ...] = ()
        self._at = 0
        self._first = 0

    @property
    def selected(self) -> EntryRow | None:
        """The selected entry, None where the day has none."""
        return self._entries[self._at] if self._entries else None

    def show_entries(self, entries: tuple[EntryRow, ...]) -> None:
        """Show these, given oldest first; the selection stays on its entry."""
        selected = self.selected
        self._entries = tuple(reversed(entries))
        numbers = [entry.number for entry in self._entries]
        known = selected is not None and selected.number in numbers
        self._at = numbers.index(selected.number) if selected is not None and known else 0
        self._say()

    def open(self) -> None:
        """Begin at the newest."""
        self._at = self._first = 0
        self._say()

    def select_by(self, by: int) -> None:
        """Select an older entry (1) or a newer one (-1)."""
        self._at = max(0, min(self._at + by, len(self._entries) - 1))
        self._say()

    def paint_rows(self, painter: QPainter, room: QRectF) -> None:
        """Paint as many entries as fit, and the keys that act on them."""
        theme = self.theme
        row_px = theme.px(_ROW)
        fitting = self._fitting(room.height())
        self._first = min(max(self._first, self._at - fitting + 1), self._at)
        top = room.top() + theme.px(_TOP)
        for place in range(self._first, min(self._first + fitting, len(self._entries))):
            self._paint_entry(painter, QRectF(room.left(), top, room.width(), row_px), place)
            top += row_px
        out_of_sight = self._more(self._first, len(self._entries) - self._first - fitting)
        if out_of_sight:
            more = Run(out_of_sight, theme.font(Text.NOTE), theme.ink.quiet)
            ink.draw(painter, room.left(), top + theme.px(_MORE - 8), [more])
        hint = Run(self._hint(), theme.font(Text.SMALL), theme.ink.quiet)
        ink.draw(painter, room.left(), room.bottom() - theme.px(4), [hint])

    def heading_runs(self) -> list[Run]:
        """Give the heading with how many there are."""
        told = str(len(self._entries)) if self._entries else "none yet"
        return [*super().heading_runs(), Run(told, self.theme.font(Text.TAG), self.theme.ink.quiet)]

    def _fitting(self, high_px: float) -> int:
        """How many entries have room; where not all have, one line is kept to say how many more."""
        theme = self.theme
        room_px = high_px - theme.px(_TOP + _HINT)
        if room_px < theme.px(_ROW) * len(self._entries):
            room_px -= theme.px(_MORE)
        return max(1, int(room_px / theme.px(_ROW)))

    @staticmethod
    def _more(above: int, below: int) -> str:
        """'and 3 more above, 12 below': how many stand out of sight; empty where none does."""
        if above <= 0:
            return f"and {below} more below" if below > 0 else ""
        return f"and {above} more above" + (f", {below} below" if below > 0 else "")

    def _hint(self) -> str:
        if not self._entries:
            return f"{key_text(Command.CLEAR)} closes"
        take_back, bring_back = key_text(Command.TAKE_BACK), key_text(Command.ENTER)
        closes = key_text(Command.CLEAR)
        return f"{take_back} takes back, {bring_back} brings back, {closes} closes"

    def _paint_entry(self, painter: QPainter, room: QRectF, place: int) -> None:
        theme, entry = self.theme, self._entries[place]
        if place == self._at:
            painter.setPen(QPen(theme.ink.outline, theme.px(1)))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            edge = theme.px(10)
            painter.drawRoundedRect(room.adjusted(-edge, 1, edge, -3), theme.px(4), theme.px(4))
        font = QFont(theme.font(Text.CLOCK))
        font.setStrikeOut(entry.taken_back)
        colour = theme.ink.quiet if entry.taken_back else theme.ink.text
        first, second = room.top() + theme.px(26), room.top() + theme.px(50)
        told = f"{entry.by}  {entry.when}" if entry.by else entry.when
        when = Run(told, theme.font(Text.SMALL), theme.ink.quiet)
        ink.draw_right(painter, room.right(), first, [when])
        typed_px = room.width() - when.width_px - theme.px(12)
        typed = ink.fitted(Run(entry.typed, font, colour), typed_px)
        ink.draw(painter, room.left(), first, [typed])
        self._paint_meaning(painter, room, second, entry)

    def _paint_meaning(
        self, painter: QPainter, room: QRectF, baseline: float, entry: EntryRow
    ) -> None:
        theme = self.theme
        source = "taken back" if entry.taken_back else entry.source
        right = Run(source, theme.font(Text.SMALL), theme.ink.quiet)
        ink.draw_right(painter, room.right(), baseline, [right])
        left_px = room.width() - right.width_px - theme.px(12)
        meaning = Run(entry.meaning, theme.font(Text.SMALL), theme.ink.quiet)
        ink.draw(painter, room.left(), baseline, [ink.fitted(meaning, left_px)])

    def _say(self) -> None:
        entry = self.selected
        state = ", taken back" if entry and entry.taken_back else ""
        self.setAccessibleDescription(f"{entry.typed}{state}" if entry else "")
        self.update()
