"""The threads between the cards and the strip."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.theme import Theme

_DOT_PX = 4
_END_PX = 8
"""How far the threads' ends stand from the strip."""


@dataclass(frozen=True, slots=True)
class Thread:
    """From a card's height to the height of its instant on the strip, in pixels.

    `out`: the instant lies beyond the strip's end, and the thread ends there without a dot.
    """

    card_px: float
    strip_px: float
    strong: bool = False
    out: bool = False


class Threads(QWidget):
    """A narrow widget: a curve from each card in sight to its instant on the strip."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._threads: tuple[Thread, ...] = ()
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)  # nothing to paint below it

    @property
    def threads(self) -> tuple[Thread, ...]:
        """What is drawn."""
        return self._threads

    @property
    def end_px(self) -> float:
        """Where across the widget the threads end."""
        return self.width() - self._theme.px(_END_PX)

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.update()

    def set_threads(self, threads: tuple[Thread, ...]) -> None:
        """Draw these; nothing is painted where they are the same as before."""
        if threads != self._threads:
            self._threads = threads
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the threads, the strong ones on top."""
        with QPainter(self) as painter:  # ended even where painting fails
            painter.fillRect(event.rect(), self._theme.ink.ground)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            for thread in sorted(self._threads, key=lambda thread: thread.strong):
                self._paint(painter, thread)

    def _paint(self, painter: QPainter, thread: Thread) -> None:
        theme = self._theme
        colour = theme.ink.limb if thread.strong else theme.ink.thread
        end = QPointF(self.end_px, thread.strip_px)
        middle_px = self.end_px / 2
        # On the middle of a row of pixels: a thin level line is not smeared over two of them.
        card_px = round(thread.card_px) + 0.5
        path = QPainterPath(QPointF(0, card_px))
        path.cubicTo(QPointF(middle_px, card_px), QPointF(middle_px, end.y()), end)
        painter.setPen(QPen(colour, theme.px(2.4 if thread.strong else 1.3)))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
        if not thread.out:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(colour)
            painter.drawEllipse(end, theme.px(_DOT_PX), theme.px(_DOT_PX))
