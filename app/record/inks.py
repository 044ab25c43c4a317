"""The colours of the record's pictures and page, for those who may not load Qt.

They are those of the theme; a test holds the two together.
"""

from dataclasses import fields

from app.record.svg import Ink

_FONT = "IBM Plex Sans"

DARK = Ink(
    ground="#14110c",
    text="#f6eedc",
    quiet="#b9ab96",
    rule="#3a342a",
    thread="#7d7466",
    hatch="#7c6b50",
    change="#93cbe9",
    voice="#d8c492",
    picture="#c4733f",
    data="#9c93b8",
    other="#a3a695",
    font=_FONT,
)

LIGHT = Ink(
    ground="#f7f2e8",
    text="#241c13",
    quiet="#5c4f3e",
    rule="#cfc3ae",
    thread="#8b7f6c",
    hatch="#988668",
    change="#155a80",
    voice="#aa8448",
    picture="#c8713c",
    data="#8e84ae",
    other="#8a8d7a",
    font=_FONT,
)

PAPER = Ink(
    ground="#ffffff",
    text="#000000",
    quiet="#444444",
    rule="#bbbbbb",
    thread="#777777",
    hatch="#777777",
    change="#333333",
    voice="#c4c4c4",
    picture="#a6a6a6",
    data="#d6d6d6",
    other="#b4b4b4",
    font=_FONT,
)
"""For printing: it must be told apart in black and white."""

NAMES = tuple(each.name for each in fields(Ink) if each.name != "font")
"""What has a colour."""

PAGE = Ink(
    **{name: f"var(--{name})" for name in NAMES},
    font="IBM Plex Sans, system-ui, sans-serif",
)
"""Whatever the page says: it has a light and a dark side."""
