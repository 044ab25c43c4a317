"""The one item in the strip's view box: it paints the whole frame."""

from collections.abc import Callable

import pyqtgraph as pg
from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyleOptionGraphicsItem, QWidget

UNIT = QRectF(0.0, 0.0, 1.0, 1.0)


class PictureItem(pg.GraphicsObject):
    """Constant bounds, painted in pixels of the window."""

    def __init__(self, paint: Callable[[QPainter], None]) -> None:
        super().__init__()
        self._paint = paint

    def boundingRect(self) -> QRectF:
        """The whole box, whatever is drawn."""
        return UNIT

    def paint(
        self,
        painter: QPainter,
        _option: QStyleOptionGraphicsItem,
        _widget: QWidget | None = None,
    ) -> None:
        """Paint without the box's own mapping: the strip has its own."""
        painter.resetTransform()
        self._paint(painter)
