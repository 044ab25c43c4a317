"""The trainer's window: puts its parts together, and hands on what the keys ask for."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QCloseEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.frame import RehearsalFrame
from app.desk.header import HeaderLine
from app.rehearsal.bar import TrainerBar
from app.rehearsal.below import Below
from app.rehearsal.keys import KEYS, Ask
from app.rehearsal.panels import KeysPanel, ScoreSoFar
from app.rehearsal.timeline import TimelinePanel
from app.theme import DARK, LIGHT, Palette, Theme
from core.board.model import Said, View
from core.rehearsal.choosing import Next
from core.rehearsal.rows import Row
from core.rehearsal.showing import TrainerView

_LEAST_PX = (1024, 600)
_MARGIN = 30
_HEADER = 62
_GAP = 12
_SIDE = 430
_BELOW = 186
_KEYS = 46 + 25 * len(KEYS)
_PAGE = 10


class TrainerWindow(QWidget):
    """What only the trainer sees. It computes nothing: the rehearsal does."""

    asked = Signal(object)
    """An Ask that is not about this window alone."""
    typed = Signal(str)
    """The line has become another."""
    moved = Signal()
    """Another row is selected, or none."""
    closing = Signal()
    """The window is asked to close."""
    closed = Signal()

    def __init__(self, palette: Palette = DARK) -> None:
        super().__init__()
        self._palette = palette
        theme = Theme.for_window(palette, self.width(), self.height())
        self._theme = theme
        self.may_close = True
        """Whether the window closes when it is asked to; set by whoever listens to `closing`."""
        self.frame = RehearsalFrame(theme, self)
        self.header = HeaderLine(theme, self)
        self.timeline = TimelinePanel(theme)
        self.below = Below(theme)
        self.score = ScoreSoFar(theme)
        self.keys = KeysPanel(theme)
        self.bar = TrainerBar(theme, self)
        for panel in (self.timeline, self.below, self.score, self.keys):
            panel.setParent(self)
        self.bar.line.asked.connect(self._take)
        self.bar.line.textChanged.connect(self._retyped)
        self.setMinimumSize(*_LEAST_PX)

    @property
    def selected(self) -> Row | None:
        """The selected row."""
        return self.timeline.selected

    def show_trainer(self, view: TrainerView, board: View) -> None:
        """Show another moment in every part."""
        self.header.show_header(board.header, "")
        framed = self.frame.show_badge(board.rehearsal)
        self.timeline.show_trainer(view, board.header.clock)
        self.below.show_row(self.selected)
        self.score.show_score(view.score, view.attempt)
        title = f"Trainer, {view.title}: rehearsal, Limbwatch"
        if title != self.windowTitle():
            self.setWindowTitle(title)
        if framed:
            self._lay_out()

    def show_next(self, found: Next | None) -> None:
        """Show what may be typed next; None while nothing is."""
        self.below.show_next(found)

    def say(self, said: Said) -> None:
        """Show an answer beside the line."""
        self.bar.say(said)

    def let_go(self) -> None:
        """Select nothing, type nothing."""
        self.bar.line.setText("")
        self.timeline.select("")
        self.below.show_row(None)

    def _take(self, ask: Ask) -> None:
        """Carry out what is about this window alone, hand on the rest."""
        match ask:
            case Ask.UP | Ask.DOWN:
                self._move(-1 if ask is Ask.UP else 1)
            case Ask.PAGE_UP | Ask.PAGE_DOWN:
                self._select_by(-_PAGE if ask is Ask.PAGE_UP else _PAGE)
            case Ask.TO_NOW:
                self.timeline.select("")
                self._select_by(0)
            case Ask.THEME:
                self._palette = LIGHT if self._palette.dark else DARK
                self._set_theme()
            case Ask.FULL_SCREEN:
                self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)
            case _:
                self.asked.emit(ask)

    def _move(self, by: int) -> None:
        if self.bar.line.text():
            self.below.choose_by(by)
        else:
            self._select_by(by)

    def _select_by(self, by: int) -> None:
        if by:
            self.timeline.select_by(by)
        self.below.show_row(self.selected)
        self.say(Said(""))
        self.moved.emit()

    def _retyped(self, text: str) -> None:
        self.say(Said(""))
        self.typed.emit(text)

    def _set_theme(self) -> None:
        theme = Theme.for_window(self._palette, self.width(), self.height())
        self._theme = theme
        self.setPalette(theme.qt_palette())
        parts = (self.frame, self.header, self.timeline, self.below, self.score, self.keys)
        for part in (*parts, self.bar):
            part.set_theme(theme)
        self._lay_out()

    def _lay_out(self) -> None:
        theme = self._theme
        self.frame.setGeometry(self.rect())
        inner = self.rect().marginsRemoved(self.frame.margins())
        margin, gap, bar_px = theme.px(_MARGIN), theme.px(_GAP), self.bar.wanted_px()
        self.bar.setGeometry(inner.left(), inner.bottom() + 1 - bar_px, inner.width(), bar_px)
        self.bar.set_margin(margin)
        left, wide = inner.left() + margin, inner.width() - 2 * margin
        self.header.setGeometry(left, inner.top(), wide, theme.px(_HEADER))
        top = inner.top() + theme.px(_HEADER) + gap
        high = inner.bottom() + 1 - bar_px - gap - top
        side_px = theme.px(_SIDE)
        main_px, below_px = wide - side_px - gap, theme.px(_BELOW)
        self.timeline.setGeometry(left, top, main_px, high - below_px - gap)
        self.below.setGeometry(left, top + high - below_px, main_px, below_px)
        keys_px = min(theme.px(_KEYS), high * 2 // 3)
        side = left + main_px + gap
        self.score.setGeometry(side, top, side_px, high - keys_px - gap)
        self.keys.setGeometry(side, top + high - keys_px, side_px, keys_px)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw at the new size."""
        del event
        self._set_theme()

    def changeEvent(self, event: QEvent) -> None:
        """Give the line the keyboard whenever the window gets it."""
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.bar.line.setFocus()
        super().changeEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask whoever leads whether it may close."""
        self.closing.emit()
        if not self.may_close:
            event.ignore()
            return
        self.closed.emit()
        super().closeEvent(event)

    def end(self) -> None:
        """Go, unasked: the desk's window is closed."""
        self.hide()
