"""Where the parts of the desk window stand."""

from dataclasses import dataclass

from PySide6.QtCore import QMargins, QRect

from app.desk.card_rows import MARGIN_PX as BRACKETS_PX
from app.theme import Theme

MARGIN_PX = 30
"""How far everything keeps from the sides, at 1600x1000."""
_HEADER = 62
_GAP = 14
_SIDE = 430
_LEAST_SIDE = 340


@dataclass(frozen=True, slots=True)
class Places:
    """The rectangles of the parts."""

    header: QRect
    timeline: QRect
    side: QRect
    notices: QRect
    bar: QRect


def places(inner: QRect, theme: Theme, bar_px: int, notices_px: int) -> Places:
    """Share out a window, or what a frame leaves of it."""
    margin, head, gap = theme.px(MARGIN_PX), theme.px(_HEADER), theme.px(_GAP)
    bar = QRect(inner.left(), inner.bottom() + 1 - bar_px, inner.width(), bar_px)
    room = inner.marginsRemoved(QMargins(margin, 0, margin, bar_px))
    notices = QRect(room.left(), room.bottom() + 1 - notices_px, room.width(), notices_px)
    middle = room.adjusted(0, head + gap, 0, -max(notices_px, gap))
    side_px = max(theme.px(_LEAST_SIDE), min(theme.px(_SIDE), round(room.width() * 0.28)))
    return Places(
        header=QRect(room.left(), room.top(), room.width(), head),
        # Its margin for brackets hangs out, so that the cards are flush with everything else.
        timeline=middle.adjusted(-theme.px(BRACKETS_PX), 0, -side_px - gap, 0),
        side=QRect(middle.right() + 1 - side_px, middle.top(), side_px, middle.height()),
        notices=notices,
        bar=bar,
    )
