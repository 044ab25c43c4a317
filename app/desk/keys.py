"""The keys of the desk window: one table, from which the window, the help sheet and README read.

Letters, digits and what edits a line belong to the entry bar, so everything else sits on function
keys, on Ctrl with a key, and on those keys that mean nothing in a single line.
"""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QKeyCombination, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence


class Command(StrEnum):
    """What a key asks the window to do."""

    ENTER = "enter"
    CLEAR = "clear"
    NEXT_READING = "next_reading"
    LAST_READING = "last_reading"
    UNDO = "undo"
    REDO = "redo"
    CONFIRM_DUE = "confirm_due"
    CARD_UP = "card_up"
    CARD_DOWN = "card_down"
    AHEAD = "ahead"
    BACK = "back"
    TO_NOW = "to_now"
    HELP = "help"
    HELP_BACK = "help_back"
    DAY = "day"
    HAND_OVER = "hand_over"
    TAKE_BACK = "take_back"
    SCALE = "scale"
    THEME = "theme"
    FULL_SCREEN = "full_screen"
    PRINT = "print"
    BUILD = "build"
    RECORD = "record"
    SAID = "said"
    COPY = "copy"
    LENGTH = "length"
    PLACE = "place"
    ITEM_UP = "item_up"
    ITEM_DOWN = "item_down"
    EARLIER = "earlier"
    LATER = "later"
    MUCH_EARLIER = "much_earlier"
    MUCH_LATER = "much_later"
    ONE_MORE = "one_more"
    GRAVE = "grave"
    FACTS = "facts"
    PRESENTER = "presenter"
    NEXT_SCREEN = "next_screen"
    MIRRORED = "mirrored"
    PAUSE = "pause"
    SLOWER = "slower"
    FASTER = "faster"
    STEP = "step"
    STEP_FAR = "step_far"
    JUMP = "jump"
    REPORTS = "reports"
    TRAINER = "trainer"


class Part(StrEnum):
    """The headings under which the help sheet lists keys."""

    LINE = "The line"
    BOARD = "The board"
    AIR = "On the air"
    PRESENTER = "The presenter window"
    REHEARSAL = "The simulated clock"
    TRAINER = "With a trainer"


@dataclass(frozen=True, slots=True)
class Key:
    """One command with its keys, in Qt's portable spelling, and what it does in words."""

    command: Command
    keys: tuple[str, ...]
    words: str
    part: Part


