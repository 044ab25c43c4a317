"""A list of lines as a table without numbers: for problems, and for what was imported."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from app.builder.lists import Lines
from app.theme import Text, Theme

_MEASURED = 200


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
        most = self._theme.px(420)
        for column in range(self.model().columnCount()):
            self.setColumnWidth(column, min(most, self._needs_px(column)))
        self.horizontalHeader().setSectionResizeMode(self._wide, QHeaderView.ResizeMode.Stretch)

    def _needs_px(self, column: int) -> int:
        """The width of a column's words, by its first rows: asking Qt for all takes seconds."""
        model, room_px = self.model(), self._theme.px(20)
        rows = range(min(_MEASURED, model.rowCount()))
        words = [str(model.index(row, column).data() or "") for row in rows]
        words.append(str(model.headerData(column, Qt.Orientation.Horizontal) or ""))
        ticked = rows and model.index(0, column).data(Qt.ItemDataRole.CheckStateRole) is not None
        widest_px = max(self._theme.width_px(Text.SMALL, one) for one in words)
        return round(widest_px) + room_px + (self._theme.px(22) if ticked else 0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Pick a line by Enter; keys of the window are its own."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and not event.modifiers():
            if self.currentIndex().isValid():
                self.picked.emit(self.currentIndex().row())
            return
        super().keyPressEvent(event)
