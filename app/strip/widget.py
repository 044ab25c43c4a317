"""The strip as a widget: pyqtgraph's view with one item that paints the whole frame."""

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtGui import QMouseEvent, QPainter, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.strip.air_state import AirState
from app.strip.columns import Columns
from app.strip.frame import Frame, across, scale
from app.strip.hand import Hand
from app.strip.labels import Labels
from app.strip.painting import StripPainter
from app.strip.picture_item import UNIT, PictureItem
from app.strip.scale import Instants
from app.theme import Theme
from app.words import Words
from core.board.model import Strip, View


class StripView(pg.GraphicsView):
    """The signal picture: time runs downward, now is a limb near the top."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent=parent, useOpenGL=False)
        self._theme = theme
        self._source: Strip | None = None
        self._columns = Columns((), (), np.zeros(0, dtype=np.int64))
        self._ghosts: Instants = np.zeros(0, dtype=np.int64)
        self._air = AirState()
        self.hand = Hand(self)
        self._even = False
        self._frame: Frame | None = None
        self._words: tuple[Words, ...] = ()
        self._painter = StripPainter(theme)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setBackground(theme.ink.ground)
        self.setAccessibleName("Signal")
        box = pg.ViewBox(border=None, enableMouse=False, enableMenu=False, defaultPadding=0.0)
        self.setCentralItem(box)
        self._picture = PictureItem(self._paint_frame)
        box.addItem(self._picture, ignoreBounds=True)
        box.setRange(UNIT, padding=0.0, disableAutoRange=True)

    # ------------------------------------------------------------------ what is shown

    @property
    def even(self) -> bool:
        """Whether the scale is the even one."""
        return self._even

    @property
    def frame(self) -> Frame | None:
        """What the strip is drawn from; None before the first view."""
        return self._frame

    @property
    def words(self) -> tuple[Words, ...]:
        """Everything written on it that stands upright."""
        return self._words

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self._painter = StripPainter(theme)
        self.setBackground(theme.ink.ground)
        self._again()

    def set_even(self, *, even: bool) -> None:
        """Show the even scale, or the thinned one."""
        self._even = even
        self._again()

    def set_view(self, view: View, origin_ms: int | None = None, origin_words: str = "") -> bool:
        """Show another moment; `origin_ms` None: it stands at now.

        False where nothing would look different: the frame on the screen is kept.
        """
        at_ms = view.now_ms if origin_ms is None else origin_ms
        words = "" if origin_ms is None else origin_words or "here"
        new_air = self._air.take(view, self._frame.scale if self._frame is not None else None)
        if view.strip is not self._source:
            self._source = view.strip
            self._columns = Columns.of(view.strip)
        elif new_air:
            pass
        elif self._frame is not None and not _moved(self._frame, at_ms, view.now_ms, words):
            return False
        self._show(at_ms, view.now_ms, words)
        return True

    def set_ghosts(self, ghosts: tuple[tuple[str, int], ...]) -> None:
        """Mark instants where events and items would go."""
        held = self._air.held
        ghosts_ms = np.asarray(self._air.take_ghosts(ghosts), dtype=np.int64)
        if held != self._air.held or not np.array_equal(ghosts_ms, self._ghosts):
            self._ghosts = ghosts_ms
            self._again()

    def mark_item(self, item: str) -> None:
        """Mark an item of the ON AIR lane as selected; '' for none."""
        self._air.mark(item)
        self._picture.update()

    def carry_item(self, item: str, at_ms: int) -> None:
        """Show in dashes where an item would begin, until the next ghosts are told."""
        self._air.carry(item, at_ms)
        self._again()

    def y_of(self, at_ms: int) -> float:
        """The height of an instant as it is drawn, in pixels; it may lie beyond the ends."""
        return self._frame.scale.y_of(at_ms) if self._frame is not None else 0.0

    @property
    def span_px(self) -> tuple[float, float]:
        """The heights between which instants are drawn."""
        if self._frame is None:
            return 0.0, 0.0
        return self._frame.scale.top_px, self._frame.scale.bottom_px

    # ------------------------------------------------------------------ inside

    def _again(self) -> None:
        if self._frame is not None:
            frame = self._frame
            self._show(frame.scale.origin_ms, frame.now_ms, frame.origin_words)

    def _show(self, origin_ms: int, now_ms: int, origin_words: str) -> None:
        self._frame = Frame(
            across=across(
                self.width(), len(self._columns.lanes), self._theme, air=bool(self._air.column)
            ),
            scale=scale(self.height(), origin_ms, self._theme, even=self._even),
            now_ms=now_ms,
            origin_words=origin_words,
        )
        air = self._air
        labels = Labels(self._frame, self._columns, self._theme, air.column, air.held)
        self._words = labels.place()
        self._picture.update()

    def _paint_frame(self, painter: QPainter) -> None:
        if self._frame is not None:
            self._painter.paint(
                painter,
                self._frame,
                self._columns,
                self._words,
                self._ghosts,
                self._air.column,
                self._air.held,
            )

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the frame to another size."""
        super().resizeEvent(event)
        # Qt sends the first one before this class is made.
        if getattr(self, "_frame", None) is not None:
            self._again()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave scrolling to the timeline."""
        event.ignore()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of an item of the ON AIR lane."""
        left = event.button() == Qt.MouseButton.LeftButton
        if left and self._frame is not None:
            self.hand.press(event.position(), self._frame, self._air.column, self._theme)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry it along the strip."""
        if self._frame is not None:
            self.hand.move(event.position(), self._frame, self._theme)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put it down."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.hand.release()


def _moved(frame: Frame, origin_ms: int, now_ms: int, words: str) -> bool:
    """Whether the limb or the ground under it has moved by a pixel since the frame was drawn."""
    if frame.origin_words != words:
        return True
    scale_now = frame.scale
    origin_moved_px = scale_now.y_of(origin_ms) - scale_now.origin_px
    limb_moved_px = scale_now.y_of(now_ms) - frame.now_px
    return max(abs(origin_moved_px), abs(limb_moved_px)) >= 1.0
