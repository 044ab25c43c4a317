"""What could stand in a line, offered below it while one types."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QCompleter, QLineEdit

from app.builder.grid import Index

_MOST_OFFERED = 12


class Offer(QCompleter):
    """Offers names for the last part of a line that may hold several."""

    def __init__(self, names: Sequence[str], mark: str, parent: QLineEdit) -> None:
        super().__init__(list(names), parent)
        self._mark = mark
        self.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.setFilterMode(Qt.MatchFlag.MatchContains)
        self.setMaxVisibleItems(_MOST_OFFERED)

    def splitPath(self, path: str) -> list[str]:  # noqa: N802  # Qt calls it
        """What is completed: what stands behind the last comma."""
        return [path.rpartition(self._mark)[2].strip() if self._mark else path]

    def pathFromIndex(self, index: Index) -> str:  # noqa: N802  # Qt calls it
        """The whole line with the name that was picked."""
        picked = str(index.data())
        line = self.widget()
        text = line.text() if self._mark and isinstance(line, QLineEdit) else ""
        before, mark, _ = text.rpartition(self._mark) if self._mark else ("", "", "")
        return f"{before}{mark} {picked}" if mark else picked

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt calls it
        """Tab in the open list takes what is offered, and goes on from the line."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            line, popup = self.widget(), self.popup()
            tab = event.key() in {Qt.Key.Key_Tab, Qt.Key.Key_Backtab}
            if tab and popup is not None and watched is popup and isinstance(line, QLineEdit):
                picked = popup.currentIndex()
                popup.hide()
                self._take(line, picked)
                QApplication.sendEvent(
                    line, QKeyEvent(event.type(), event.key(), event.modifiers())
                )
                return True
        return super().eventFilter(watched, event)

    def _take(self, line: QLineEdit, picked: Index) -> None:
        """Take the picked one, else what stands there if it is a name, else the first offered."""
        model = self.completionModel()
        offered = [str(model.index(row, 0).data()) for row in range(model.rowCount())]
        typed = self.splitPath(line.text())[0].casefold()
        if not picked.isValid() and typed not in {name.casefold() for name in offered}:
            picked = model.index(0, 0)
        if picked.isValid():
            line.setText(self.pathFromIndex(picked))
