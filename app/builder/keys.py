"""The keys of the builder window: one table, from which the window and its key line read."""

from dataclasses import dataclass
from enum import StrEnum


class Command(StrEnum):
    """What a key asks the window to do."""

    UNDO = "undo"
    REDO = "redo"
    INSERT = "insert"
    DELETE = "delete"
    PASTE = "paste"
    COPY = "copy"
    NEXT_PART = "next_part"
    NEXT_SECTION = "next_section"
    LAST_SECTION = "last_section"
    NEXT_PROBLEM = "next_problem"
    SAVE = "save"
    SAVE_AS = "save_as"
    OPEN = "open"
    NEW = "new"
    TAKE_UP = "take_up"
    BOARD = "board"
    THEME = "theme"
    KEYS = "keys"


@dataclass(frozen=True, slots=True)
class Key:
    """One command with its keys, in Qt's portable spelling, and what it does in words."""

    command: Command
    keys: tuple[str, ...]
    words: str


KEYS = (
    Key(Command.UNDO, ("Ctrl+Z",), "undo"),
    Key(Command.REDO, ("Ctrl+Shift+Z", "Ctrl+Y"), "redo"),
    Key(Command.INSERT, ("Ins", "Ctrl+I"), "new row"),
    Key(Command.DELETE, ("Ctrl+Del",), "take the row out"),
    Key(Command.PASTE, ("Ctrl+V",), "paste: one value, or a whole timeline"),
    Key(Command.COPY, ("Ctrl+C",), "copy the cell"),
    Key(Command.NEXT_PART, ("F6",), "to the next list on this page"),
    Key(Command.NEXT_SECTION, ("Ctrl+PgDown",), "next page"),
    Key(Command.LAST_SECTION, ("Ctrl+PgUp",), "page before"),
    Key(Command.NEXT_PROBLEM, ("F8",), "to the next problem"),
    Key(Command.SAVE, ("Ctrl+S",), "save"),
    Key(Command.SAVE_AS, ("Ctrl+Shift+S",), "save under another name"),
    Key(Command.OPEN, ("Ctrl+O",), "open a plan, a table, a calendar, an orbit file"),
    Key(Command.NEW, ("Ctrl+N",), "a new plan"),
    Key(Command.TAKE_UP, ("Ctrl+T",), "take up the unsaved draft that is offered"),
    Key(Command.BOARD, ("Ctrl+B",), "open the board on it"),
    Key(Command.THEME, ("F4",), "dark or light"),
    Key(Command.KEYS, ("F1",), "these keys"),
)
"""Beside them: typing and F2 edit a cell, Enter and Tab go on, Space sets a mark, Del empties."""
