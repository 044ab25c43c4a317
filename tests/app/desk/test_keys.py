import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

from app.desk.keys import KEYS, Command, Key, command_of, key_text

pytestmark = pytest.mark.usefixtures("qapp")

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
KEYPAD = Qt.KeyboardModifier.KeypadModifier
NONE = Qt.KeyboardModifier.NoModifier


def _press(key: Qt.Key, held: Qt.KeyboardModifier = NONE) -> QKeyEvent:
    return QKeyEvent(QEvent.Type.KeyPress, key, held)


@pytest.mark.parametrize("key", KEYS, ids=lambda key: key.command)
def test_every_key_of_the_table_is_known_to_qt_as_it_is_spelt(key: Key) -> None:
    for text in key.keys:
        assert QKeySequence(text).toString(QKeySequence.SequenceFormat.PortableText) == text


def test_every_command_has_a_key_and_no_key_has_two_commands() -> None:
    assert {key.command for key in KEYS} == set(Command)
    spelt = [text for key in KEYS for text in key.keys]
    assert len(spelt) == len(set(spelt))


@pytest.mark.parametrize(
    ("key", "held", "command"),
    [
        (Qt.Key.Key_Return, NONE, Command.ENTER),
        (Qt.Key.Key_Enter, KEYPAD, Command.ENTER),
        (Qt.Key.Key_Return, CTRL, Command.CONFIRM_DUE),
        (Qt.Key.Key_Enter, CTRL | KEYPAD, Command.CONFIRM_DUE),
        (Qt.Key.Key_Tab, NONE, Command.NEXT_READING),
        (Qt.Key.Key_Backtab, SHIFT, Command.LAST_READING),
        (Qt.Key.Key_Z, CTRL, Command.UNDO),
        (Qt.Key.Key_Z, CTRL | SHIFT, Command.REDO),
        (Qt.Key.Key_Home, NONE, Command.TO_NOW),
        (Qt.Key.Key_F8, SHIFT, Command.STEP_FAR),
        (Qt.Key.Key_Up, KEYPAD, Command.CARD_UP),
    ],
)
def test_a_key_press_finds_its_command(
    key: Qt.Key, held: Qt.KeyboardModifier, command: Command
) -> None:
    assert command_of(_press(key, held)) is command


@pytest.mark.parametrize("key", [Qt.Key.Key_A, Qt.Key.Key_1, Qt.Key.Key_Left, Qt.Key.Key_End])
def test_what_is_typed_is_no_command(key: Qt.Key) -> None:
    assert command_of(_press(key)) is None


def test_the_screen_says_enter_where_qt_says_return() -> None:
    assert key_text(Command.CONFIRM_DUE) == "Ctrl+Enter"
