"""The page with the builder's keys."""

from itertools import zip_longest

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLabel, QWidget

from app.builder.keys import KEYS

_TABLES = (
    ("Type, or F2", "edit the cell; what could stand there is offered"),
    ("Enter, Tab", "take it and go down, or on to the right"),
    ("Esc", "leave the cell as it was"),
    ("Space", "set a mark or take it away"),
    ("Del", "empty the cell"),
)


class KeysPage(QLabel):
    """Lists every key; Escape leaves it."""

    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        rows = [*_TABLES, *((", ".join(key.keys), key.words) for key in KEYS)]
        half = (len(rows) + 1) // 2
        beside = (*rows[half:], ("F1, Esc", "close this page"))
        lines = [
            f"<tr><td><b>{a}</b></td><td>{b}</td><td>&nbsp;&nbsp;</td>"
            f"<td><b>{c}</b></td><td>{d}</td></tr>"
            for (a, b), (c, d) in zip_longest(rows[:half], beside, fillvalue=("", ""))
        ]
        self.setText(f"<table cellspacing=6 cellpadding=3>{''.join(lines)}</table>")
        self.setTextFormat(Qt.TextFormat.RichText)
        self.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.setMargin(40)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave by Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
