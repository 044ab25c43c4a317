"""Cards, threads and strip side by side, kept in step: what the window puts in its left part.

The strip comes later than the cards (`add_strip`): loading what draws it would hold up the
first frame.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.desk.cards import Anchor, CardColumn
from app.desk.threads import Thread, Threads
from app.theme import Theme
from core.board.model import Card, View
from core.board.programme import AirBox, AirLane

if TYPE_CHECKING:
    from app.strip.widget import StripView

_CARDS_SHARE = 0.545
_CARDS_BY_AIR_SHARE = 0.51
"""The same where the strip has an ON AIR lane."""
_THREADS_PX = 88


class Timeline(QWidget):
    """The cards, the strip and the threads between them; scrolls and selects for all three."""

    selected = Signal(str)
    """The id of the selected card, '' for none."""
    scrolled = Signal(bool)
    """Whether it stands somewhere else than at now."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._view: View | None = None
        self._ghosts: tuple[tuple[str, int], ...] = ()
        self.strip: StripView | None = None
        self.cards = CardColumn(theme, self)
        self.threads = Threads(theme, self)
        self.cards.selected.connect(self._on_selected)
        self.cards.moved.connect(self._on_moved)

    def add_strip(self) -> None:
        """Load and show the strip; call it once, after the first paint."""
        # Here and not above: loading pyqtgraph takes longer than everything else at the start.
        from app.strip.widget import StripView  # noqa: PLC0415

        self.strip = StripView(self._theme, self)
        self.strip.set_ghosts(self._ghosts)
        self._place()
        self.strip.show()
        self._show_strip()

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.cards.set_theme(theme)
        self.threads.set_theme(theme)
        if self.strip is not None:
            self.strip.set_theme(theme)
        self._place()

    def set_view(self, view: View) -> None:
        """Show another moment."""
        airs = self._airs
        self._view = view
        self.cards.set_view(view)
        if airs != self._airs:
            self._place()
        self._show_strip()

    def set_ghosts(self, ghosts: tuple[tuple[str, int], ...]) -> None:
        """Mark the new instants of what would move, as a preview gives them; () for none."""
        self._ghosts = ghosts
        if self.strip is not None:
            self.strip.set_ghosts(ghosts)

    # ------------------------------------------------------------------ the ON AIR lane

    def air_boxes(self) -> Sequence[AirBox]:
        """The boxes of the lane, in order of time."""
        return self._view.air.boxes if self._view is not None else ()

    def mark_item(self, item: str) -> None:
        """Mark an item as selected; '' for none."""
        if self.strip is not None:
            self.strip.mark_item(item)

    def carry_item(self, item: str, at_ms: int) -> None:
        """Show where an item would begin, until other ghosts are told."""
        if self.strip is not None:
            self.strip.carry_item(item, at_ms)

    def bring_instant(self, at_ms: int) -> None:
        """Scroll so that an instant is on the strip: to the last card before it."""
        if self.strip is None or self._view is None:
            return
        top_px, bottom_px = self.strip.span_px
        if top_px <= self.strip.y_of(at_ms) <= bottom_px:
            return
        self.cards.home()
        if not top_px <= self.strip.y_of(at_ms) <= bottom_px:
            before = [c.id for c in self._view.cards if c.at_ms is not None and c.at_ms <= at_ms]
            self.cards.begin_with(next(iter(before[-1:]), ""))

    # ------------------------------------------------------------------ selecting, scrolling

    @property
    def selected_id(self) -> str:
        """The id of the selected card, '' for none."""
        return self.cards.selected_id

    @property
    def selected_card(self) -> Card | None:
        """The selected card, None where none is."""
        cards = () if self._view is None else self._view.cards
        return next((card for card in cards if card.id == self.selected_id), None)

    @property
    def at_now(self) -> bool:
        """Whether it stands at now, not scrolled."""
        return self.cards.first_card is None

    def select(self, card_id: str) -> None:
        """Select a card and bring it into sight; '' lets go of the selection."""
        self.cards.select(card_id)

    def bring(self, card_id: str) -> None:
        """Bring a card into sight without selecting it; '' leaves all as it is."""
        self.cards.bring(card_id)

    def select_next(self) -> None:
        """Select the card below."""
        self.cards.select_next()

    def select_previous(self) -> None:
        """Select the card above."""
        self.cards.select_previous()

    def page(self, pages: int) -> None:
        """Scroll by so many columns of cards: ahead, or back where negative."""
        self.cards.page(pages)

    def home(self) -> None:
        """Go back to now."""
        self.cards.home()

    def turn_scale(self) -> bool:
        """Change between the thinned and the even scale; True: it is even now."""
        if self.strip is None:
            return False
        self.strip.set_even(even=not self.strip.even)
        self._tie()
        return self.strip.even

    def _on_selected(self, card_id: str) -> None:
        self._tie()
        self.selected.emit(card_id)

    def _on_moved(self) -> None:
        self._show_strip()
        self.scrolled.emit(not self.at_now)

    # ------------------------------------------------------------------ inside

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width."""
        super().resizeEvent(event)
        self._place()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Scroll, wherever over the timeline the mouse is."""
        self.cards.wheelEvent(event)

    @property
    def _airs(self) -> bool:
        """Whether the strip has an ON AIR lane."""
        return self._view is not None and self._view.air != AirLane()

    def _place(self) -> None:
        threads_px = self._theme.px(_THREADS_PX)
        share = _CARDS_BY_AIR_SHARE if self._airs else _CARDS_SHARE
        cards_px = round(self.width() * share)
        strip_left_px = cards_px + threads_px
        self.cards.setGeometry(0, 0, cards_px, self.height())
        self.threads.setGeometry(cards_px, 0, threads_px, self.height())
        if self.strip is not None:
            strip_px = max(1, self.width() - strip_left_px)
            self.strip.setGeometry(strip_left_px, 0, strip_px, self.height())
        self._tie()

    def _show_strip(self) -> None:
        if self._view is None:
            return
        if self.strip is not None:
            first = self.cards.first_card
            if first is None or first.at_ms is None:
                self.strip.set_view(self._view)
            else:
                self.strip.set_view(self._view, first.at_ms, first.clock)
        self._tie()

    def _tie(self) -> None:
        """Draw the threads anew between where cards and instants stand now."""
        if self.strip is None or self._view is None:
            return
        strong = {self.cards.big_id, self.cards.selected_id}
        self.threads.set_threads(
            tuple(self._thread(anchor, anchor.card_id in strong) for anchor in self.cards.anchors())
        )

    def _thread(self, anchor: Anchor, strong: bool) -> Thread:  # noqa: FBT001 - private, read once
        top_px, bottom_px = self.strip.span_px if self.strip is not None else (0.0, 0.0)
        wanted_px = self.strip.y_of(anchor.at_ms) if self.strip is not None else 0.0
        strip_px = min(max(wanted_px, top_px), bottom_px)
        return Thread(anchor.y_px, strip_px, strong, out=strip_px != wanted_px)
