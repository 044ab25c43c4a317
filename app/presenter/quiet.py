"""The grave page: the clock, the last confirmed words with their source, and lines passed."""

from collections.abc import Iterator

from PySide6.QtCore import QRectF

from app.presenter.sheet import Piece, Sheet, lines_of
from app.theme import Text, Theme
from core.board.programme import PresenterView

_CLOCK = Text.PROMPT_TITLE
_STYLES = (Text.PROMPT_SENTENCE, Text.PROMPT_SENTENCE_SMALL, Text.PROMPT_SENTENCE_LEAST)
_MARGIN = 66
_CLOCK_PX, _FIRST_PX, _FOOT_PX = 130, 290, 60
_STEP, _BETWEEN = 1.2, 0.7
"""From one line to the next, and more from one text to the next, in parts of the size."""


def lay_grave(sheet: Sheet, view: PresenterView, inner: QRectF) -> None:
    """Place them one below the other, and nothing else."""
    theme = sheet.theme
    left_px = inner.left() + theme.px(_MARGIN)
    room_px = inner.width() - 2 * theme.px(_MARGIN)
    clock = Piece(view.clock, _CLOCK, theme.ink.text)
    sheet.put(clock, left_px, inner.top() + theme.px(_CLOCK_PX), room_px)
    first_px = inner.top() + theme.px(_FIRST_PX)
    bottom_px = inner.bottom() - theme.px(_FOOT_PX)
    style = next(
        (each for each in _STYLES if _foot_px(view, each, theme, first_px, room_px) <= bottom_px),
        _STYLES[-1],
    )
    for line, baseline_px in _lines(view, style, theme, first_px, room_px):
        if baseline_px <= bottom_px:
            sheet.put(Piece(line, style, theme.ink.text), left_px, baseline_px, room_px + 1)


def _foot_px(
    view: PresenterView, style: Text, theme: Theme, first_px: float, room_px: float
) -> float:
    lines = list(_lines(view, style, theme, first_px, room_px))
    return lines[-1][1] if lines else first_px


def _lines(
    view: PresenterView, style: Text, theme: Theme, first_px: float, room_px: float
) -> Iterator[tuple[str, float]]:
    """Every line with its baseline."""
    size_px = theme.px(style.reference_px)
    baseline_px = first_px
    for text in view.lines:
        for line in lines_of(text, style, theme, room_px, 99):
            yield line, baseline_px
            baseline_px += _STEP * size_px
        baseline_px += _BETWEEN * size_px
