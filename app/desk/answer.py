"""What stands beside the line one types: how it is read, what would move, a clash, an answer."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.clash_box import lay_clash, paint_clash
from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import LastChange, Preview, Said, Tone
from core.session.model import Taken

_ROW = 29
_ROWS = 4
_CHOICE_ROWS = 2
_CLASH_SHARE = 0.54

_TAB = "Tab:"


@dataclass(frozen=True, slots=True)
class Shown:
    """What is painted: the readings to pick from, a headline, lines below it, and a clash."""

    headline: str = ""
    lines: tuple[Said, ...] = ()
    clash: str = ""
    choices: tuple[str, ...] = ()
    picked: int = 0

    def spoken(self) -> str:
        """Give it as one text, for who does not see the screen."""
        clash = f"Clash: {self.clash}" if self.clash else ""
        parts = (*self.choices, self.headline, *(line.text for line in self.lines), clash)
        return ". ".join(part for part in parts if part)


def of_preview(preview: Preview, *, lines: bool = True) -> Shown:
    """Give what is shown of a preview, with or without what would move and stay."""
    if preview.error:
        return Shown(preview.error, (Said(preview.hint, Tone.QUIET),) if preview.hint else ())
    ask = (Said(preview.ask, Tone.CHANGE),) if preview.ask else ()
    return Shown(
        preview.headline,
        (*ask, *(preview.lines if lines else ())),
        preview.clash,
        preview.choices if len(preview.choices) > 1 else (),
        preview.picked,
    )


def of_taken(taken: Taken) -> Shown:
    """Give what is shown of the desk's answer to Enter."""
    return Shown(taken.words, (Said(taken.hint, Tone.QUIET),) if taken.hint else ())


def of_change(change: LastChange | None) -> Shown:
    """Give what is shown of the last change, quietly: what it was, when, and who said so."""
    if change is None:
        return Shown()
    told = ", ".join(part for part in (change.when, change.source) if part)
    return Shown(lines=(Said(f"Last change, {told}: {change.headline}", Tone.QUIET),))


def apart(choices: tuple[str, ...]) -> tuple[str, ...]:
    """Give the readings without the words they begin with alike, all but the last of those."""
    words = [choice.split() for choice in choices]
    shortest = min(map(len, words))
    alike = next((at for at in range(shortest) if len({each[at] for each in words}) > 1), shortest)
    return tuple(" ".join(each[max(0, alike - 1) :]) for each in words)


class AnswerBeside(QWidget):
    """Paints what is shown, in four rows at most; a clash stands in a frame at the right."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.shown = Shown()

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.update()

    def show_this(self, shown: Shown) -> None:
        """Show something else."""
        if shown != self.shown:
            self.shown = shown
            self.setAccessibleName(shown.spoken())
            self.update()

    def sizeHint(self) -> QSize:
        """Give the size for its rows."""
        return QSize(self._theme.px(600), self._theme.px(_ROW * 3))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint rows and clash."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room_px = self.width() - self._paint_clash(painter)
        rows = self._rows(room_px)
        step = min(self._theme.px(_ROW), self.height() / (len(rows) + 0.3)) if rows else 0
        baseline = (self.height() - step * len(rows)) / 2 + step * 0.72
        for row in rows:
            ink.draw(painter, 0, baseline, row)
            baseline += step

    def _rows(self, room_px: float) -> list[list[Run]]:
        theme, shown = self._theme, self.shown
        rows = self._choice_rows(room_px) if shown.choices else []
        font = theme.font(Text.STRONG)
        most = min(2 if shown.lines else 3, _ROWS - len(rows))
        headline = ink.wrapped(shown.headline, font, room_px, most)
        rows += [[Run(text, font, theme.ink.text)] for text in headline]
        rows += self._line_rows(room_px, _ROWS - len(rows))
        return rows[:_ROWS]

    def _choice_rows(self, room_px: float) -> list[list[Run]]:
        """Give the readings on one row or two; smaller, and only then cut, where there are many."""
        rows: list[list[Run]] = []
        for styles in ((Text.STRONG, Text.BODY), (Text.TAG, Text.SMALL)):
            tab, *readings = self._choice_runs(*styles)
            rows = _shared(tab, readings, room_px)
            if len(rows) <= _CHOICE_ROWS and all(ink.width_px(row) <= room_px for row in rows):
                return rows
        to_a_row = -(-len(readings) // _CHOICE_ROWS)
        share_px = (room_px - tab.width_px - tab.after_px) / to_a_row
        cut = [ink.fitted(run, share_px - run.after_px) for run in readings]
        return _shared(tab, cut, room_px)[:_CHOICE_ROWS]

    def _choice_runs(self, picked: Text, others: Text) -> list[Run]:
        """Give the word for the key, and the readings; that in force has a mark."""
        theme, shown = self._theme, self.shown
        runs = [Run(_TAB, theme.font(others), theme.ink.quiet, theme.px(12))]
        for place, choice in enumerate(apart(shown.choices)):
            here = place == shown.picked
            font = theme.font(picked if here else others)
            text = f"▸ {choice}" if here else choice
            colour = theme.ink.text if here else theme.ink.quiet
            runs.append(Run(text, font, colour, theme.px(24)))
        return runs

    def _line_rows(self, room_px: float, most: int) -> list[list[Run]]:
        """Give the lines one after the other, as many to a row as fit; then how many more."""
        rows: list[list[Run]] = []
        lines = self.shown.lines
        for place, line in enumerate(lines):
            run = self._line_run(line)
            if rows and ink.width_px([*rows[-1], run]) <= room_px:
                rows[-1].append(run)
            elif len(rows) < most:
                pieces = ink.wrapped(run.text, run.font, room_px, min(2, most - len(rows)))
                rows += [[replace(run, text=piece)] for piece in pieces]
            else:
                return _with_more(rows, len(lines) - place, run, room_px)
        return rows

    def _line_run(self, line: Said) -> Run:
        theme = self._theme
        tone = Tone.QUIET if line.tone is Tone.PLAIN else line.tone
        return Run(ink.marked(line), theme.font(Text.BODY), theme.ink.tone(tone), theme.px(20))

    def _paint_clash(self, painter: QPainter) -> float:
        """Paint the clash at the right; gives the width it takes, with the space before it."""
        if not self.shown.clash:
            return 0.0
        box = lay_clash(self.shown.clash, self._theme, self.width() * _CLASH_SHARE)
        paint_clash(painter, self._theme, box, self.width(), self.height())
        return box.wide_px + self._theme.px(20)


def _shared(first: Run, runs: list[Run], room_px: float) -> list[list[Run]]:
    """Share pieces out among rows, as many to a row as fit; the first of all begins them."""
    rows = [[first]]
    for run in runs:
        if len(rows[-1]) > 1 and ink.width_px([*rows[-1], run]) > room_px:
            rows.append([replace(first, text="", after_px=first.width_px + first.after_px)])
        rows[-1].append(run)
    return rows


def _with_more(rows: list[list[Run]], left: int, like: Run, room_px: float) -> list[list[Run]]:
    """Give the rows with a word at the end on the lines that had no room."""
    if not rows:
        return rows
    more = replace(like, text=f"and {left} more")
    while len(rows[-1]) > 1 and ink.width_px([*rows[-1], more]) > room_px:
        rows[-1].pop()
        left += 1
        more = replace(more, text=f"and {left} more")
    head = ink.width_px(rows[-1][:-1]) + rows[-1][-1].after_px * 2
    rows[-1][-1] = ink.fitted(rows[-1][-1], room_px - head - more.width_px)
    rows[-1].append(more)
    return rows
