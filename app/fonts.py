"""Loads the font that ships with the program."""

from collections.abc import Iterable
from pathlib import Path

from PySide6.QtGui import QFontDatabase

FAMILY = "IBM Plex Sans"

FILES = ("fonts/IBMPlexSans.ttf", "fonts/IBMPlexSans-Italic.ttf")
"""The assets it is made of."""


class FontMissing(RuntimeError):
    """The font did not come: Qt would take another one without a word."""


def load_fonts(paths: Iterable[Path]) -> None:
    """Give Qt the font files; needs a running application.

    Raises FontMissing where a file cannot be read or holds another family.
    """
    for path in paths:
        number = QFontDatabase.addApplicationFont(str(path))
        families = QFontDatabase.applicationFontFamilies(number) if number >= 0 else []
        if FAMILY not in families:
            message = f"{path} does not give the font {FAMILY}"
            raise FontMissing(message)
