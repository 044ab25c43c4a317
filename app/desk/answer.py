"""What stands beside the line one types: how it is read, what would move, a clash, an answer."""

from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import Preview, Said, Tone
from core.session.model import Answer, Taken

_ROW = 29
_ROWS = 3
_CLASH_SHARE = 0.42
_CLASH_LINES = 3
_PAD = 16

_AGAIN = "Enter once more takes it."
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


def of_preview(preview: Preview) -> Shown:
    """Give what is shown of a preview."""
    if preview.error:
        return Shown(preview.error, (Said(preview.hint, Tone.QUIET),) if preview.hint else ())
    ask = (Said(preview.ask, Tone.CHANGE),) if preview.ask else ()
    return Shown(
        preview.headline,
        (*ask, *preview.lines),
        preview.clash,
        preview.choices if len(preview.choices) > 1 else (),
        preview.picked,
    )


def of_taken(taken: Taken) -> Shown:
    """Give what is shown of the desk's answer to Enter."""
    hint = (Said(taken.hint, Tone.QUIET),) if taken.hint else ()
    if taken.answer is Answer.ASKS:
        return Shown(taken.words, (Said(_AGAIN, Tone.CHANGE), *hint))
    return Shown(taken.words, hint)


class AnswerBeside(QWidget):
    """Paints what is shown, in three rows at most; a clash stands in a frame at the right."""

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
        """Give the size for three rows."""
        return QSize(self._theme.px(600), self._theme.px(_ROW * _ROWS))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint rows and clash."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room_px = self.width() - self._paint_clash(painter)
        rows = self._rows(room_px)
        step = self._theme.px(_ROW)
        baseline = (self.height() - step * len(rows)) / 2 + self._theme.px(21)
        for row in rows:
            ink.draw(painter, 0, baseline, row)
            baseline += step

    def _rows(self, room_px: float) -> list[list[Run]]:
        theme, shown = self._theme, self.shown
        rows = [self._choice_row(room_px)] if shown.choices else []
        font = theme.font(Text.STRONG)
        headline = ink.wrapped(shown.headline, font, room_px, 2)
        rows += [[Run(text, font, theme.ink.text)] for text in headline]
        rows += self._line_rows(room_px, _ROWS - len(rows))
        return rows[:_ROWS]

    def _choice_row(self, room_px: float) -> list[Run]:
        theme, shown = self._theme, self.shown
        runs = [Run(_TAB, theme.font(Text.BODY), theme.ink.quiet, theme.px(12))]
        share = (room_px - runs[0].width_px) / len(shown.choices) - theme.px(24)
        for place, choice in enumerate(shown.choices):
            picked = place == shown.picked
            font = theme.font(Text.STRONG if picked else Text.BODY)
            text = f"▸ {choice}" if picked else choice
            colour = theme.ink.text if picked else theme.ink.quiet
            runs.append(ink.fitted(Run(text, font, colour, theme.px(24)), share))
        return runs

    def _line_rows(self, room_px: float, most: int) -> list[list[Run]]:
        """Give the lines one after the other, as many to a row as fit."""
        theme = self._theme
        rows: list[list[Run]] = []
        for line in self.shown.lines:
            quiet = Tone.QUIET if line.tone is Tone.PLAIN else line.tone
            run = Run(line.text, theme.font(Text.BODY), theme.ink.tone(quiet), theme.px(20))
            if rows and ink.width_px([*rows[-1], run]) <= room_px:
                rows[-1].append(run)
            elif len(rows) < most:
                rows.append([ink.fitted(run, room_px)])
            elif rows:
                left_px = room_px - ink.width_px(rows[-1]) - theme.px(20)
                rows[-1].append(ink.fitted(run, left_px))
                break
        return rows

    def _paint_clash(self, painter: QPainter) -> float:
        """Paint the clash at the right; gives the width it takes, with the space before it."""
        theme = self._theme
        if not self.shown.clash:
            return 0.0
        font = theme.font(Text.SUMMARY)
        pad = theme.px(_PAD)
        most_px = self.width() * _CLASH_SHARE - 2 * pad
        lines = ink.wrapped(f"◆ {self.shown.clash}", font, most_px, _CLASH_LINES)
        wide = max(QFontMetricsF(font).horizontalAdvance(line) for line in lines) + 2 * pad
        step = theme.px(24)
        high = step * len(lines) + theme.px(18)
        box = QRectF(self.width() - wide - 1, (self.height() - high) / 2, wide, high)
        painter.setPen(QPen(theme.ink.clash, theme.px(2)))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(box, theme.px(5), theme.px(5))
        self._paint_clash_lines(painter, box, lines, font)
        return wide + theme.px(20)

    def _paint_clash_lines(
        self, painter: QPainter, box: QRectF, lines: tuple[str, ...], font: QFont
    ) -> None:
        theme = self._theme
        baseline = box.top() + theme.px(9) + theme.px(18)
        for line in lines:
            run = Run(line, font, theme.ink.clash)
            ink.draw(painter, box.left() + theme.px(_PAD), baseline, [run])
            baseline += theme.px(24)
