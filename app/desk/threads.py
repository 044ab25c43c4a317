"""The threads between the cards and the strip."""

from PySide6.QtWidgets import QWidget

from app.theme import Theme


class Threads(QWidget):
    """A narrow widget: a curve from each card in sight to its instant on the strip."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
