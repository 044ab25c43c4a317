"""A clash in words, in a frame with a diamond, as it stands beside the line one types."""

import re
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme

_PAD = 16
_SIDE = 8
_FITS = "would fit"
_SENTENCE = re.compile(r"(?<!\b[ap]\.m)\. ")
"""Where a sentence ends, which is not at '4:40 p.m. or later'."""
_KINDS = ((Text.CLOCK, 22, 4), (Text.SMALL, 18, 5))
"""Text, the step from line to line, and the most lines: the second for what the first cuts."""


@dataclass(frozen=True, slots=True)
class ClashBox:
    """The words as they break into lines, and the size of the frame round them."""

    lines: tuple[str, ...]
    font: QFont
    step_px: int
    wide_px: float
    high_px: float


def lay_clash(words: str, theme: Theme, most_px: float) -> ClashBox:
    """Break a clash's words into a box no wider than that, smaller where they are many.

    Where even so they are too many, what would fit is shown whole and the rest is cut.
    """
    boxes = (_laid(words, theme, most_px, *kind) for kind in _KINDS)
    first = next(boxes)
    return first if not any(line.endswith("…") for line in first.lines) else next(boxes)


def paint_clash(painter: QPainter, theme: Theme, box: ClashBox, right_px: float, high: int) -> None:
    """Paint a box up to its right end, halfway down what is so high."""
    left, top = right_px - box.wide_px - 1, (high - box.high_px) / 2
    painter.setPen(QPen(theme.ink.clash, theme.px(2)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    corner = theme.px(5)
    painter.drawRoundedRect(QRectF(left, top, box.wide_px, box.high_px), corner, corner)
    metrics = QFontMetricsF(box.font)
    above = (box.step_px - metrics.height()) / 2 + metrics.ascent()
    baseline = top + theme.px(_SIDE) + above
    for line in box.lines:
        run = Run(line, box.font, theme.ink.clash)
        ink.draw(painter, left + theme.px(_PAD), baseline, [run])
        baseline += box.step_px


def _laid(
    words: str, theme: Theme, most_px: float, text: Text, step: int, most_lines: int
) -> ClashBox:
    font, pad = theme.font(text), 2 * theme.px(_PAD)
    lines = ink.wrapped(f"{ink.DIAMOND} {words}", font, most_px - pad, most_lines)
    if lines[-1].endswith("…"):
        *causes, fits = _SENTENCE.split(words)
        if causes and fits.endswith(_FITS):
            last = ink.wrapped(fits, font, most_px - pad, most_lines - 1)
            first = ink.wrapped(
                f"{ink.DIAMOND} {'. '.join(causes)}", font, most_px - pad, most_lines - len(last)
            )
            lines = (*first, *last)
    wide = max(QFontMetricsF(font).horizontalAdvance(line) for line in lines)
    high = theme.px(step) * len(lines) + 2 * theme.px(_SIDE)
    return ClashBox(lines, font, theme.px(step), wide + pad, high)
