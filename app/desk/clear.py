"""CLEAR UNTIL YOU MUST BE LIVE: how long, back by when and for what, what fits, what is owed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.desk import ink
from app.desk.clear_top import FIGURE, Top, lay_top
from app.desk.ink import Placed, Run
from app.desk.laid_panel import LaidPanel
from app.desk.paired import NEXT, ROW, PairedRow, Pairing, fitting
from app.desk.panel import HEAD, PAD
from app.theme import Text, Theme
from core.board.model import Said, Tone
from core.board.programme import ClearPanel, ItemRow, ItemState

_OWED_LINES = 3
_USUAL_ROWS = 2
_FOOT = 14
_APART = 6
_TIGHT = "tight"


@dataclass(frozen=True, slots=True)
class _Owed:
    """What is owed, as it breaks into lines."""

    lines: tuple[str, ...]
    tone: Tone

    @property
    def high(self) -> int:
        """How high it is at 1600x1000."""
        return len(self.lines) * NEXT


class ClearUntil(LaidPanel):
    """The panel of clear time. Rows that have no room are counted, not cut."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("CLEAR UNTIL YOU MUST BE LIVE", theme)
        self._shown = ClearPanel()
        self._kept: tuple[tuple[object, ...], Top] | None = None

    def show_clear(self, clear: ClearPanel) -> None:
        """Show how it stands at another second."""
        if clear != self._shown:
            self._shown = clear
            self.setAccessibleDescription(_spoken(clear))
            self.lay()

    def least_px(self) -> int:
        """How high it has to be: figure, back by, and what is owed, but for its quiet words."""
        return self._high_px((), self._owed(quiet=False))

    def usual_px(self) -> int:
        """How high it is with the rows of the next items, without which it says too little."""
        return self._high_px(self._rows()[:_USUAL_ROWS], self._owed(quiet=False))

    def few_px(self, most_px: float) -> int:
        """How high it is with those of the next items that fit, and no more."""
        return min(self.usual_px(), self.fit_px(most_px))

    def wanted_px(self) -> int:
        """How high it is with all of it."""
        return self._high_px(self._rows(), self._owed())

    def fit_px(self, most_px: float) -> int:
        """How high it is with what fits whole."""
        return self._high_px(*self._within(most_px - 1))

    def placed(self) -> list[Placed]:
        """Place the figure, the rows as far as there is room, and at the foot what is owed."""
        theme, room, top = self.theme, self.room(), self._top()
        rows, owed = self._within(self.height())
        words = self._placed_top(top)
        baseline = room.top() + theme.px(top.high + _APART)
        for row in rows:
            words += Pairing(theme).place(room, baseline + theme.px(ROW - 4), row)
            baseline += theme.px(row.high)
        words += self._more(len(self._shown.rows) - len(rows))
        baseline += theme.px(_APART)
        font = theme.font(Text.BODY)
        for each in owed:
            for line in each.lines:
                baseline += theme.px(NEXT)
                run = Run(line, font, theme.ink.tone(each.tone))
                words += ink.placed(room.left(), baseline, [run])
        return words

    def _placed_top(self, top: Top) -> list[Placed]:
        theme, room = self.theme, self.room()
        baseline = room.top() + theme.px(FIGURE)
        words = ink.placed(room.left(), baseline, top.figure)
        beside = Run(top.beside, theme.font(Text.STRONG), theme.ink.text)
        words += ink.placed_right(room.right(), baseline, [beside])
        baseline = room.top() + theme.px(top.high - len(top.below) * NEXT)
        font = theme.font(Text.NOTE)
        for line in top.below:
            baseline += theme.px(NEXT)
            words += ink.placed_right(room.right(), baseline, [Run(line, font, theme.ink.quiet)])
        return words

    def _more(self, count: int) -> list[Placed]:
        """'3 more': how many rows have no room, beside the heading."""
        if not count:
            return []
        run = Run(f"{count} more", self.theme.font(Text.TAG), self.theme.ink.quiet)
        return ink.placed_right(self.room().right(), self.room().top(), [run])

    def _within(self, most_px: float) -> tuple[Sequence[PairedRow], Sequence[_Owed]]:
        """Give what fits a height: the next items, then quiet words of what is owed, then more.

        Sizes are rounded one by one, so a pixel more or less is no matter.
        """
        rows, owed = self._rows(), self._owed()
        if self._high_px(rows[:_USUAL_ROWS], owed) > most_px + 1:
            owed = self._owed(quiet=False)
        free = (most_px + 1 - self._high_px((), owed)) / self.theme.scale
        return rows[: fitting([row.high for row in rows], free, 0)], owed

    def _high_px(self, rows: Sequence[PairedRow], owed: Sequence[_Owed]) -> int:
        high = sum(row.high for row in rows) + sum(each.high for each in owed)
        apart = 2 * _APART if owed else _APART
        return self.theme.px(HEAD + self._top().high + apart + high + _FOOT)

    def _room_px(self) -> float:
        return self.width() - 2 * self.theme.px(PAD)

    def _top(self) -> Top:
        """Give the figure as it is laid out: asked several times a second."""
        key = (self._shown, self._room_px(), self.theme)
        if self._kept is None or self._kept[0] != key:
            self._kept = (key, lay_top(self._shown, self.theme, self._room_px()))
        return self._kept[1]

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

    def _owed(self, *, quiet: bool = True) -> list[_Owed]:
        font, room_px = self.theme.font(Text.BODY), self._room_px()
        return [
            _Owed(ink.wrapped(ink.marked(said), font, room_px, _OWED_LINES), said.tone)
            for said in self._shown.owed
            if quiet or said.tone is not Tone.QUIET
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
    rows = [f"{row.name}, {row.words.text}" for row in clear.rows]
    told = (" ".join(filter(None, (clear.lead, figure))), clear.back_by, clear.live, *rows)
    return "; ".join(filter(None, (*told, *(said.text for said in clear.owed))))
