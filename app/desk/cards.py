"""The column of cards."""

from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.theme import Theme
from core.board.model import View


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a card's thread begins: the card, its instant, and the height in the column."""

    card_id: str
    at_ms: int
    y_px: int


class CardColumn(QWidget):
    """All cards in sight, painted by one widget."""

    selected = Signal(str)
    """The id of the selected card, '' for none."""
    moved = Signal()
    """The cards in sight are others than before."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme

    def set_view(self, view: View) -> None:
        """Show another moment."""
        raise NotImplementedError

    def anchors(self) -> tuple[Anchor, ...]:
        """Where the threads of the cards in sight begin, from top to bottom."""
        raise NotImplementedError
