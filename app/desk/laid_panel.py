"""A panel whose words are placed before they are painted: of it only what changed is painted."""

from abc import abstractmethod

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QRegion, QResizeEvent

from app.desk import ink
from app.desk.ink import Placed
from app.desk.panel import Panel
from app.theme import Theme


class LaidPanel(Panel):
    """A subclass places its words; it calls `lay` when it has others to show."""

    def __init__(self, heading: str, theme: Theme) -> None:
        super().__init__(heading, theme)
        self._words: list[Placed] = []

    @abstractmethod
    def placed(self) -> list[Placed]:
        """Place all that stands below the heading, and what changes beside it."""

    def lay(self) -> None:
        """Place the words, and paint anew what stands otherwise than before."""
        before, self._words = self._words, self.placed()
        self.update(ink.renewed(before, self._words))

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        super().set_theme(theme)
        self.lay()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the words out for another size."""
        super().resizeEvent(event)
        self.lay()
        self.update()

    def paint_part(self, painter: QPainter, room: QRectF, part: QRegion) -> None:
        """Paint the words that reach into a part of the panel."""
        del room
        ink.draw_placed(painter, self._words, part)

    def heading_end_px(self) -> float:
        """Give where words beside the heading may begin."""
        heading = self.heading_runs()
        return self.room().left() + sum(run.width_px + run.after_px for run in heading)
