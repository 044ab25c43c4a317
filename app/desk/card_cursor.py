"""Which card is selected, and which the column is scrolled to: both stay by their ids."""

from collections.abc import Sequence

from core.board.model import Card, View


class Cursor:
    """Two places in the row of cards. None: no card is selected; the column stands at now."""

    def __init__(self) -> None:
        self.chosen: int | None = None
        self.chosen_id = ""
        self.first: int | None = None
        self._first_id = ""
        self._view: View | None = None

    def take(self, view: View) -> None:
        """Find both cards again in another view; one that is gone is let go."""
        self._view = view
        if self.chosen is not None:
            self.chosen = near(view.cards, self.chosen_id, self.chosen)
            self.chosen_id = "" if self.chosen is None else self.chosen_id
        if self.first is not None:
            self.scroll_to(near(view.cards, self._first_id, self.first))

    def choose(self, index: int | None) -> None:
        """Select a card."""
        self.chosen = index
        self.chosen_id = self._id(index)

    def choose_by_id(self, card_id: str) -> None:
        """Select a card by its id; '' or one that is not there lets go."""
        found = None
        if self._view is not None and card_id:
            found = near(self._view.cards, card_id, self._view.next_index)
        self.choose(found)

    def step(self, by: int, in_sight: Sequence[int]) -> None:
        """Select the card so many further on; from nothing, the first or the last in sight."""
        if self._view is None or not self._view.cards:
            return
        if self.chosen is not None:
            self.choose(min(max(self.chosen + by, 0), len(self._view.cards) - 1))
        elif in_sight:
            self.choose(in_sight[0] if by > 0 else in_sight[-1])

    def scroll_to(self, index: int | None) -> None:
        """Let the column begin at a card; at the next one to come it stands at now."""
        if self._view is None or not self._view.cards or index is None:
            self.first = None
        else:
            index = min(max(index, 0), len(self._view.cards) - 1)
            self.first = None if index == self._view.next_index else index
        self._first_id = self._id(self.first)

    def begin_with(self, card_id: str) -> None:
        """Scroll to a card by its id; one that is not there leaves all as it is."""
        if self._view is not None:
            index = near(self._view.cards, card_id, self._view.next_index)
            self.first = self.first if index is None else index
            self.scroll_to(self.first)

    def scroll_by(self, cards: int) -> None:
        """Scroll by so many cards."""
        if self._view is not None:
            first = self._view.next_index if self.first is None else self.first
            self.scroll_to(first + cards)

    def follow(self, in_sight: Sequence[int]) -> bool:
        """Scroll so that the selected card comes into sight; False where it is already."""
        return self.chosen is not None and self._scrolls_to(self.chosen, in_sight)

    def bring(self, card_id: str, in_sight: Sequence[int]) -> bool:
        """Scroll so that a card comes into sight, selected or not; False where it is already."""
        if self._view is None:
            return False
        index = near(self._view.cards, card_id, self._view.next_index)
        return index is not None and self._scrolls_to(index, in_sight)

    def _scrolls_to(self, index: int, in_sight: Sequence[int]) -> bool:
        if self._view is None or index in in_sight:
            return False
        first = self._view.next_index if self.first is None else self.first
        if in_sight and index > in_sight[-1] and first < index:
            # As far as it takes for the card to be about the last one in sight.
            self.scroll_to(min(index, max(first + 1, index - len(in_sight) + 2)))
        else:
            self.scroll_to(index)
        return True

    def _id(self, index: int | None) -> str:
        return "" if self._view is None or index is None else self._view.cards[index].id


def near(cards: Sequence[Card], card_id: str, hint: int) -> int | None:
    """The index of a card, looked for outwards from `hint`: cards are made when asked for."""
    for step in range(max(hint, len(cards) - hint) + 1):
        for index in {hint - step, hint + step}:
            if 0 <= index < len(cards) and cards[index].id == card_id:
                return index
    return None
