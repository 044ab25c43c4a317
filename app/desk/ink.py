"""Lines of text in several fonts and colours on one baseline, measured and painted."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter

from core.board.model import Said, Tone

DIAMOND = "◆"
"""The mark of a clash, so that no clash is told by its colour alone."""

_WORD = re.compile(
    r"\d+ (?:d|h|min|s)\b(?: \d+ (?:h|min|s)\b| \d\d\b)*\S*"  # 1 min 18, 6 min 00 s
    r"|\d[\d:]* [ap]\.m\.\S*"
    r"|\S+"
)
"""What is not torn apart where a line breaks: a length of time, a clock time, a word."""


def marked(line: Said) -> str:
    """Give the text of a line, with the diamond before it where it tells of a clash."""
    return f"{DIAMOND} {line.text}" if line.tone is Tone.CLASH else line.text


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of text in one font and colour, with the space after it."""

    text: str
    font: QFont
    colour: QColor
    after_px: float = 0.0

    @property
    def width_px(self) -> float:
        """How wide it is, without the space after it."""
        return QFontMetricsF(self.font).horizontalAdvance(self.text)


def width_px(runs: Sequence[Run]) -> float:
    """Give the width of a line, without the space after its last piece."""
    if not runs:
        return 0.0
    return sum(run.width_px + run.after_px for run in runs) - runs[-1].after_px


def draw(painter: QPainter, left_px: float, baseline_px: float, runs: Iterable[Run]) -> float:
    """Paint a line from its left end; gives where the next piece would begin."""
    for run in runs:
        painter.setFont(run.font)
        painter.setPen(run.colour)
        painter.drawText(QPointF(left_px, baseline_px), run.text)
        left_px += run.width_px + run.after_px
    return left_px


def draw_right(painter: QPainter, right_px: float, baseline_px: float, runs: Sequence[Run]) -> None:
    """Paint a line up to its right end."""
    draw(painter, right_px - width_px(runs), baseline_px, runs)


def fitted(run: Run, room_px: float) -> Run:
    """Give the piece as it fits the room, with an ellipsis where it does not."""
    if run.width_px <= room_px:
        return run
    metrics = QFontMetricsF(run.font)
    if room_px < metrics.horizontalAdvance("…"):
        return replace(run, text="")
    return replace(run, text=metrics.elidedText(run.text, Qt.TextElideMode.ElideRight, room_px))


def wrapped(text: str, font: QFont, room_px: float, most_lines: int) -> tuple[str, ...]:
    """Break text into lines of that width; the last one takes the rest, with an ellipsis.

    A length of time and a clock time stay whole.
    """
    metrics = QFontMetricsF(font)
    lines: list[str] = []
    line = ""
    words = _WORD.findall(text)
    for place, word in enumerate(words):
        longer = f"{line} {word}" if line else word
        if not line or metrics.horizontalAdvance(longer) <= room_px:
            line = longer
            continue
        if len(lines) == most_lines - 1:
            line = " ".join([line, *words[place:]])
            break
        lines.append(line)
        line = word
    if line:
        lines.append(metrics.elidedText(line, Qt.TextElideMode.ElideRight, room_px))
    return tuple(lines)
