"""Colours, sizes and the font: the only place that has any.

Sizes are given for a window of 1600 x 1000 and grow and shrink with it.
"""

from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPalette

from app.fonts import FAMILY
from core.board.model import Tone

WIDTH_PX = 1600
HEIGHT_PX = 1000
"""The window the sizes are given for."""

LEAST_SCALE = 0.8
"""Below this nothing shrinks any more: a window of 1280 x 720 is the smallest that works."""

_NARROWEST = 5 / 4
"""The width of a screen by its height, where it is not wide at all."""


class Text(Enum):
    """What a piece of text is on the screen: (size in px at 1600 x 1000, weight, a tie-breaker).

    The last number only keeps two kinds of the same size and weight apart.
    """

    BIG_DIGITS = (100, 600, 0)
    LONG_DIGITS = (72, 600, 0)
    """The same where there is an hour or a day too many for the room."""
    BIG_UNIT = (32, 400, 0)
    BIG_NAME = (29, 600, 0)
    BIG_LINE = (22, 500, 0)
    BIG_NOTE = (18, 400, 0)
    CLEAR_DIGITS = (50, 600, 0)
    """How long it is clear until one must be live."""
    SPOKEN = (21, 400, 0)
    """A sentence for the presenter."""
    DIGITS = (35, 600, 0)
    UNIT = (15, 400, 0)
    LINE_DIGITS = (29, 600, 1)
    NAME = (20, 500, 0)
    CLOCK = (17, 500, 0)
    NOTE = (17, 400, 0)
    TAG = (16, 500, 0)
    SUMMARY = (18, 500, 0)
    HEADING = (15, 600, 0)
    BODY = (18, 400, 1)
    STRONG = (20, 600, 0)
    SMALL = (15, 400, 2)
    """The smallest that is to be read at a metre."""
    EDGE = (14, 500, 0)
    TICK = (15, 400, 1)
    NOW = (17, 600, 0)
    TITLE = (22, 600, 0)
    WALL_CLOCK = (26, 600, 0)
    ENTRY = (25, 400, 0)

    # The presenter window, read at three metres: in thousandths of its height.
    PROMPT_DIGITS = (300, 600, 0)
    PROMPT_DIGITS_NARROW = (292, 600, 0, 75)
    """The same where there is an hour or a day."""
    PROMPT_DIGITS_LESS = (236, 600, 0, 75)
    PROMPT_DIGITS_LEAST = (170, 600, 0, 75)
    """Only in windows that are not as wide as a screen."""
    PROMPT_UNIT = (86, 400, 0)
    PROMPT_UNIT_NARROW = (57, 400, 0, 75)
    PROMPT_TITLE = (72, 600, 1)
    PROMPT_SENTENCE = (64, 500, 0)
    PROMPT_SENTENCE_SMALL = (60, 500, 0)
    PROMPT_SENTENCE_LEAST = (56, 500, 0)
    """No sentence is ever smaller."""
    PROMPT_LANE = (62, 600, 0)
    PROMPT_STRONG = (52, 600, 0)
    PROMPT_TITLE_LEAST = (44, 600, 0)
    PROMPT_FACT = (42, 500, 0)
    PROMPT_WORDS = (37, 500, 0)
    """The smallest that is to be read at three metres."""
    PROMPT_SMALL_UNIT = (37, 400, 0)

    __hash__ = object.__hash__  # an enum's own is written in Python, and asked for every word

    def __init__(self, reference_px: int, weight: int, _apart: int, width: int = 100) -> None:
        self.reference_px = reference_px
        """Its size in a window of 1600 x 1000."""
        self.weight = weight
        """Its weight on the font's own axis."""
        self.width = width
        """Its width on the font's own axis, in per cent."""


@dataclass(frozen=True, slots=True)
class Palette:
    """Every colour of one theme, by what it is for."""

    dark: bool
    ground: QColor
    panel: QColor
    live: QColor
    """The ground of the big card."""
    bar: QColor
    """The ground of the entry bar."""
    field: QColor
    """The ground of the line one types in."""
    rule: QColor
    """Thin lines that part things."""
    outline: QColor
    """The frame round what is selected or has the keyboard."""
    text: QColor
    quiet: QColor
    thread: QColor
    limb: QColor
    voice: QColor
    picture: QColor
    data: QColor
    other: QColor
    on_fill: QColor
    """Text on a lane that is in contact."""
    hatch: QColor
    """The lines of a gap."""
    sunk: QColor
    """What is laid, half transparent, over what is past."""
    change: QColor
    clash: QColor

    def lane(self, role: str) -> QColor:
        """The colour of a lane by its role: voice, picture, data; any other is 'other'."""
        known = {"voice": self.voice, "picture": self.picture, "data": self.data}
        return known.get(role, self.other)

    def tone(self, tone: Tone) -> QColor:
        """The colour of a text by its tone."""
        tones = {Tone.QUIET: self.quiet, Tone.CHANGE: self.change, Tone.CLASH: self.clash}
        return tones.get(tone, self.text)


