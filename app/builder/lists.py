"""Rows of plain texts as a model: problems, lines that were read, lines that were not."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, Qt, Signal

from app.builder.grid import Index


@dataclass(frozen=True, slots=True)
class Line:
    """A row of texts. `taken`: whether it is ticked; None where there is nothing to tick."""

    texts: tuple[str, ...]
    taken: bool | None = None
    about: str = ""


class Lines(QAbstractTableModel):
    """Shows lines under headings; the first column may be ticked, and one may be typed into."""

    ticked = Signal()
    typed = Signal(int, str)
    """The row, and what was typed into its last column."""

    def __init__(
        self, headings: Sequence[str], parent: QObject | None = None, *, edited: bool = False
    ) -> None:
        super().__init__(parent)
        self._headings = tuple(headings)
        self._lines: list[Line] = []
        self._edited = edited

    @property
    def lines(self) -> Sequence[Line]:
        """What is shown."""
        return self._lines

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines."""
        if list(lines) != self._lines:
            self.beginResetModel()
            self._lines = list(lines)
            self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # as Qt has it
        """How many lines there are."""
        return 0 if parent.isValid() else len(self._lines)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # as Qt has it
        """How many columns there are."""
        return 0 if parent.isValid() else len(self._headings)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        """The headings."""
        across = orientation == Qt.Orientation.Horizontal
        if role != Qt.ItemDataRole.DisplayRole or not across:
            return None
        return self._headings[section]

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The text of a cell, and whether its line is ticked."""
        if not index.isValid():
            return None
        line = self._lines[index.row()]
        if role in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole}:
            return line.texts[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return line.about or line.texts[index.column()]
        if role == Qt.ItemDataRole.CheckStateRole and index.column() == 0:
            return _state(line.taken)
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """What can be ticked or typed into."""
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        if not index.isValid():
            return flags
        if index.column() == 0 and self._lines[index.row()].taken is not None:
            flags |= Qt.ItemFlag.ItemIsUserCheckable
        if self._edited and index.column() == len(self._headings) - 1:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Take a tick, or what was typed."""
        if role == Qt.ItemDataRole.EditRole:
            self.typed.emit(index.row(), str(value))
            return True
        if role != Qt.ItemDataRole.CheckStateRole:
            return False
        line = self._lines[index.row()]
        taken = Qt.CheckState(value) == Qt.CheckState.Checked
        self._lines[index.row()] = Line(line.texts, taken, line.about)
        self.dataChanged.emit(index, index)
        self.ticked.emit()
        return True


def _state(taken: bool | None) -> Qt.CheckState | None:  # noqa: FBT001
    if taken is None:
        return None
    return Qt.CheckState.Checked if taken else Qt.CheckState.Unchecked