KEYS: tuple[Key, ...] = (
    Key(Command.ENTER, ("Return", "Enter"), "take the line; once more where it asks", Part.LINE),
    Key(Command.CLEAR, ("Esc",), "clear the line; close this; let go of the card", Part.LINE),
    Key(Command.NEXT_READING, ("Tab",), "pick the next reading", Part.LINE),
    Key(Command.LAST_READING, ("Shift+Tab",), "pick the reading before", Part.LINE),
    Key(Command.UNDO, ("Ctrl+Z",), "undo typing; on an empty line, the last entry", Part.LINE),
    Key(Command.REDO, ("Ctrl+Shift+Z", "Ctrl+Y"), "bring back what was undone", Part.LINE),
    Key(Command.CONFIRM_DUE, ("Ctrl+Return", "Ctrl+Enter"), "confirm all that is due", Part.BOARD),
    Key(Command.CARD_UP, ("Up",), "select the card above", Part.BOARD),
    Key(Command.CARD_DOWN, ("Down",), "select the card below", Part.BOARD),
    Key(Command.BACK, ("PgUp",), "scroll back", Part.BOARD),
    Key(Command.AHEAD, ("PgDown",), "scroll ahead", Part.BOARD),
    Key(Command.TO_NOW, ("Ctrl+Home", "Home"), "back to now (Home: on an empty line)", Part.BOARD),
    Key(Command.HELP, ("F1",), "forms, keys, signs, then close", Part.BOARD),
    Key(Command.HELP_BACK, ("Shift+F1",), "one page of that back", Part.BOARD),
    Key(Command.DAY, ("F2",), "the day's entries", Part.BOARD),
    Key(Command.HAND_OVER, ("Shift+F2",), "the handover page, then close", Part.BOARD),
    Key(Command.TAKE_BACK, ("Del",), "there: take back; Enter brings back", Part.BOARD),
    Key(Command.SCALE, ("F3",), "thinned or even scale", Part.BOARD),
    Key(Command.THEME, ("F4",), "dark or light", Part.BOARD),
    Key(Command.FULL_SCREEN, ("F11",), "full screen or window", Part.BOARD),
    Key(Command.BUILD, ("Ctrl+E",), "open the plan in the builder", Part.BOARD),
    Key(Command.PRINT, ("Ctrl+Shift+P",), "print the plan as it stands, to a PDF", Part.BOARD),
    Key(Command.RECORD, ("Ctrl+R",), "the record so far, to a page in a file", Part.BOARD),
    Key(Command.SAID, ("Ctrl+S",), "the sentence shown was said", Part.AIR),
    Key(Command.LENGTH, ("Ctrl+L",), "the sentence at its next length", Part.AIR),
    Key(Command.COPY, ("Ctrl+Shift+C",), "copy the sentence shown, or the handover page", Part.AIR),
    Key(Command.PLACE, ("Ctrl+P",), "place all that is owed; Enter takes it", Part.AIR),
    Key(Command.ITEM_UP, ("Ctrl+Up",), "select the item before in ON AIR", Part.AIR),
    Key(Command.ITEM_DOWN, ("Ctrl+Down",), "select the next item in ON AIR", Part.AIR),
    Key(Command.EARLIER, ("Shift+Up",), "that item 10 s earlier; Enter takes it", Part.AIR),
    Key(Command.LATER, ("Shift+Down",), "that item 10 s later; Enter takes it", Part.AIR),
    Key(Command.MUCH_EARLIER, ("Shift+PgUp",), "that item 1 min earlier", Part.AIR),
    Key(Command.MUCH_LATER, ("Shift+PgDown",), "that item 1 min later", Part.AIR),
    Key(Command.ONE_MORE, ("Ctrl+O",), "one more on the card's check-off", Part.AIR),
    Key(Command.GRAVE, ("Ctrl+G",), "grave, or over; Enter once more", Part.AIR),
    Key(Command.FACTS, ("Ctrl+F",), "the card's next fact on it, then none", Part.PRESENTER),
    Key(Command.PRESENTER, ("F12",), "show or hide it", Part.PRESENTER),
    Key(Command.NEXT_SCREEN, ("Shift+F12",), "on the next screen", Part.PRESENTER),
    Key(Command.MIRRORED, ("Ctrl+M",), "mirrored, for prompter glass; or not", Part.PRESENTER),
    Key(Command.PAUSE, ("F5",), "pause or go on", Part.REHEARSAL),
    Key(Command.SLOWER, ("F6",), "slower", Part.REHEARSAL),
    Key(Command.FASTER, ("F7",), "faster", Part.REHEARSAL),
    Key(Command.STEP, ("F8",), "one second on", Part.REHEARSAL),
    Key(Command.STEP_FAR, ("Shift+F8",), "one minute on", Part.REHEARSAL),
    Key(Command.JUMP, ("F9",), "to a minute before the next event", Part.REHEARSAL),
    Key(Command.REPORTS, ("F10",), "what was reported, then close", Part.TRAINER),
    Key(Command.TRAINER, ("Ctrl+T",), "to the trainer's window, and back", Part.TRAINER),
)

NOT_HELD: frozenset[Command] = frozenset(
    {
        Command.ENTER, Command.UNDO, Command.REDO, Command.CONFIRM_DUE, Command.TAKE_BACK,
        Command.HELP, Command.HELP_BACK, Command.DAY, Command.HAND_OVER,
        Command.SCALE, Command.THEME, Command.FULL_SCREEN, Command.PRINT, Command.BUILD,
        Command.RECORD,
        Command.SAID, Command.COPY, Command.LENGTH, Command.PLACE, Command.ONE_MORE,
        Command.GRAVE, Command.FACTS,
        Command.PRESENTER, Command.NEXT_SCREEN, Command.MIRRORED,
        Command.PAUSE, Command.JUMP, Command.REPORTS, Command.TRAINER,
    }
)  # fmt: skip
"""Commands that a key held down gives only once."""

_BY_KEY: dict[str, Command] = {text: key.command for key in KEYS for text in key.keys}


def command_of(event: QKeyEvent) -> Command | None:
    """Give the command of a key press, whichever side of the keyboard it came from."""
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    key = Qt.Key(event.key())
    if key == Qt.Key.Key_Backtab:
        key, held = Qt.Key.Key_Tab, held | Qt.KeyboardModifier.ShiftModifier
    pressed = QKeySequence(QKeyCombination(held, key))
    return _BY_KEY.get(pressed.toString(QKeySequence.SequenceFormat.PortableText))


def key_text(command: Command) -> str:
    """Give the first key of a command as it is written on the screen, as in 'Ctrl+Enter'."""
    text = next(key.keys[0] for key in KEYS if key.command == command)
    return text.replace("Return", "Enter")


def keys_text(key: Key) -> str:
    """Give all keys of a row as they are written on the screen, each once."""
    texts = dict.fromkeys(text.replace("Return", "Enter") for text in key.keys)
    return ", ".join(texts)
