"""Text and figures as every screen shows them, already written."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Figure:
    """A length of time as it is shown: (digits, unit) pairs, largest unit first.

    `about` draws the sign for 'about' before it; `past` means that it counts up.
    """

    parts: tuple[tuple[str, str], ...]
    about: bool = False
    past: bool = False


class Tone(StrEnum):
    """What a piece of text is about; a theme gives each a colour, never the only mark."""

    PLAIN = "plain"
    QUIET = "quiet"
    CHANGE = "change"
    CLASH = "clash"


@dataclass(frozen=True, slots=True)
class Said:
    """A line of text with its tone."""

    text: str
    tone: Tone = Tone.PLAIN
