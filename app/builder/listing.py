"""A list of lines as a table without numbers: for problems, and for what was imported."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from app.builder.lists import Lines
from app.theme import Theme


class Listing(QTableView):
    """Shows lines; Enter picks one."""

    picked = Signal(int)

    def __init__(
        self, theme: Theme, lines: Lines, wide: int, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._theme = theme
        self._wide = wide
        self.setModel(lines)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.doubleClicked.connect(lambda index: self.picked.emit(index.row()))
        lines.modelReset.connect(self.fit)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Draw in other sizes."""
        self._theme = theme
        self.verticalHeader().setDefaultSectionSize(theme.px(26))
        self.verticalHeader().setMinimumSectionSize(theme.px(18))
        self.fit()

    def fit(self) -> None:
        """Make columns as wide as their words; one takes what is left."""
        self.resizeColumnsToContents()
        most = self._theme.px(420)
        for column in range(self.model().columnCount()):
            self.setColumnWidth(column, min(most, self.columnWidth(column) + self._theme.px(10)))
        self.horizontalHeader().setSectionResizeMode(self._wide, QHeaderView.ResizeMode.Stretch)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Pick a line by Enter; keys of the window are its own."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and not event.modifiers():
            if self.currentIndex().isValid():
                self.picked.emit(self.currentIndex().row())
            return
        super().keyPressEvent(event)