DARK = Palette(
    dark=True,
    ground=QColor("#14110c"),
    panel=QColor("#1e1a14"),
    live=QColor("#2d231d"),
    bar=QColor("#1e1a14"),
    field=QColor("#14110c"),
    rule=QColor("#3a342a"),
    outline=QColor("#f6eedc"),
    text=QColor("#f6eedc"),
    quiet=QColor("#b9ab96"),
    thread=QColor("#7d7466"),
    limb=QColor("#f6eedc"),
    voice=QColor("#d8c492"),
    picture=QColor("#c4733f"),
    data=QColor("#9c93b8"),
    other=QColor("#a3a695"),
    on_fill=QColor("#14110c"),
    hatch=QColor("#7c6b50"),
    sunk=QColor(20, 17, 12, 165),
    change=QColor("#93cbe9"),
    clash=QColor("#f58fab"),
)

LIGHT = Palette(
    dark=False,
    ground=QColor("#f7f2e8"),
    panel=QColor("#ece4d5"),
    live=QColor("#e3d5c0"),
    bar=QColor("#ece4d5"),
    field=QColor("#fdfaf4"),
    rule=QColor("#cfc3ae"),
    outline=QColor("#2a2118"),
    text=QColor("#241c13"),
    quiet=QColor("#5c4f3e"),
    thread=QColor("#8b7f6c"),
    limb=QColor("#241c13"),
    voice=QColor("#aa8448"),
    picture=QColor("#c8713c"),
    data=QColor("#8e84ae"),
    other=QColor("#8a8d7a"),
    on_fill=QColor("#14110c"),
    hatch=QColor("#988668"),
    sunk=QColor(247, 242, 232, 165),
    change=QColor("#155a80"),
    clash=QColor("#9c1f4a"),
)


@dataclass(frozen=True, slots=True)
class Theme:
    """A palette at a size: hand one to every widget, and a new one when either changes."""

    ink: Palette = DARK
    scale: float = 1.0

    @classmethod
    def for_window(cls, ink: Palette, width_px: int, height_px: int) -> "Theme":
        """The theme for a window of that size."""
        return cls(ink, scale_of(width_px, height_px))

    @classmethod
    def for_presenter(cls, ink: Palette, width_px: int, height_px: int) -> "Theme":
        """The theme for a presenter window: a unit is a thousandth of its height.

        In a window narrower than any screen that lies, of a screen that is as wide.
        """
        return cls(ink, min(height_px, width_px / _NARROWEST) / HEIGHT_PX)

    def px(self, reference_px: float) -> int:
        """A length given for 1600 x 1000, in this window's pixels; never less than one."""
        return _px(self.scale, reference_px)

    def font(self, text: Text) -> QFont:
        """The font for a kind of text: copy it before you change it."""
        return _font(self.scale, text)

    def metrics(self, text: Text) -> QFontMetricsF:
        """The measures of that font."""
        return _metrics(self.scale, text)

    def extent_px(self, text: Text) -> tuple[float, float]:
        """How far letters go above and below the baseline."""
        return _extent_px(self.scale, text)

    def width_px(self, text: Text, words: str) -> float:
        """How wide words are in that font."""
        return _width_px(self.scale, text, words)

    def qt_palette(self) -> QPalette:
        """The same colours for what Qt paints by itself."""
        palette = QPalette(self.ink.ground)
        roles = QPalette.ColorRole
        for role, colour in (
            (roles.Window, self.ink.ground),
            (roles.WindowText, self.ink.text),
            (roles.Base, self.ink.field),
            (roles.Text, self.ink.text),
            (roles.PlaceholderText, self.ink.quiet),
            (roles.Button, self.ink.panel),
            (roles.ButtonText, self.ink.text),
            (roles.Highlight, self.ink.quiet),
            (roles.HighlightedText, self.ink.ground),
        ):
            palette.setColor(role, colour)
        return palette


def scale_of(width_px: int, height_px: int) -> float:
    """How much larger than the reference a window of that size draws."""
    return max(LEAST_SCALE, min(width_px / WIDTH_PX, height_px / HEIGHT_PX))


@lru_cache(maxsize=4096)
def _px(scale: float, reference_px: float) -> int:
    return max(1, round(reference_px * scale))


@lru_cache(maxsize=256)
def _font(scale: float, text: Text) -> QFont:
    font = QFont(FAMILY)
    font.setPixelSize(_px(scale, text.reference_px))
    # On a variable font the plain setters change nothing while claiming they did.
    font.setVariableAxis(QFont.Tag("wght"), float(text.weight))
    if text.width != 100:
        font.setVariableAxis(QFont.Tag("wdth"), float(text.width))
    font.setFeature(QFont.Tag("tnum"), 1)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font


@lru_cache(maxsize=256)
def _metrics(scale: float, text: Text) -> QFontMetricsF:
    return QFontMetricsF(_font(scale, text))


@lru_cache(maxsize=256)
def _extent_px(scale: float, text: Text) -> tuple[float, float]:
    metrics = _metrics(scale, text)
    return metrics.ascent(), metrics.descent()


@lru_cache(maxsize=4096)
def _width_px(scale: float, text: Text, words: str) -> float:
    """Measuring is dear, and from one second to the next nearly all words are the same."""
    return _metrics(scale, text).horizontalAdvance(words)
