"""CLEAR UNTIL YOU MUST BE LIVE: what is lost, how long, back by when, what fits, what is owed."""

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

_LINES = 3
_USUAL_ROWS = 2
_FOOT = 14
_APART = 6
_TIGHT = "tight"


@dataclass(frozen=True, slots=True)
class _Told:
    """What is owed or lost, as it breaks into lines."""

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
        """How high it has to be: without the rows and the quiet words of what is owed."""
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
        """Place what is lost, the figure, the rows as far as there is room, and what is owed."""
        theme, room, top = self.theme, self.room(), self._top()
        rows, owed = self._within(self.height())
        words, baseline = self._placed_lines(self._broken(), room.top())
        baseline += theme.px(_APART) if self._shown.broken else 0
        words += self._placed_top(top, baseline)
        baseline += theme.px(top.high + _APART)
        for row in rows:
            words += Pairing(theme).place(room, baseline + theme.px(ROW - 4), row)
            baseline += theme.px(row.high)
        words += self._more(len(self._shown.rows) - len(rows))
        return words + self._placed_lines(owed, baseline + theme.px(_APART))[0]

    def _placed_lines(self, told: Sequence[_Told], baseline: float) -> tuple[list[Placed], float]:
        """Place lines one below the other, and give the baseline of the last."""
        theme, words = self.theme, []
        for each in told:
            for line in each.lines:
                baseline += theme.px(NEXT)
                run = Run(line, theme.font(Text.BODY), theme.ink.tone(each.tone))
                words += ink.placed(self.room().left(), baseline, [run])
        return words, baseline

    def _placed_top(self, top: Top, top_px: float) -> list[Placed]:
        theme, room = self.theme, self.room()
        baseline = top_px + theme.px(FIGURE)
        words = ink.placed(room.left(), baseline, top.figure)
        beside = Run(top.beside, theme.font(Text.STRONG), theme.ink.text)
        words += ink.placed_right(room.right(), baseline, [beside])
        baseline = top_px + theme.px(top.high - len(top.below) * NEXT)
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

    def _within(self, most_px: float) -> tuple[Sequence[PairedRow], Sequence[_Told]]:
        """Give what fits a height: the next items, then quiet words of what is owed, then more.

        Sizes are rounded one by one, so a pixel more or less is no matter.
        """
        rows, owed = self._rows(), self._owed()
        if self._high_px(rows[:_USUAL_ROWS], owed) > most_px + 1:
            owed = self._owed(quiet=False)
        free = (most_px + 1 - self._high_px((), owed)) / self.theme.scale
        return rows[: fitting([row.high for row in rows], free, 0)], owed

    def _high_px(self, rows: Sequence[PairedRow], owed: Sequence[_Told]) -> int:
        high = sum(row.high for row in rows)
        high += sum(each.high for each in (*self._broken(), *owed))
        apart = _APART * (1 + bool(owed) + bool(self._shown.broken))
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

    def _broken(self) -> list[_Told]:
        return self._told(self._shown.broken)

    def _owed(self, *, quiet: bool = True) -> list[_Told]:
        return self._told(
            [said for said in self._shown.owed if quiet or said.tone is not Tone.QUIET]
        )

    def _told(self, lines: Sequence[Said]) -> list[_Told]:
        font, room_px = self.theme.font(Text.BODY), self._room_px()
        return [
            _Told(ink.wrapped(ink.marked(said), font, room_px, _LINES), said.tone) for said in lines
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
    broken = (said.text for said in clear.broken)
    lead = " ".join(filter(None, (clear.lead, figure)))
    told = (*broken, lead, clear.back_by, clear.live, *rows)
    return "; ".join(filter(None, (*told, *(said.text for said in clear.owed))))
