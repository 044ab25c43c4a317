"""The trainer's line: it always has the keyboard, and hands on the keys that are not typing."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from app.rehearsal.keys import NOT_HELD, ask_of

_LONGEST_CHARS = 400


class TrainerLine(QLineEdit):
    """A line edit in which a new surprise is typed."""

    asked = Signal(object)
    """An Ask."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setMaxLength(_LONGEST_CHARS)
        self.setFrame(False)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        self.setAccessibleName("A new surprise")
        self.setPlaceholderText("Type a surprise to add it: report, signal, outcome, …")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Type, or hand the key on; a key held down gives some only once."""
        ask = ask_of(event)
        edits = bool(self.text()) and event.key() == Qt.Key.Key_Home and not event.modifiers()
        if ask is None or edits:
            super().keyPressEvent(event)
        elif not (event.isAutoRepeat() and ask in NOT_HELD):
            self.asked.emit(ask)

    def focusNextPrevChild(self, next_child: bool) -> bool:  # noqa: FBT001  # Qt's own signature
        """Never let Tab take the keyboard away."""
        del next_child
        return False
