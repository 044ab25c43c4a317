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
    """One key in Qt's portable spelling, and what it does in words; '' stands with another."""

    ask: Ask
    keys: tuple[str, ...]
    words: str


KEYS: tuple[Key, ...] = (
    Key(Ask.UP, ("Up",), "select the row above, or a word to choose"),
    Key(Ask.DOWN, ("Down",), "select the row below, or a word to choose"),
    Key(Ask.ENTER, ("Return", "Enter"), "spring what is selected now; go back to what was"),
    Key(Ask.COMPLETE, ("Tab",), "take the word chosen for a new surprise"),
    Key(Ask.CLEAR, ("Esc",), "clear the line; let go of the row"),
    Key(Ask.TO_NOW, ("Home", "Ctrl+Home"), "back to now"),
    Key(Ask.PAGE_UP, ("PgUp",), "ten rows up"),
    Key(Ask.PAGE_DOWN, ("PgDown",), "ten rows down"),
    Key(Ask.MARK, ("Ctrl+M",), "set a mark here, named as the line says"),
    Key(Ask.PAUSE, ("F5",), "pause or go on"),
    Key(Ask.SLOWER, ("F6",), "slower"),
    Key(Ask.FASTER, ("F7",), "faster"),
    Key(Ask.STEP, ("F8",), "one second on"),
    Key(Ask.STEP_FAR, ("Shift+F8",), "one minute on"),
    Key(Ask.NEXT, ("F9",), "to 5 s before the next report"),
    Key(Ask.DESK, ("Ctrl+T",), "to the desk window, and back"),
    Key(Ask.END, ("Ctrl+E",), "end it here, and write the score page"),
    Key(Ask.THEME, ("F4",), "dark or light"),
    Key(Ask.FULL_SCREEN, ("F11",), "full screen or window"),
)

NOT_HELD = frozenset(
    {Ask.ENTER, Ask.MARK, Ask.PAUSE, Ask.NEXT, Ask.DESK, Ask.END, Ask.THEME, Ask.FULL_SCREEN}
)
"""What a key held down gives only once."""

_BY_KEY: dict[str, Ask] = {text: key.ask for key in KEYS for text in key.keys}


def ask_of(event: QKeyEvent) -> Ask | None:
    """Give what a key press asks for, None where it is typing."""
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    pressed = QKeySequence(QKeyCombination(held, Qt.Key(event.key())))
    return _BY_KEY.get(pressed.toString(QKeySequence.SequenceFormat.PortableText))


def key_text(ask: Ask) -> str:
    """Give the first key as it is written on the screen."""
    return next(key.keys[0] for key in KEYS if key.ask is ask).replace("Return", "Enter")
