"""Pieces of text with their places, before they are painted: what is written can be looked over."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRect, QRectF
from PySide6.QtGui import QColor, QPainter, QRegion

from app.theme import Text, Theme

_BEYOND_PX = 3
"""So far a letter's smoothed edge or its overhang may go beyond its measures."""


@dataclass(frozen=True, slots=True)
class Words:
    """A piece of text: its left end, its baseline, its width, how and in what colour.

    `plate` is painted behind it where the ground is a pattern.
    """

    text: str
    left_px: float
    baseline_px: float
    width_px: float
    style: Text
    colour: QColor
    plate: QColor | None = None

    def box(self, theme: Theme) -> QRectF:
        """The room it takes: from the top of the capitals to the foot of the descenders."""
        metrics = theme.metrics(self.style)
        top_px = self.baseline_px - metrics.capHeight()
        height_px = metrics.capHeight() + metrics.descent() * 0.8
        return QRectF(self.left_px, top_px, self.width_px, height_px)

    def reach(self, theme: Theme) -> QRect:
        """All pixels that painting it may touch; what is stood on a plate is not asked."""
        ascent_px, descent_px = theme.extent_px(self.style)
        left, top = math.floor(self.left_px), math.floor(self.baseline_px - ascent_px)
        right = math.ceil(self.left_px + self.width_px)
        bottom = math.ceil(self.baseline_px + descent_px)
        beyond = _BEYOND_PX
        return QRect(
            left - beyond, top - beyond, right - left + 2 * beyond, bottom - top + 2 * beyond
        )


def renewed_words(before: Sequence[Words], after: Sequence[Words], theme: Theme) -> QRegion:
    """Where pieces of text have come, gone or changed."""
    region = QRegion()
    if before == after:
        return region
    if len(before) == len(after):  # nearly always: each is where it was, or another text is
        pairs = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
        before, after = [old for old, _ in pairs], [new for _, new in pairs]
    for piece in (*_only_in(before, after), *_only_in(after, before)):
        region += QRegion(piece.reach(theme))
    return region


def _only_in(these: Sequence[Words], those: Sequence[Words]) -> Iterator[Words]:
    return (piece for piece in these if piece not in those)


def paint_words(
    painter: QPainter, words: Iterable[Words], theme: Theme, part: QRegion | None = None
) -> None:
    """Paint pieces of text where they were placed; `part`: only what reaches into it."""
    for piece in words:
        if part is not None and not part.intersects(piece.reach(theme)):
            continue
        if piece.plate is not None:
            edge_px = theme.px(3)
            painter.fillRect(
                piece.box(theme).adjusted(-edge_px, -edge_px, edge_px, edge_px), piece.plate
            )
        painter.setFont(theme.font(piece.style))
        painter.setPen(piece.colour)
        painter.drawText(QPointF(piece.left_px, piece.baseline_px), piece.text)
