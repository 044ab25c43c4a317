"""The ground of the presenter window, and the frame that no one can overlook in a rehearsal."""

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QBrush, QPainter

from app.desk.frame import badge_words, hatching
from app.theme import Text, Theme
from core.board.model import RehearsalBadge

_SIDE, _TOP = 12, 50
_BASELINE, _PAD = 38, 22
_STYLE = Text.PROMPT_WORDS


def within(window: QRectF, badge: RehearsalBadge | None, theme: Theme) -> QRectF:
    """What the frame leaves of the window."""
    if badge is None:
        return window
    side_px = theme.px(_SIDE)
    return window.adjusted(side_px, theme.px(_TOP), -side_px, -side_px)


def paint_ground(
    painter: QPainter, window: QRectF, badge: RehearsalBadge | None, theme: Theme
) -> None:
    """Paint the ground, with the hatched frame and its word where it is a rehearsal."""
    painter.fillRect(window, theme.ink.ground)
    if badge is None:
        return
    painter.fillRect(window, QBrush(hatching(theme)))
    painter.fillRect(within(window, badge, theme), theme.ink.ground)
    words = badge_words(badge)
    wide_px = theme.width_px(_STYLE, words) + 2 * theme.px(_PAD)
    plate = QRectF((window.width() - wide_px) / 2, 0, wide_px, theme.px(_TOP))
    painter.fillRect(plate, theme.ink.ground)
    painter.setFont(theme.font(_STYLE))
    painter.setPen(theme.ink.text)
    painter.drawText(QPointF(plate.left() + theme.px(_PAD), theme.px(_BASELINE)), words)
