"""The letters on paper: kinds of text with their sizes, fonts and widths.

Lengths are in twips, a twentieth of a point, which is also what the printer draws in: fine enough
that no place is ever rounded in sight.
"""

from enum import Enum
from functools import cache, lru_cache

from PySide6.QtGui import QFont, QFontMetricsF

from app.fonts import FAMILY

PT = 20
"""Twips in a point."""


class Face(Enum):
    """A kind of text: size in twips, weight, whether it leans."""

    TITLE = (15 * PT, 700)
    BADGE = (12 * PT, 700)
    HEADING = (13 * PT, 700)
    TEXT = (10 * PT, 400)
    STRONG_TEXT = (10 * PT, 600)
    SMALL = (8 * PT + 10, 400)
    HEAD = (8 * PT, 600)
    CELL = (9 * PT, 400)
    STRONG = (9 * PT, 600)
    GROUP = (10 * PT, 700)
    FINE = (8 * PT, 400)

    @property
    def size_tw(self) -> int:
        """Its size."""
        return self.value[0]

    @property
    def line_tw(self) -> float:
        """From one baseline to the next."""
        return round(self.size_tw * 1.28)

    @property
    def rise_tw(self) -> float:
        """From the top of a line to its baseline: room for capitals with their accents."""
        return round(self.size_tw * 0.98)


@cache
def font(face: Face) -> QFont:
    """The font; its figures are all as wide."""
    size_tw, weight = face.value
    made = QFont(FAMILY)
    made.setPixelSize(size_tw)
    made.setVariableAxis(QFont.Tag("wght"), float(weight))
    made.setFeature(QFont.Tag("tnum"), 1)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return made


@cache
def metrics(face: Face) -> QFontMetricsF:
    """The font's measures."""
    return QFontMetricsF(font(face))


@lru_cache(maxsize=20_000)
def width_tw(face: Face, text: str) -> float:
    """How wide a text is on one line."""
    return metrics(face).horizontalAdvance(text)
