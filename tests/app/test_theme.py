from pathlib import Path

import pytest
from PySide6.QtGui import QColor, QFontInfo, QFontMetricsF, QImage, QPainter

from app.fonts import FAMILY, FILES, FontMissing, load_fonts
from app.patterns import muted
from app.resources import asset
from app.theme import DARK, LIGHT, Palette, Text, Theme, scale_of
from tests.app.looking import contrast

pytestmark = pytest.mark.usefixtures("qapp")

THEMES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])
LANES = ("voice", "picture", "data", "other")


def grounds(palette: Palette) -> tuple[QColor, ...]:
    return (palette.ground, palette.panel, palette.live, palette.bar, palette.field)


@THEMES
def test_every_text_can_be_read_on_every_ground(palette: Palette) -> None:
    for ground in grounds(palette):
        for ink in (palette.text, palette.quiet, palette.change, palette.clash):
            assert contrast(ink, ground) >= 4.5, (ink.name(), ground.name())


@THEMES
def test_large_digits_stand_out_on_every_ground(palette: Palette) -> None:
    for ground in grounds(palette):
        assert contrast(palette.text, ground) >= 7.0, ground.name()


@THEMES
@pytest.mark.parametrize("lane", LANES)
def test_words_on_the_strip_can_be_read_on_their_plates(palette: Palette, lane: str) -> None:
    # More than WCAG's 4.5: smoothing takes some of it from letters as thin as these.
    assert contrast(palette.on_fill, palette.lane(lane)) >= 5.0
    assert contrast(palette.text, muted(lane, Theme(palette))) >= 4.5


@THEMES
@pytest.mark.parametrize("lane", LANES)
def test_a_contact_stands_out_from_the_ground(palette: Palette, lane: str) -> None:
    # 3:1 for graphics: WCAG 2.2, 1.4.11.
    assert contrast(palette.lane(lane), palette.ground) >= 3.0


def test_no_text_is_under_13_px_in_a_window_of_1600_by_1000() -> None:
    assert min(text.reference_px for text in Text) >= 13
    assert Theme.for_window(DARK, 1600, 1000).scale == 1.0


def test_what_is_read_at_a_metre_is_15_px_at_least() -> None:
    edges = {Text.EDGE}  # the times on the strip, which cards and CONTACT have too
    assert min(text.reference_px for text in Text if text not in edges) >= 15


def test_sizes_grow_with_the_window_and_stop_shrinking_at_1280_by_720() -> None:
    assert scale_of(3840, 2160) == pytest.approx(2.16)
    assert scale_of(1280, 720) == scale_of(800, 500) == 0.8
    assert Theme(DARK, 2.16).px(100) == 216
    assert Theme(DARK, 0.8).px(0.1) == 1


def test_the_font_that_ships_is_the_one_that_is_used() -> None:
    load_fonts(asset(name) for name in FILES)
    for text in Text:
        assert QFontInfo(Theme().font(text)).family() == FAMILY


def test_a_file_that_is_no_font_is_told(tmp_path: Path) -> None:
    other = tmp_path / "other.ttf"
    other.write_bytes(b"no font")
    with pytest.raises(FontMissing, match=r"other\.ttf"):
        load_fonts([other])


def test_every_digit_is_as_wide_as_every_other() -> None:
    load_fonts(asset(name) for name in FILES)
    for text in Text:
        metrics = QFontMetricsF(Theme().font(text))
        assert len({metrics.horizontalAdvance(digit * 4) for digit in "0123456789"}) == 1


def test_weights_are_really_heavier() -> None:
    load_fonts(asset(name) for name in FILES)
    theme = Theme()
    strong = theme.font(Text.STRONG)
    light = theme.font(Text.NAME)
    assert strong.pixelSize() == light.pixelSize()
    blacks = []
    for font in (light, strong):
        image = QImage(400, 60, QImage.Format.Format_RGB32)
        image.fill(QColor("white"))
        painter = QPainter(image)
        painter.setFont(font)
        painter.drawText(4, 40, "Loss of signal")
        painter.end()
        row = range(400)
        blacks.append(sum(255 - image.pixelColor(x, y).red() for x in row for y in range(60)))
    assert blacks[1] > blacks[0] * 1.05
