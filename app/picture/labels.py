"""What is written on one column of the page: the strip's own labels, and notes beside them."""

from PySide6.QtCore import QPointF, QRectF, Qt

from app.commands.sheets import Note, Sheet
from app.strip.columns import Column, Columns
from app.strip.frame import Frame
from app.strip.grounds import ground_names
from app.strip.labels import Labels
from app.theme import Text, Theme
from app.words import Words
from core.board.model import EdgeLabel
from core.signal.model import Fill

LINE_PX = 19
"""From one note to the next."""
_ROOM_PX = 8


class PageLabels(Labels):
    """Labels without now; an edge without room in its lane becomes a note."""

    def __init__(self, frame: Frame, columns: Columns, theme: Theme, sheet: Sheet) -> None:
        super().__init__(frame, columns, theme)
        self._sheet = sheet
        self._beside_lanes: list[Note] = []
        self.upright: list[tuple[str, QPointF]] = []
        """Causes that read upwards: their words, and the middle of their place."""
        self.leaders: list[tuple[float, float]] = []
        """From the height of an instant to that of its note."""

    def place(self) -> tuple[Words, ...]:
        """Give all words of the column."""
        self._headings()
        self._hours()
        for index, column in enumerate(self._columns.lanes):
            self._lane(index, column)
        self._stations()
        self._notes()
        return tuple(self.words)

    def _hours(self) -> None:
        for notes, style in ((self._sheet.days, Text.HEADING), (self._sheet.hours, Text.TICK)):
            half_px = self._theme.metrics(style).capHeight() / 2
            for note in notes:
                if not self._frame.from_ms <= note.at_ms < self._frame.to_ms:
                    continue
                colour = self._theme.ink.text if style is Text.HEADING else self._theme.ink.quiet
                width_px = self._theme.width_px(style, note.text)
                left_px = self._frame.across.left_px - self._theme.px(10) - width_px
                baseline_px = self._frame.scale.y_of(note.at_ms) + half_px
                self._keep(Words(note.text, left_px, baseline_px, width_px, style, colour))

    def _edge(self, index: int, column: Column, edge: EdgeLabel) -> None:
        count = len(self.words)
        super()._edge(index, column, edge)
        if len(self.words) == count:
            said = f"{edge.text} {column.name} {'LOS' if edge.lost else 'AOS'}"
            self._beside_lanes.append(Note(edge.at_ms, said))

    def _word(self, index: int, column: Column, stretch: int) -> None:
        count = len(self.words)
        super()._word(index, column, stretch)
        if len(self.words) > count or column.fills[stretch] is Fill.CONTACT:
            return
        text, rect = column.words[stretch], self._rect(index, column, stretch)
        long_px = self._theme.width_px(Text.EDGE, text)
        high_px = self._theme.metrics(Text.EDGE).height()
        room = QRectF(0, 0, high_px, long_px + 2 * _ROOM_PX)
        room.moveCenter(rect.center())
        taken = any(room.intersects(other) for other in self._taken)
        if text and rect.contains(room) and not taken:
            self._taken.append(room)
            self.upright.append((text, rect.center()))

    def _stations(self) -> None:
        """A station whose name has no room beside its bracket is a note."""
        frame = self._frame
        named = {name for _, _, name in ground_names(frame, self._columns, self._theme)}
        for ground in self._columns.grounds_between(frame.from_ms, frame.to_ms):
            room_px = frame.scale.y_of(ground.to_ms) - frame.scale.y_of(ground.from_ms)
            short = self._theme.width_px(Text.EDGE, ground.name) > room_px - _ROOM_PX
            if ground.name not in named or short:
                middle_ms = max(frame.from_ms, (ground.from_ms + ground.to_ms) // 2)
                if middle_ms < frame.to_ms:
                    self._beside_lanes.append(Note(middle_ms, f"through {ground.name}"))

    def _notes(self) -> None:
        """One below the other, each as near to its instant as the one above leaves it."""
        frame, theme = self._frame, self._theme
        inside = [n for n in self._sheet.notes if frame.from_ms <= n.at_ms < frame.to_ms]
        notes = sorted([*inside, *self._beside_lanes], key=lambda note: note.at_ms)
        heights = _spread([frame.scale.y_of(n.at_ms) for n in notes], frame.scale.bottom_px)
        metrics = theme.metrics(Text.EDGE)
        for note, middle_px in zip(notes, heights, strict=True):
            left_px = frame.across.ticks_px
            text = metrics.elidedText(
                note.text, Qt.TextElideMode.ElideRight, frame.across.right_px - left_px
            )
            baseline_px = middle_px + metrics.capHeight() / 2
            width_px = theme.width_px(Text.EDGE, text)
            words = Words(text, left_px, baseline_px, width_px, Text.EDGE, theme.ink.text)
            self.words.append(words)
            self.leaders.append((frame.scale.y_of(note.at_ms), middle_px))


def _spread(wanted_px: list[float], bottom_px: float) -> list[float]:
    """Heights in the same order, none nearer than a line to the next, none below the bottom."""
    found: list[float] = []
    for height_px in wanted_px:
        found.append(max(height_px, found[-1] + LINE_PX) if found else height_px)
    for place in range(len(found) - 1, -1, -1):
        found[place] = min(found[place], bottom_px - (len(found) - 1 - place) * LINE_PX)
    return found
