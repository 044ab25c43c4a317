"""Cards, threads and strip side by side, kept in step: what the window puts in its left half.

The strip comes later than the cards (`add_strip`): loading what draws it would hold up the
first frame.
"""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.desk.cards import CardColumn
from app.theme import Theme
from core.board.model import View


class Timeline(QWidget):
    """The cards, the strip and the threads between them; scrolls and selects for all three."""

    selected = Signal(str)
    """The id of the selected card, '' for none."""
    scrolled = Signal(bool)
    """Whether it stands somewhere else than at now."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.cards = CardColumn(theme, self)

    def add_strip(self) -> None:
        """Load and show the strip and the threads; call it once, after the first paint."""
        raise NotImplementedError

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        raise NotImplementedError

    def set_view(self, view: View) -> None:
        """Show another moment."""
        raise NotImplementedError

    def set_ghosts(self, ghosts: tuple[tuple[str, int], ...]) -> None:
        """Mark the new instants of what would move, as a preview gives them; () for none."""
        raise NotImplementedError

    @property
    def selected_id(self) -> str:
        """The id of the selected card, '' for none."""
        raise NotImplementedError

    def select(self, card_id: str) -> None:
        """Select a card and bring it into sight; '' lets go of the selection."""
        raise NotImplementedError

    def select_next(self) -> None:
        """Select the card below."""
        raise NotImplementedError

    def select_previous(self) -> None:
        """Select the card above."""
        raise NotImplementedError

    def page(self, pages: int) -> None:
        """Scroll by so many columns of cards: ahead, or back where negative."""
        raise NotImplementedError

    def home(self) -> None:
        """Go back to now."""
        raise NotImplementedError

    def turn_scale(self) -> bool:
        """Change between the thinned and the even scale; True: it is even now."""
        raise NotImplementedError
