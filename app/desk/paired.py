"""Rows of a panel: a text at the left that breaks into lines, its value at the right."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF

from app.desk import ink
from app.desk.ink import Placed, Run
from app.theme import Text, Theme
from core.board.model import Said

ROW = 29
NEXT = 23
_LINES = 3
_APART = 16
_BESIDE_SHARE = 0.62
"""A value wider than so much of the room stands below its text."""


@dataclass(frozen=True, slots=True)
class PairedRow:
    """A row as it breaks at a panel's width.

    The value stands beside the first line; where it is too long, on lines of its own below.
    """

    lines: tuple[str, ...]
    value: Said
    below: tuple[str, ...] = ()
    strong: bool = False

    @property
    def high(self) -> int:
        """How high it is at 1600x1000."""
        return ROW + (len(self.lines) + len(self.below) - 1) * NEXT


@dataclass(frozen=True, slots=True)
class Pairing:
    """How the rows of one panel are written."""

    theme: Theme
    value: Text = Text.BODY

    def row(self, text: str, value: Said, room_px: float, *, strong: bool = False) -> PairedRow:
        """Break a row."""
        font = self.theme.font(Text.SUMMARY if strong else Text.BODY)
        words = ink.marked(value)
        value_px = self.theme.width_px(self.value, words)
        if value_px > room_px * _BESIDE_SHARE:
            below = ink.wrapped(words, self.theme.font(self.value), room_px, _LINES)
            return PairedRow(ink.wrapped(text, font, room_px, _LINES), value, below, strong)
        beside_px = room_px - self.theme.px(_APART) - value_px
        return PairedRow(ink.wrapped(text, font, beside_px, _LINES), value, (), strong)

    def place(self, room: QRectF, baseline: float, row: PairedRow) -> list[Placed]:
        """Place a row; `baseline` is that of its first line."""
        theme = self.theme
        value_font, colour = theme.font(self.value), theme.ink.tone(row.value.tone)
        words: list[Placed] = []
        if not row.below:
            value = Run(ink.marked(row.value), value_font, colour)
            words += ink.placed_right(room.right(), baseline, [value])
        font = theme.font(Text.SUMMARY if row.strong else Text.BODY)
        lines = [Run(line, font, theme.ink.text) for line in row.lines]
        lines += [Run(line, value_font, colour) for line in row.below]
        for place, run in enumerate(lines):
            words += ink.placed(room.left(), baseline + place * theme.px(NEXT), [run])
        return words


def more_words(count: int, theme: Theme) -> Run:
    """'and 3 more': how many rows have no room."""
    return Run(f"and {count} more", theme.font(Text.BODY), theme.ink.quiet)


def fitting(highs: Sequence[int], room: float, more: int = ROW) -> int:
    """How many of the rows fit a room; where not all do, a line is kept to say how many more."""
    if sum(highs) <= room:
        return len(highs)
    used, count = more, 0
    for high in highs:
        used += high
        if used > room:
            break
        count += 1
    return count
