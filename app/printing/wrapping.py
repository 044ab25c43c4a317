"""Lines broken to a width: at words, and within a word only where it has no room by itself."""

from collections.abc import Iterator
from functools import lru_cache

from PySide6.QtGui import QTextLayout, QTextOption

from app.printing.faces import Face, font, width_tw

_SLACK_TW = 1.0
"""Rounding is no reason to break a line."""


@lru_cache(maxsize=20_000)
def wrapped(face: Face, text: str, room_tw: float) -> tuple[str, ...]:
    """The lines of a text in that room; no text, no line."""
    return tuple(
        line
        for part in text.splitlines()
        if (tidy := " ".join(part.split()))
        for line in _broken(face, tidy, room_tw + _SLACK_TW)
    )


def natural_tw(face: Face, text: str) -> float:
    """How wide a text would be if it were never broken but at its own line breaks."""
    return max((width_tw(face, " ".join(part.split())) for part in text.splitlines()), default=0.0)


def least_tw(face: Face, text: str) -> float:
    """How wide its widest word is."""
    return max((width_tw(face, word) for word in text.split()), default=0.0)


def _broken(face: Face, text: str, room_tw: float) -> Iterator[str]:
    if width_tw(face, text) <= room_tw:
        yield text
        return
    layout = QTextLayout(text, font(face))
    layout.setTextOption(_option())
    layout.beginLayout()
    spans: list[tuple[int, int]] = []
    while (line := layout.createLine()).isValid():
        line.setLineWidth(room_tw)
        spans.append((line.textStart(), line.textLength()))
    layout.endLayout()
    units = text.encode("utf-16-le")  # Qt counts in these
    for start, length in spans:
        yield units[2 * start : 2 * (start + length)].decode("utf-16-le").rstrip()


def _option() -> QTextOption:
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    return option
