"""Helpers for tests that look at what is painted."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import combinations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QFontMetricsF, QImage
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.desk.timeline import Timeline
from app.fonts import FILES, load_fonts
from app.resources import asset
from app.theme import DARK, Palette, Theme
from app.words import Words
from core.board.model import View

SIZES = ((1280, 720), (1600, 1000), (3840, 2160))


def contrast(one: QColor, other: QColor) -> float:
    """The ratio of WCAG 2.2: https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: QColor) -> float:
    """https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (colour.redF(), colour.greenF(), colour.blueF())
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ink_box(words: Words, theme: Theme) -> QRectF:
    """The pixels that a piece of text blackens."""
    metrics = QFontMetricsF(theme.font(words.style))
    box = metrics.tightBoundingRect(words.text)
    return box.translated(words.left_px, words.baseline_px)


def overlaps(boxes: Iterable[QRectF]) -> list[tuple[QRectF, QRectF]]:
    """The pairs of rectangles that have room in common."""
    return [(a, b) for a, b in combinations(boxes, 2) if a.intersects(b)]


def pixels(widget: QWidget) -> QImage:
    """What is painted now."""
    QApplication.processEvents()
    return widget.grab().toImage()


def near(one: QColor, other: QColor, by: int = 12) -> bool:
    """Whether two colours are the same but for smoothing."""
    pairs = (
        (one.red(), other.red()),
        (one.green(), other.green()),
        (one.blue(), other.blue()),
    )
    return all(abs(a - b) <= by for a, b in pairs)


def column_of(image: QImage, x_px: float, top_px: float, bottom_px: float) -> set[str]:
    """The colours met going down a line of pixels."""
    rows = range(round(top_px), round(bottom_px))
    return {image.pixelColor(round(x_px), row).name() for row in rows}


@contextmanager
def timeline(
    qtbot: QtBot,
    view: View,
    size: tuple[int, int] = (1600, 1000),
    palette: Palette = DARK,
    *,
    strip: bool = True,
) -> Iterator[Timeline]:
    """A timeline as it stands in a window of that size, shown and painted."""
    QApplication.setStyle("Fusion")
    load_fonts(asset(name) for name in FILES)
    theme = Theme.for_window(palette, *size)
    widget = Timeline(theme)
    widget.resize(round(size[0] * 0.66), size[1] - theme.px(196))
    with qtbot.waitExposed(widget):
        widget.show()
    widget.set_view(view)
    if strip:
        widget.add_strip()
    QApplication.processEvents()
    try:
        yield widget
    finally:
        widget.close()
        widget.deleteLater()
