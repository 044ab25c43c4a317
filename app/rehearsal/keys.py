"""The keys of the trainer's window: one table, from which the window and its panel read.

Where a key does the same in the desk window it is the same key.
"""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QKeyCombination, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence


class Ask(StrEnum):
    """What a key asks the trainer's window to do."""

    ENTER = "enter"
    CLEAR = "clear"
    UP = "up"
    DOWN = "down"
    PAGE_UP = "page_up"
    PAGE_DOWN = "page_down"
    TO_NOW = "to_now"
    COMPLETE = "complete"
    MARK = "mark"
    PAUSE = "pause"
    SLOWER = "slower"
    FASTER = "faster"
    STEP = "step"
    STEP_FAR = "step_far"
    NEXT = "next"
    DESK = "desk"
    END = "end"
    THEME = "theme"
    FULL_SCREEN = "full_screen"


@dataclass(frozen=True, slots=True)
class Key:
    """Keys in Qt's portable spelling, what each asks for, and how one reads of them."""

    asks: tuple[tuple[str, Ask], ...]
    shown: str
    words: str


KEYS: tuple[Key, ...] = (
    Key((("Up", Ask.UP), ("Down", Ask.DOWN)), "Up, Down", "select a row; while typing, a word"),
    Key(
        (("Return", Ask.ENTER), ("Enter", Ask.ENTER)),
        "Enter",
        "spring the row now, or go back to it",
    ),
    Key((("Tab", Ask.COMPLETE),), "Tab", "take the word, for a new surprise"),
    Key((("Esc", Ask.CLEAR),), "Esc", "clear the line, let go of the row"),
    Key(
        (
            ("Home", Ask.TO_NOW),
            ("Ctrl+Home", Ask.TO_NOW),
            ("PgUp", Ask.PAGE_UP),
            ("PgDown", Ask.PAGE_DOWN),
        ),
        "Home",
        "back to now; PgUp, PgDn: ten rows",
    ),
    Key((("Ctrl+M", Ask.MARK),), "Ctrl+M", "a mark here, named as the line says"),
    Key((("F5", Ask.PAUSE),), "F5", "pause or go on"),
    Key((("F6", Ask.SLOWER), ("F7", Ask.FASTER)), "F6, F7", "slower, faster"),
    Key((("F8", Ask.STEP), ("Shift+F8", Ask.STEP_FAR)), "F8", "one second on; with Shift a minute"),
    Key((("F9", Ask.NEXT),), "F9", "to 5 s before the next report"),
    Key((("Ctrl+T", Ask.DESK),), "Ctrl+T", "to the desk window, and back"),
    Key((("Ctrl+E", Ask.END),), "Ctrl+E", "end it here, write the score page"),
    Key((("F4", Ask.THEME), ("F11", Ask.FULL_SCREEN)), "F4, F11", "dark or light; full screen"),
)

NOT_HELD = frozenset(
    {Ask.ENTER, Ask.MARK, Ask.PAUSE, Ask.NEXT, Ask.DESK, Ask.END, Ask.THEME, Ask.FULL_SCREEN}
)
"""What a key held down gives only once."""

_BY_KEY: dict[str, Ask] = {text: ask for key in KEYS for text, ask in key.asks}


def ask_of(event: QKeyEvent) -> Ask | None:
    """Give what a key press asks for, None where it is typing."""
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    pressed = QKeySequence(QKeyCombination(held, Qt.Key(event.key())))
    return _BY_KEY.get(pressed.toString(QKeySequence.SequenceFormat.PortableText))


def key_text(ask: Ask) -> str:
    """Give the first key as it is written on the screen."""
    return next(text for text, known in _BY_KEY.items() if known is ask).replace("Return", "Enter")
