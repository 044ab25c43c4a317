"""The line in a cell while one types: what could stand there offered, what is typed told."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QPainter, QPen
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.builder.dress import dress_offer
from app.builder.grid import CELL_ROLE, FAULT_ROLE, MARK, Index
from app.builder.offer import Offer
from app.theme import Text, Theme
from core.plan.drafting.columns import Cell, Kind

_SEPARATE = {Kind.SEVERAL: ",", Kind.TIES: ";"}
_BEGUN = "begun"


class CellEditor(QStyledItemDelegate):
    """Makes the line of a cell, and paints a frame and a diamond where something is wrong."""

    typing = Signal(object, str)
    """A Cell, and what stands in its line so far."""
    left = Signal()
    """The line is closed, whether it was taken or not."""
    lines_pasted = Signal(str)
    """Many lines were pasted into one cell."""

    def __init__(
        self, theme: Theme, offered: Callable[[Cell], Sequence[str]], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._theme = theme
        self._offered = offered
        self.entered = False
        """Whether the line was closed by Enter: the next one is the cell below."""
        self.closeEditor.connect(lambda *_: self.left.emit())

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """The line, with what could stand there."""
        del option
        line = QLineEdit(parent)
        line.setFrame(False)
        cell = index.data(CELL_ROLE)
        if not isinstance(cell, Cell):
            return line
        line.setPlaceholderText(cell.column.like)
        line.setAccessibleName(cell.column.heading)
        offered = self._offered(cell)
        if offered:
            line.setCompleter(Offer(offered, _SEPARATE.get(cell.column.kind, ""), line))
            dress_offer(line, self._theme)
        line.textChanged.connect(lambda text: self.typing.emit(cell, text))
        return line

    def setEditorData(self, editor: QWidget, index: Index) -> None:  # noqa: N802  # Qt calls it
        """Begin with what stands there; what is being typed is never written over."""
        if not editor.property(_BEGUN):
            super().setEditorData(editor, index)
            editor.setProperty(_BEGUN, True)  # noqa: FBT003  # a value, not a switch

    def updateEditorGeometry(  # noqa: N802  # Qt calls it
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        """Let the line be wide enough for what one types, whatever the column is."""
        del index
        rect = option.rect
        rect.setWidth(max(rect.width(), self._theme.px(260)))
        editor.setGeometry(rect)

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt calls it
        """See how the line is closed, and whether many lines are pasted into it."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            self.entered = event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}
            text = QApplication.clipboard().text()
            if event.matches(QKeySequence.StandardKey.Paste) and "\n" in text.strip():
                self.lines_pasted.emit(text)
                return True
        return super().eventFilter(editor, event)

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """A row is a line of text with some air, and a cell is as wide as its words."""
        size = super().sizeHint(option, index)
        return QSize(size.width() + self._theme.px(12), self._theme.px(30))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """The cell, framed where one stands; with a diamond where something is wrong with it."""
        super().paint(painter, option, index)
        wrong = bool(index.data(FAULT_ROLE))
        current = bool(option.state & QStyle.StateFlag.State_Selected)
        if not wrong and not current:
            return
        painter.save()
        rect = option.rect.adjusted(1, 1, -1, -1)
        ink = self._theme.ink
        painter.setPen(QPen(ink.clash if wrong else ink.outline, 2.5 if current else 1.5))
        painter.drawRect(rect)
        if not wrong:
            painter.restore()
            return
        painter.setFont(self._theme.font(Text.SMALL))
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(rect.adjusted(0, 0, -self._theme.px(4), 0), right, MARK)
        painter.restore()
