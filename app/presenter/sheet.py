"""Collects pieces of text as they are placed on the presenter window; nothing is painted yet."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from app.desk.ink import wrapped
from app.theme import Text, Theme
from app.words import Words
from core.board.model import Figure

ABOUT, PAST = "≈", "+"
_AFTER_DIGITS = 0.04
"""The space after digits, in parts of their size."""
_LEAST_AFTER = 5


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of text that has no place yet."""

    text: str
    style: Text
    colour: QColor


@dataclass(frozen=True, slots=True)
class FigureStyle:
    """How large the digits and the units of a length of time are.

    `after_unit` is the space after a unit, in parts of the digits' size.
    """

    digits: Text
    unit: Text
    after_unit: float = 0.15


class Sheet:
    """The pieces of text of one page, in the order in which they were placed."""

    def __init__(self, theme: Theme) -> None:
        self.words: list[Words] = []
        self.theme = theme

    def width_px(self, piece: Piece) -> float:
        """How wide a piece is."""
        return self.theme.width_px(piece.style, piece.text)

    def put(self, piece: Piece, left_px: float, baseline_px: float, room_px: float) -> float:
        """Place a piece from its left end, cut to the room at last; gives where it ends."""
        text, wide_px = piece.text, self.width_px(piece)
        if wide_px > room_px:
            metrics = self.theme.metrics(piece.style)
            text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(0.0, room_px))
            wide_px = self.theme.width_px(piece.style, text)
        if not text or wide_px > room_px:
            return left_px
        self.words.append(Words(text, left_px, baseline_px, wide_px, piece.style, piece.colour))
        return left_px + wide_px

    def put_lines(
        self,
        lines: Sequence[Piece],
        left_px: float,
        first_px: float,
        step_px: float,
        room_px: float,
    ) -> None:
        """Place one piece below the other, a step from baseline to baseline."""
        for row, piece in enumerate(lines):
            self.put(piece, left_px, first_px + row * step_px, room_px)

    def figure_px(self, figure: Figure, style: FigureStyle) -> float:
        """How wide a length of time is."""
        return sum(wide_px for _, wide_px in self._figure(figure, style))

    def put_figure(
        self, figure: Figure, style: FigureStyle, left_px: float, baseline_px: float
    ) -> float:
        """Place a length of time; gives where it ends."""
        for piece, wide_px in self._figure(figure, style):
            self.put(piece, left_px, baseline_px, self.width_px(piece) + 1)
            left_px += wide_px
        return left_px

    def _figure(self, figure: Figure, style: FigureStyle) -> list[tuple[Piece, float]]:
        """Its pieces, each with how far it is to the next."""
        theme = self.theme
        after_px = _AFTER_DIGITS * theme.px(style.digits.reference_px) + theme.px(_LEAST_AFTER)
        space_px = style.after_unit * theme.px(style.digits.reference_px)
        sign = ABOUT if figure.about else PAST if figure.past else ""
        pieces = [(Piece(sign, style.digits, theme.ink.text), after_px)] if sign else []
        for number, unit in figure.parts:
            pieces.append((Piece(number, style.digits, theme.ink.text), after_px))
            pieces.append((Piece(unit, style.unit, theme.ink.quiet), space_px))
        last = len(pieces) - 1
        return [
            (piece, self.width_px(piece) + (0 if place == last else after))
            for place, (piece, after) in enumerate(pieces)
        ]


def lines_of(text: str, style: Text, theme: Theme, room_px: float, most: int) -> tuple[str, ...]:
    """Break text into so many lines at most; the last one takes the rest, with an ellipsis."""
    return wrapped(text, theme.font(style), room_px, most)
