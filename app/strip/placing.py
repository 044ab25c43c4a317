"""Where words may stand: placed one after the other, and none runs into another."""

from PySide6.QtCore import QRectF

from app.theme import Theme
from app.words import Words

_APART_PX = 4


class Placing:
    """Takes words the most needed first, and leaves out what has no room."""

    def __init__(self, theme: Theme) -> None:
        self.words: list[Words] = []
        self.taken: list[QRectF] = []
        """The room that is no longer free."""
        self._theme = theme

    def keep(self, *lines: Words) -> bool:
        """Place words that belong together; False where something stands there already."""
        apart_px = self._theme.px(_APART_PX)
        boxes = [words.box(self._theme) for words in lines]
        for box in boxes:
            room = box.adjusted(-apart_px, -apart_px, apart_px, apart_px)
            if any(room.intersects(taken) for taken in self.taken):
                return False
        self.taken.extend(boxes)
        self.words.extend(lines)
        return True
