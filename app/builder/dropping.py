"""A window that files and texts can be dropped on."""

from pathlib import Path

from PySide6.QtCore import QMimeData, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget


class Dropping(QWidget):
    """Says what was dropped on it: the first file, else the text."""

    file_dropped = Signal(object)
    """A path."""
    text_dropped = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files and text."""
        if event.mimeData().hasUrls() or event.mimeData().hasText():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Say what it is once whoever dropped it has been answered."""
        path, text = _file_of(event.mimeData()), event.mimeData().text()
        event.acceptProposedAction()
        if path is not None:
            QTimer.singleShot(0, self, lambda: self.file_dropped.emit(path))
        elif event.mimeData().hasText():
            self.text_dropped.emit(text)


def _file_of(what: QMimeData) -> Path | None:
    return next((Path(url.toLocalFile()) for url in what.urls() if url.isLocalFile()), None)
