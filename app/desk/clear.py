"""CLEAR UNTIL YOU MUST BE LIVE: how long, back by when and for what, what fits, what is owed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.desk import ink
from app.desk.figures import figure_runs
from app.desk.ink import Placed, Run
from app.desk.laid_panel import LaidPanel
from app.desk.paired import NEXT, ROW, PairedRow, Pairing, fitting
from app.desk.panel import HEAD, PAD
from app.theme import Text, Theme
from core.board.model import Figure, Said, Tone
from core.board.programme import ClearPanel, ItemRow, ItemState

_FIGURE = 48
"""From the heading's baseline to the figure's."""
_LIVE_LINES, _OWED_LINES = 2, 3
_USUAL_ROWS = 2
_FOOT = 14
_OWED_APART = 5
_APART = 18
_TIGHT = "tight"
_STYLES = ((Text.CLEAR_DIGITS, Text.BIG_NOTE), (Text.DIGITS, Text.UNIT))
"""Digits and units, from large to small: the first that fits is taken."""


@dataclass(frozen=True, slots=True)
class _Top:
    """The figure's line: its pieces, and what stands at the right of them or below."""

    figure: tuple[Run, ...]
    beside: str
    below: tuple[str, ...]

    @property
    def high(self) -> int:
        """How high it is below the heading, at 1600x1000."""
        return (_FIGURE if self.figure or self.beside else 0) + len(self.below) * NEXT


class ClearUntil(LaidPanel):
    """The panel of clear time. Rows that have no room are counted, not cut."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("CLEAR UNTIL YOU MUST BE LIVE", theme)
        self._shown = ClearPanel()

    def show_clear(self, clear: ClearPanel) -> None:
        """Show how it stands at another second."""
        if clear != self._shown:
            self._shown = clear
            self.setAccessibleDescription(_spoken(clear))
            self.lay()

    def least_px(self) -> int:
        """How high it has to be without rows: figure, back by, and what is owed."""
        return self._high_px(0)

    def usual_px(self) -> int:
        """How high it is with the rows of the next items, without which it says too little."""
        return self._high_px(sum(row.high for row in self._rows()[:_USUAL_ROWS]))

    def wanted_px(self) -> int:
        """How high it is with all rows."""
        return self._high_px(sum(row.high for row in self._rows()))

    def fit_px(self, most_px: float) -> int:
        """How high it is with as many whole rows as fit."""
        highs = [row.high for row in self._rows()]
        room = (most_px - self.least_px() + 1) / self.theme.scale
        return self._high_px(sum(highs[: fitting(highs, room, 0)]))

    def placed(self) -> list[Placed]:
        """Place the figure, the rows as far as there is room, and at the foot what is owed."""
        theme, room, top = self.theme, self.room(), self._top()
        baseline = room.top() + theme.px(_FIGURE)
        words = ink.placed(room.left(), baseline, top.figure)
        beside = Run(top.beside, theme.font(Text.STRONG), theme.ink.text)
        words += ink.placed_right(room.right(), baseline, [beside])
        baseline = room.top() + theme.px(top.high - len(top.below) * NEXT)
        font = theme.font(Text.NOTE)
        for line in top.below:
            baseline += theme.px(NEXT)
            words += ink.placed_right(room.right(), baseline, [Run(line, font, theme.ink.quiet)])
        rows = self._shown_rows()
        baseline = room.top() + theme.px(top.high + 6)
        for row in rows:
            words += Pairing(theme).place(room, baseline + theme.px(ROW - 4), row)
            baseline += theme.px(row.high)
        words += self._more(len(self._shown.rows) - len(rows))
        baseline += theme.px(_OWED_APART)
        font = theme.font(Text.BODY)
        for said, lines in self._owed():
            for line in lines:
                baseline += theme.px(NEXT)
                words += ink.placed(
                    room.left(), baseline, [Run(line, font, theme.ink.tone(said.tone))]
                )
        return words

    def _shown_rows(self) -> list[PairedRow]:
        """The rows that there is room for."""
        rows = self._rows()
        free = (self.height() - self.least_px() + 1) / self.theme.scale
        return rows[: fitting([row.high for row in rows], free, 0)]

    def _more(self, count: int) -> list[Placed]:
        """'3 more': how many rows have no room, beside the heading."""
        if not count:
            return []
        theme, room = self.theme, self.room()
        run = Run(f"{count} more", theme.font(Text.TAG), theme.ink.quiet)
        return ink.placed_right(room.right(), room.top(), [run])

    def _high_px(self, rows: int) -> int:
        lines = sum(len(lines) for _, lines in self._owed())
        owed = lines * NEXT + (_OWED_APART if lines else 0)
        return self.theme.px(HEAD + self._top().high + 6 + rows + owed + _FOOT)

    def _room_px(self) -> float:
        return self.width() - 2 * self.theme.px(PAD)

    def _top(self) -> _Top:
        """Lay out the figure: what has no room at its right stands below."""
        shown, theme, room_px = self._shown, self.theme, self._room_px()
        lead = Run(shown.lead, theme.font(Text.STRONG), theme.ink.text, theme.px(10))
        before = [lead] if shown.lead else []
        back_px = theme.width_px(Text.STRONG, shown.back_by) + theme.px(_APART)
        figure = self._figure(before, shown.figure, room_px - back_px)
        below = [shown.live] if shown.live else []
        beside = shown.back_by
        if ink.width_px(figure) + back_px > room_px:
            figure = self._figure(before, shown.figure, room_px)
            below, beside = [", ".join(filter(None, (shown.back_by, shown.live)))], ""
        font = theme.font(Text.NOTE)
        lines = (ink.wrapped(text, font, room_px, _LIVE_LINES) for text in below)
        return _Top(tuple(figure), beside, tuple(line for each in lines for line in each))

    def _figure(self, before: list[Run], figure: Figure | None, room_px: float) -> list[Run]:
        if figure is None:
            return before
        found: list[Run] = []
        for digits, units in _STYLES:
            found = [*before, *figure_runs(figure, self.theme, digits, units)]
            if ink.width_px(found) <= room_px:
                break
        return found

    def _rows(self) -> list[PairedRow]:
        pairing, room_px = Pairing(self.theme), self._room_px()
        return [
            pairing.row(
                ", ".join(filter(None, (row.name, row.length))),
                _words(row),
                room_px,
                strong=row.state is ItemState.ON_AIR,
            )
            for row in self._shown.rows
        ]

    def _owed(self) -> list[tuple[Said, tuple[str, ...]]]:
        font, room_px = self.theme.font(Text.BODY), self._room_px()
        return [
            (said, ink.wrapped(ink.marked(said), font, room_px, _OWED_LINES))
            for said in self._shown.owed
        ]


def _words(row: ItemRow) -> Said:
    """What may be done with an item; that it is tight is said, and not by its colour alone."""
    if not row.tight or row.words.tone is Tone.CLASH:
        return row.words
    told = row.words.text
    text = told if _TIGHT in told else ", ".join(filter(None, (told, _TIGHT)))
    return replace(row.words, text=text, tone=Tone.CHANGE)


def _spoken(clear: ClearPanel) -> str:
    parts = clear.figure.parts if clear.figure else ()
    figure = " ".join(f"{digits} {unit}" for digits, unit in parts)
    rows: Sequence[str] = [f"{row.name}, {row.words.text}" for row in clear.rows]
    told = (" ".join(filter(None, (clear.lead, figure))), clear.back_by, clear.live, *rows)
    return "; ".join(filter(None, (*told, *(said.text for said in clear.owed))))
