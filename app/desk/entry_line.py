"""The line one types in: it always has the keyboard, and hands on the keys that are not typing."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from app.desk.keys import NOT_HELD, Command, command_of

_LONGEST_CHARS = 400


class EntryLine(QLineEdit):
    """A line edit that knows which keys belong to the text and which to the board."""

    commanded = Signal(object)
    """A Command."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setMaxLength(_LONGEST_CHARS)
        self.setFrame(False)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)  # no box over a countdown
        self.setAccessibleName("Entry bar")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Type, or hand the key on as a command; a key held down gives some only once."""
        command = command_of(event)
        if command is Command.UNDO and self.text():
            self.undo()
        elif command is Command.REDO and (self.text() or self.isRedoAvailable()):
            self.redo()
        elif command is None or (self.text() and _edits(event)):
            super().keyPressEvent(event)
        elif not (event.isAutoRepeat() and command in NOT_HELD):
            self.commanded.emit(command)

    def focusNextPrevChild(self, next_child: bool) -> bool:  # noqa: FBT001  # Qt's own signature
        """Never let Tab take the keyboard away."""
        del next_child
        return False

    def put(self, text: str) -> None:
        """Write a line in place of what stands there; undoing it brings that back."""
        self.selectAll()
        self.insert(text)

    def forget(self) -> None:
        """Empty the line together with what could be undone in it."""
        self.setText("")


def _edits(event: QKeyEvent) -> bool:
    """Tell whether a key edits the text, as long as there is some."""
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    plain = held == Qt.KeyboardModifier.NoModifier
    return plain and event.key() in (Qt.Key.Key_Home, Qt.Key.Key_Delete)
