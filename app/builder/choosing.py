"""A cell that takes one of a few words: the list of them opens, by keys alone."""

from collections.abc import Sequence

from PySide6.QtCore import QAbstractItemModel, QObject, Qt, QTimer
from PySide6.QtWidgets import QComboBox, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from app.builder.grid import Index


class Choosing(QStyledItemDelegate):
    """Makes the list of a cell; what is picked is taken at once, Escape leaves it as it was."""

    def __init__(self, words: Sequence[str], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._words = [str(word) for word in words]

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """The list, open."""
        del option, index
        box = QComboBox(parent)
        box.addItems(self._words)
        box.activated.connect(lambda: self._take(box))
        QTimer.singleShot(0, box, box.showPopup)
        return box

    def _take(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)

    def setEditorData(self, editor: QWidget, index: Index) -> None:  # noqa: N802  # Qt calls it
        """Begin with the word that stands there."""
        if isinstance(editor, QComboBox):
            editor.setCurrentText(str(index.data(Qt.ItemDataRole.EditRole)))

    def setModelData(  # noqa: N802  # Qt calls it
        self, editor: QWidget, model: QAbstractItemModel, index: Index
    ) -> None:
        """Give the word that was picked."""
        if isinstance(editor, QComboBox):
            model.setData(index, editor.currentText())
