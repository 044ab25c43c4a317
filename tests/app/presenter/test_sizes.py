"""Readable at three metres: sizes as painted, at each size of screen."""

from collections.abc import Callable
from dataclasses import replace
from typing import cast

import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QFontMetricsF, QImage

from app.presenter.top import DIGITS
from app.presenter.window import PresenterWindow
from app.theme import DARK, LIGHT, Palette, Text
from app.words import Words
from core.board.model import RehearsalBadge
from tests.app.looking import contrast, ink_box, overlaps
from tests.app.presenter.scenes import EVERY, ORDINARY

Shown = Callable[..., PresenterWindow]

SIZES = ((1280, 720), (1920, 1080), (3840, 2160))
SCREENS = (*SIZES, (1920, 1200))
AT_EACH_SIZE = pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}")
FRAMED = pytest.mark.parametrize("badge", [None, RehearsalBadge("10", True)], ids=["", "framed"])
BIG = (DIGITS[0].digits, DIGITS[1].digits)
PAINTED = {style for figure in DIGITS[:2] for style in (figure.digits, figure.unit)}
SENTENCES = (Text.PROMPT_SENTENCE, Text.PROMPT_SENTENCE_SMALL, Text.PROMPT_SENTENCE_LEAST)


def ink_px(window: PresenterWindow, part: QRect) -> int:
    """How high the light ink is that stands in a part of a window."""
    grey = window.grab(part).toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    bits, wide = bytes(cast("memoryview", grey.constBits())), grey.bytesPerLine()
    rows = [y for y in range(grey.height()) if max(bits[y * wide :][: grey.width()]) > 150]
    return rows[-1] - rows[0] + 1


def around(words: Words, window: PresenterWindow) -> QRect:
    return words.reach(window.theme).intersected(window.rect())


@pytest.mark.parametrize("size", SCREENS, ids=lambda size: f"{size[0]}x{size[1]}")
@FRAMED
def test_the_digits_of_the_countdown_are_a_fifth_of_the_height(
    shown: Shown, size: tuple[int, int], badge: RehearsalBadge | None
) -> None:
    window = shown(ORDINARY, size)
    for name in ("ordinary", "crowded", "break", "days", "held"):
        window.show_view(EVERY[name], badge)
        digits = [w for w in window.page().words if w.style in BIG and w.text.isdigit()]
        assert digits, name
        for words in digits:
            part = around(words, window)
            assert ink_px(window, part) >= size[1] / 5, (name, words.text)


@AT_EACH_SIZE
@FRAMED
def test_nothing_is_smaller_than_three_and_a_half_hundredths(
    shown: Shown, size: tuple[int, int], badge: RehearsalBadge | None
) -> None:
    window = shown(ORDINARY, size)
    for view in EVERY.values():
        window.show_view(view, badge)
        for words in window.page().words:
            assert window.theme.font(words.style).pixelSize() >= 0.035 * size[1], words.text


@AT_EACH_SIZE
@pytest.mark.parametrize("name", ["ordinary", "crowded", "grave"])
def test_what_is_to_be_read_aloud_is_five_and_a_half_hundredths(
    shown: Shown, size: tuple[int, int], name: str
) -> None:
    window = shown(EVERY[name], size)
    lines = [words for words in window.page().words if words.style in SENTENCES]
    assert lines
    for words in lines:
        assert window.theme.font(words.style).pixelSize() >= 0.055 * size[1]
        part = around(words, window)
        part.setBottom(round(words.baseline_px))
        # Capitals of this font are 0.7 of its size; so are its tall small letters, and more.
        assert ink_px(window, part) >= 0.68 * 0.055 * size[1], words.text


@AT_EACH_SIZE
@FRAMED
def test_no_text_lies_over_another_or_beyond_the_edge(
    shown: Shown, size: tuple[int, int], badge: RehearsalBadge | None
) -> None:
    window = shown(ORDINARY, size)
    for name, view in EVERY.items():
        window.show_view(view, badge)
        page = window.page()
        boxes = [ink_box(words, window.theme) for words in page.words]
        assert not overlaps(boxes), name
        for words, box in zip(page.words, boxes, strict=True):
            assert window.rect().contains(box.toAlignedRect()), (name, words.text)
            for rule in page.rules:
                assert not box.top() <= rule.y1() <= box.bottom(), (name, words.text)


@pytest.mark.parametrize("size", [(640, 360), (1024, 768), (1280, 1024), (1920, 1200), (900, 1600)])
def test_windows_of_any_shape_hold_it_without_overlaps(shown: Shown, size: tuple[int, int]) -> None:
    window = shown(ORDINARY, size)
    for name, view in EVERY.items():
        window.show_view(view, None)
        boxes = [ink_box(words, window.theme) for words in window.page().words]
        assert not overlaps(boxes), name
        assert all(window.rect().contains(box.toAlignedRect()) for box in boxes), name


def test_the_sentence_has_the_lower_half(shown: Shown) -> None:
    window = shown(ORDINARY, (1920, 1080))
    lines = [words for words in window.page().words if words.style in SENTENCES]
    assert min(ink_box(words, window.theme).top() for words in lines) >= 1080 / 2


@pytest.mark.parametrize("name", ["ordinary", "crowded"])
def test_digits_and_units_stand_still_from_second_to_second(shown: Shown, name: str) -> None:
    view = EVERY[name]
    window = shown(view)
    assert view.figure is not None

    def places(seconds: int) -> tuple[tuple[float, float], ...]:
        assert view.figure is not None
        figure = replace(view.figure, parts=(*view.figure.parts[:-1], (f"{seconds:02d}", "s")))
        window.show_view(replace(view, figure=figure), None)
        return tuple(
            (words.left_px, words.width_px)
            for words in window.page().words
            if words.style in PAINTED
        )

    first = places(0)
    assert len(first) == 2 * len(view.figure.parts)
    assert all(places(seconds) == first for seconds in (11, 27, 48, 58))


@pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])
def test_contrast_is_enough_for_three_metres(palette: Palette) -> None:
    assert contrast(palette.text, palette.ground) >= 7.0
    for ink in (palette.quiet, palette.change):
        assert contrast(ink, palette.ground) >= 4.5


def test_narrow_digits_are_narrower_and_as_even(shown: Shown) -> None:
    theme = shown(ORDINARY).theme
    wide, narrow = (QFontMetricsF(theme.font(style.digits)) for style in DIGITS[:2])
    assert narrow.horizontalAdvance("0") < 0.92 * wide.horizontalAdvance("0")
    assert len({narrow.horizontalAdvance(digit) for digit in "0123456789"}) == 1
