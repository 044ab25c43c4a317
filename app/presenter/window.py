"""The presenter window: paints its page, mirrored where it stands before prompter glass."""

from PySide6.QtCore import QEvent, QRectF, Qt, Signal
from PySide6.QtGui import (
    QCloseEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QRegion,
    QResizeEvent,
    QScreen,
    QTransform,
)
from PySide6.QtWidgets import QWidget

from app.presenter.frame import paint_ground, within
from app.presenter.page import Page, lay_page
from app.theme import DARK, Palette, Theme
from app.words import paint_words, renewed_words
from core.board.model import RehearsalBadge
from core.board.programme import PresenterView

_LEAST_PX = (640, 360)
_PLAIN_PX = (1280, 720)
_PLAIN_SHARE = 0.92
"""An ordinary window takes no more of its screen."""
_RULE = 1.4


class PresenterWindow(QWidget):
    """A window of its own that never takes the keyboard from the desk, and shows no cursor."""

    closed = Signal()
    """Somebody has closed it as windows are closed; it is hidden and may be shown again."""
    woken = Signal()
    """The system has given it the keyboard all the same: whoever has it by right may take it."""

    def __init__(self, palette: Palette = DARK) -> None:
        super().__init__(None, Qt.WindowType.Window | Qt.WindowType.WindowDoesNotAcceptFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
        self.setAttribute(Qt.WidgetAttribute.WA_QuitOnClose, on=False)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setCursor(Qt.CursorShape.BlankCursor)
        self.setWindowTitle("Presenter: Limbwatch")
        self.setAccessibleName("Presenter window")
        self.setMinimumSize(*_LEAST_PX)
        self._palette = palette
        self._view: PresenterView | None = None
        self._badge: RehearsalBadge | None = None
        self._mirrored = False
        self._page: Page | None = None

    @property
    def mirrored(self) -> bool:
        """Whether left and right are changed over."""
        return self._mirrored

    def mirror(self, *, on: bool) -> None:
        """Change left and right over, or not."""
        self._mirrored = on
        self.update()

    def show_view(self, view: PresenterView | None, badge: RehearsalBadge | None) -> None:
        """Show another moment, painting only what has changed; nothing where there is no view."""
        if (view, badge) == (self._view, self._badge):
            return
        framed = badge != self._badge
        before = self.page() if self.isVisible() else Page()
        self._view, self._badge, self._page = view, badge, None
        if not self.isVisible():
            return
        page = self.page()
        if framed or page.rules != before.rules:
            self.update()
        else:
            self.update(self._turned(renewed_words(before.words, page.words, self.theme)))

    def show_full(self, screen: QScreen) -> None:
        """Cover a screen."""
        self._begin_anew(screen)
        self.setGeometry(screen.geometry())
        self.setWindowState(Qt.WindowState.WindowFullScreen)
        self.show()  # Qt's own 'showFullScreen' would take the keyboard too

    def show_plain(self, screen: QScreen | None) -> None:
        """Be an ordinary window that can be moved and resized, on a screen if one is given."""
        if self.isVisible() and not self.isFullScreen():
            return
        self._begin_anew(screen)
        if screen is not None:
            room = screen.availableGeometry()
            # Its frame and title need room as well: they come only with the window.
            wide_px, high_px = room.width() * _PLAIN_SHARE, room.height() * _PLAIN_SHARE
            self.resize(min(_PLAIN_PX[0], int(wide_px)), min(_PLAIN_PX[1], int(high_px)))
            self.move(room.topLeft())
        self.show()

    def _begin_anew(self, screen: QScreen | None) -> None:
        """Be to the system a window never seen: else it keeps the size and the screen it had."""
        self.hide()
        self.destroy()
        self.setWindowState(Qt.WindowState.WindowNoState)
        if screen is not None:
            self.setScreen(screen)

    @property
    def theme(self) -> Theme:
        """Colours, and sizes for the present size."""
        return Theme.for_presenter(self._palette, self.width(), self.height())

    def page(self) -> Page:
        """What is on it now, with its places."""
        if self._page is None:
            self._page = self._laid()
        return self._page

    def _laid(self) -> Page:
        if self._view is None:
            return Page()
        theme = self.theme
        return lay_page(self._view, within(QRectF(self.rect()), self._badge, theme), theme)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay everything out for the new size."""
        del event
        self._page = None
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground and the page."""
        with QPainter(self) as painter:  # ended even where painting fails
            painter.setTransform(self._turn())
            self._paint(painter, self._turned(event.region()))

    def _turn(self) -> QTransform:
        """From the page to the window: left and right changed over, or not."""
        return QTransform(-1, 0, 0, 1, self.width(), 0) if self._mirrored else QTransform()

    def _turned(self, part: QRegion) -> QRegion:
        """A part of the page on the window, and of the window on the page."""
        return self._turn().map(part)

    def _paint(self, painter: QPainter, part: QRegion) -> None:
        theme = self.theme
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_ground(painter, QRectF(self.rect()), self._badge, theme)
        page = self.page()
        painter.setPen(QPen(theme.ink.thread, max(1.0, _RULE * theme.scale)))
        painter.drawLines(page.rules)
        paint_words(painter, page.words, theme, part)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let keys go to nothing: those of the desk belong to the desk window."""
        event.accept()

    def changeEvent(self, event: QEvent) -> None:
        """Tell where a keyboard comes that was not asked for."""
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.woken.emit()
        super().changeEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Only hide, and say so."""
        event.accept()
        self.closed.emit()
