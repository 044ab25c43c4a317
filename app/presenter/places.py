"""Where the parts of the presenter window stand. Lengths are thousandths of its height."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QRectF

from app.theme import Theme

_MARGIN = 66
_TITLE, _DIGITS, _BELOW = 0.095, 0.392, 0.476
"""Baselines of the upper half, as parts of the height within the frame."""
_UPPER_RULE, _LOWER_RULE, _THEN = 0.522, 0.882, 0.95
_COLUMN = 0.714
"""Where the column of contact begins, as a part of the width."""
_GAP = 34


@dataclass(frozen=True, slots=True)
class Places:
    """Baselines, edges and rooms in pixels; the column stands right of the countdown."""

    left_px: float
    right_px: float
    countdown_right_px: float
    column_px: float
    title_px: float
    digits_px: float
    below_px: float
    sentence: QRectF
    then_px: float
    rules: tuple[QLineF, ...]


def places(inner: QRectF, theme: Theme) -> Places:
    """Share out a window, or what a frame leaves of it; the margin is that to the window."""
    margin_px = theme.px(_MARGIN) - inner.left()
    left_px, right_px = inner.left() + margin_px, inner.right() - margin_px

    def down(part: float) -> float:
        return inner.top() + part * inner.height()

    column_px = inner.left() + _COLUMN * inner.width()
    upper_px, lower_px = down(_UPPER_RULE), down(_LOWER_RULE)
    return Places(
        left_px=left_px,
        right_px=right_px,
        countdown_right_px=column_px - theme.px(_GAP),
        column_px=column_px,
        title_px=down(_TITLE),
        digits_px=down(_DIGITS),
        below_px=down(_BELOW),
        sentence=QRectF(left_px, upper_px, right_px - left_px, lower_px - upper_px),
        then_px=down(_THEN),
        rules=tuple(QLineF(left_px, y_px, right_px, y_px) for y_px in (upper_px, lower_px)),
    )
