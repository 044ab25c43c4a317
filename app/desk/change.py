"""LAST CHANGE: what the last entry moved, what stayed, when it came and who said so."""

from app.desk import ink
from app.desk.ink import Placed, Run
from app.desk.laid_panel import LaidPanel
from app.desk.paired import ROW, PairedRow, Pairing, fitting, more_words
from app.desk.panel import HEAD, PAD
from app.theme import Text, Theme
from core.board.model import LastChange

_HEADLINE_LINES = 3
_HEADLINE = 26
_FOOT = 16
_LEAST_FOOT = 11
_TOP = 6


class LastChangePanel(LaidPanel):
    """The panel of the last change; it is only there once something has changed."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("LAST CHANGE", theme)
        self._shown: LastChange | None = None

    def show_change(self, change: LastChange | None) -> None:
        """Show another change."""
        if change != self._shown:
            self._shown = change
            self.setAccessibleDescription(change.headline if change else "")
            self.lay()
            self.update()

    def least_px(self) -> int:
        """How high it has to be for heading and headline alone, close to the edge."""
        if self._shown is None:
            return 0
        return self.theme.px(HEAD + _TOP + len(self._headline()) * _HEADLINE + _LEAST_FOOT)

    def wanted_px(self) -> int:
        """How high it would like to be at its present width."""
        return self._high_px(sum(row.high for row in self._rows()))

    def fit_px(self, most_px: float) -> int:
        """How high it is with as many whole rows as fit."""
        highs = [row.high for row in self._rows()]
        if most_px < self._high_px(0):
            return self.least_px()
        room = (most_px - self._high_px(0)) / self.theme.scale
        shown = fitting(highs, room)
        more = ROW if shown < len(highs) and room >= ROW else 0
        return self._high_px(sum(highs[:shown]) + more)

    def heading_runs(self) -> list[Run]:
        """Give the heading with the time and the source."""
        runs = super().heading_runs()
        if self._shown is not None:
            told = ", ".join(part for part in (self._shown.when, self._shown.source) if part)
            aside = Run(told, self.theme.font(Text.TAG), self.theme.ink.quiet)
            room_px = self.width() - 2 * self.theme.px(PAD) - ink.width_px([*runs, aside])
            runs.append(ink.fitted(aside, aside.width_px + min(0.0, room_px)))
        return runs

    def placed(self) -> list[Placed]:
        """Place the headline, then what moved and stayed, as far as there is room."""
        theme, room = self.theme, self.room()
        baseline = room.top() + theme.px(_TOP)
        font, words = theme.font(Text.STRONG), list[Placed]()
        for line in self._headline():
            baseline += theme.px(_HEADLINE)
            words += ink.placed(room.left(), baseline, [Run(line, font, theme.ink.text)])
        baseline += theme.px(6)
        rows = self._rows()
        free = (self.height() - self._high_px(0) + 1) / theme.scale
        shown = fitting([row.high for row in rows], free)
        for row in rows[:shown]:
            words += self._pairing.place(room, baseline + theme.px(ROW), row)
            baseline += theme.px(row.high)
        if shown < len(rows) and free >= ROW:
            more = more_words(len(rows) - shown, theme)
            words += ink.placed(room.left(), baseline + theme.px(ROW), [more])
        return words

    @property
    def _pairing(self) -> Pairing:
        return Pairing(self.theme, Text.SUMMARY)

    def _room_px(self) -> float:
        return self.width() - 2 * self.theme.px(PAD)

    def _high_px(self, rows: int) -> int:
        """How high it is with rows that take so much at 1600x1000."""
        if self._shown is None:
            return 0
        return self.theme.px(HEAD + 12 + len(self._headline()) * _HEADLINE + rows + _FOOT)

    def _headline(self) -> tuple[str, ...]:
        font, shown = self.theme.font(Text.STRONG), self._shown
        return ink.wrapped(shown.headline if shown else "", font, self._room_px(), _HEADLINE_LINES)

    def _rows(self) -> list[PairedRow]:
        rows, pairing = self._shown.rows if self._shown else (), self._pairing
        return [pairing.row(text, value, self._room_px()) for text, value in rows]
