"""A table of the builder: edited in place by keys alone."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemDelegate, QAbstractItemView, QTableView, QWidget

from app.builder.cell_editor import CellEditor
from app.builder.grid import Grid, Index
from app.theme import Text, Theme
from core.plan.drafting.columns import Kind
from core.plan.positions import Trail

_NARROWEST_PX, _WIDEST_PX, _FIRST_PX = 56, 172, 236
"""Of a column; the first one holds the names."""
_MEASURED = 60
_MARKS = {"y": "yes", "x": "yes", "n": "no"}


class Table(QTableView):
    """Shows a grid; typing edits, Enter goes down, Tab goes on, Del empties a cell."""

    stood = Signal()
    """Another cell is the current one."""

    def __init__(self, theme: Theme, editor: CellEditor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._editor = editor
        editor.setParent(self)
        self.setItemDelegate(editor)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.DoubleClicked
        )
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setWordWrap(False)
        self.setCornerButtonEnabled(False)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self._editor.set_theme(theme)
        self.verticalHeader().setDefaultSectionSize(theme.px(30))
        self.verticalHeader().setMinimumSectionSize(theme.px(20))

    @property
    def grid(self) -> Grid | None:
        """What it shows."""
        model = self.model()
        return model if isinstance(model, Grid) else None

    def show_grid(self, grid: Grid) -> None:
        """Show another section, its first cell current, each column as wide as it needs."""
        self.setModel(grid)
        self.fit()
        if grid.rowCount():
            self.setCurrentIndex(grid.index(0, 0))

    def fit(self) -> None:
        """Make each column as wide as its words, within limits."""
        if self.grid is not None and self.grid.section is None:
            self.horizontalHeader().setStretchLastSection(True)
            return
        self.horizontalHeader().setStretchLastSection(False)
        narrow, wide = self._theme.px(_NARROWEST_PX), self._theme.px(_WIDEST_PX)
        for column in range(self.grid.columnCount() if self.grid is not None else 0):
            most = wide if column else self._theme.px(_FIRST_PX)
            self.setColumnWidth(column, min(most, max(narrow, self._needs_px(column))))

    def _needs_px(self, column: int) -> int:
        """The width of a column's words, by its first rows: asking Qt for all takes seconds."""
        grid = self.grid
        if grid is None:
            return 0
        rows = range(min(_MEASURED, grid.rowCount()))
        words = [str(grid.index(row, column).data() or "") for row in rows]
        words.append(str(grid.headerData(column, Qt.Orientation.Horizontal) or ""))
        widest_px = max(self._theme.width_px(Text.SMALL, one) for one in words)
        return round(widest_px) + self._theme.px(14)

    @property
    def row(self) -> Trail:
        """The trail of the current row; () where there is none."""
        grid = self.grid
        return grid.trail_of(self.currentIndex().row()) if grid is not None else ()

    def settle(self) -> None:
        """Take what is being typed, as leaving the cell would."""
        if self.state() == QAbstractItemView.State.EditingState:
            self.setFocus()

    def stand(self, trail: Trail, key: str = "") -> bool:
        """Make a cell the current one and show it; False where it is not here."""
        grid = self.grid
        index = grid.index_of(trail, key) if grid is not None else QModelIndex()
        if index.isValid():
            self.setCurrentIndex(index)
            self.scrollTo(index)
        return index.isValid()

    def currentChanged(self, current: Index, previous: Index) -> None:  # noqa: N802  # Qt calls it
        """Tell that another cell is current."""
        super().currentChanged(current, previous)
        self.stood.emit()

    def closeEditor(  # noqa: N802  # Qt calls it
        self, editor: QWidget, hint: QAbstractItemDelegate.EndEditHint
    ) -> None:
        """After Enter go one down; Tab has gone on by itself, into the next cell's line."""
        entered, self._editor.entered = self._editor.entered, False
        super().closeEditor(editor, hint)
        if entered:
            self._go(1)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys that do something to a cell without a line."""
        held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        plain = held == Qt.KeyboardModifier.NoModifier
        if self.state() == QAbstractItemView.State.EditingState:
            event.accept()  # the line in the cell has had it already
        elif plain and event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self._edit_or_go()
        elif plain and event.key() in {Qt.Key.Key_Delete, Qt.Key.Key_Backspace}:
            self._type("")
        elif plain and self._is_flag() and event.text().lower() in _MARKS:
            self._type(_MARKS[event.text().lower()])
        elif held & Qt.KeyboardModifier.ControlModifier and event.text():
            event.ignore()  # a key of the window, not something to type
        else:
            super().keyPressEvent(event)

    def _edit_or_go(self) -> None:
        index = self.currentIndex()
        if index.isValid() and index.flags() & Qt.ItemFlag.ItemIsEditable:
            self.edit(index)
        else:
            self._go(1)

    def _is_flag(self) -> bool:
        cell = self.grid.cell_at(self.currentIndex()) if self.grid is not None else None
        return cell is not None and cell.column.kind is Kind.FLAG

    def type_here(self, text: str) -> None:
        """Take a text into the current cell as if it were typed."""
        self._type(text)

    def _type(self, text: str) -> None:
        cell = self.grid.cell_at(self.currentIndex()) if self.grid is not None else None
        if cell is not None and self.grid is not None:
            self.grid.type_into(cell, text)

    def _go(self, rows: int) -> None:
        index = self.currentIndex()
        there = index.siblingAtRow(index.row() + rows)
        if there.isValid():
            self.selectionModel().setCurrentIndex(
                there, QItemSelectionModel.SelectionFlag.ClearAndSelect
            )
