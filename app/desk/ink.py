"""Lines of text in several fonts and colours on one baseline, measured and painted."""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QRegion

from core.board.model import Said, Tone

DIAMOND = "◆"
"""The mark of a clash, so that no clash is told by its colour alone."""

_WORD = re.compile(
    r"\d+ (?:d|h|min|s)\b(?: \d+ (?:h|min|s)\b| \d\d\b)*\S*"  # 1 min 18, 6 min 00 s
    r"|\d[\d:]* [ap]\.m\.\S*"
    r"|\S+"
)
"""What is not torn apart where a line breaks: a length of time, a clock time, a word."""

_BEYOND_PX = 3
"""So far a letter's smoothed edge or its overhang may go beyond its measures."""


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
        return _advance_px(self.font, self.text)


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


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece of text at its place, before it is painted."""

    run: Run
    left_px: float
    baseline_px: float

    def reach(self) -> QRect:
        """All pixels that painting it may touch."""
        ascent_px, descent_px = _extent_px(self.run.font)
        left, top = math.floor(self.left_px), math.floor(self.baseline_px - ascent_px)
        right = math.ceil(self.left_px + self.run.width_px)
        bottom = math.ceil(self.baseline_px + descent_px)
        return QRect(left, top, right - left, bottom - top).adjusted(
            -_BEYOND_PX, -_BEYOND_PX, _BEYOND_PX, _BEYOND_PX
        )


def placed(left_px: float, baseline_px: float, runs: Iterable[Run]) -> list[Placed]:
    """Place a line from its left end."""
    found: list[Placed] = []
    for run in runs:
        found.append(Placed(run, left_px, baseline_px))
        left_px += run.width_px + run.after_px
    return found


def placed_right(right_px: float, baseline_px: float, runs: Sequence[Run]) -> list[Placed]:
    """Place a line up to its right end."""
    return placed(right_px - width_px(runs), baseline_px, runs)


def renewed(before: Sequence[Placed], after: Sequence[Placed]) -> QRegion:
    """Where pieces of text have come, gone or changed."""
    if len(before) == len(after):  # nearly always: each is where it was, or another text is
        pairs = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
        before, after = [old for old, _ in pairs], [new for _, new in pairs]
    region = QRegion()
    for piece in (*before, *after):
        if not (piece in before and piece in after):
            region += QRegion(piece.reach())
    return region


def draw_placed(painter: QPainter, pieces: Iterable[Placed], part: QRegion) -> None:
    """Paint pieces where they were placed, those that reach into a part of the widget."""
    for piece in pieces:
        if part.intersects(piece.reach()):
            draw(painter, piece.left_px, piece.baseline_px, [piece.run])


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
    return _wrapped(text, font, room_px, most_lines)


# Measuring is dear, and from one second to the next nearly all words are the same.


@lru_cache(maxsize=4096)
def _advance_px(font: QFont, text: str) -> float:
    return QFontMetricsF(font).horizontalAdvance(text)


@lru_cache(maxsize=256)
def _extent_px(font: QFont) -> tuple[float, float]:
    metrics = QFontMetricsF(font)
    return metrics.ascent(), metrics.descent()


@lru_cache(maxsize=1024)
def _wrapped(text: str, font: QFont, room_px: float, most_lines: int) -> tuple[str, ...]:
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
