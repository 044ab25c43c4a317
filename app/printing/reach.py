"""The pages that are being filled, and how far the last of them is."""

from collections.abc import Callable, Iterable

from app.printing.pieces import Box, Page, Piece

Body = Callable[[int], Box]
"""The room on a page, by its number; the first is 1."""


class Flow:
    """The pages so far, and the height reached on the last of them."""

    def __init__(self, body: Body) -> None:
        self._body = body
        self.pages = [Page()]
        self.y_tw = self.body.top_tw

    @property
    def body(self) -> Box:
        """The room on the page in hand."""
        return self._body(len(self.pages))

    @property
    def is_fresh(self) -> bool:
        """Whether nothing stands on this page yet."""
        return not self.pages[-1].pieces

    @property
    def left_tw(self) -> float:
        """What is left of this page."""
        return self.body.bottom_tw - self.y_tw

    def turn(self) -> None:
        """Begin a new page."""
        self.pages.append(Page())
        self.y_tw = self.body.top_tw

    def need(self, height_tw: float) -> None:
        """Begin a new page if so much has no room, and this one has anything on it."""
        if height_tw > self.left_tw and not self.is_fresh:
            self.turn()

    def put(self, pieces: Iterable[Piece], height_tw: float) -> None:
        """Set down what takes so much of the height."""
        self.pages[-1].pieces += pieces
        self.y_tw += height_tw

    def skip(self, height_tw: float) -> None:
        """Leave some room, except at the top of a page."""
        if not self.is_fresh:
            self.y_tw += height_tw
