"""The desk window: puts its parts together, and hands views and keys to them."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QEvent, QObject, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.clock_keys import ClockKeys
from app.desk.closing import Closing, closing_words, ending_words
from app.desk.commanding import CommandedDesk, Commanding
from app.desk.entering import Entering
from app.desk.entry_bar import EntryBar
from app.desk.frame import RehearsalFrame
from app.desk.header import HeaderLine
from app.desk.keys import Command
from app.desk.notices import Notices
from app.desk.places import MARGIN_PX, places
from app.desk.programme_keys import ProgrammeKeys
from app.desk.running import Running
from app.desk.side import Side
from app.desk.timeline import Timeline
from app.theme import DARK, LIGHT, Palette, Theme
from core.board.model import Preview, Said, View
from core.board.reported import Reported
from core.session.model import Answer, Taken

_LEAST_PX = (1024, 600)
_STANDS_TICKS = 300
_BRIEF_TICKS = 30
"""So many views a line of the program's own stands, if Escape does not take it away before."""


class DeskWindow(QWidget):
    """The window of the desk producer. It computes nothing: the desk does.

    `clock_keys` is None on a real clock. `more` is what keys do that concern other windows.
    """

    strip_added = Signal()
    """The strip is there; it comes after the first frame."""
    closed = Signal()
    themed = Signal(bool)
    """Another theme was chosen: whether it is the dark one."""
    facts_asked = Signal(str, int)
    """The event whose facts the presenter is to see, '' for none."""

    def __init__(
        self,
        desk: CommandedDesk,
        running: Running,
        clock_keys: ClockKeys | None,
        palette: Palette = DARK,
        more: Mapping[Command, Callable[[], object]] | None = None,
    ) -> None:
        super().__init__()
        self._palette = palette
        self._theme = theme = Theme.for_window(palette, self.width(), self.height())
        self._view: View | None = None
        self._own_lines: tuple[Said, ...] = ()
        self._own_ticks = 0
        self._reported: tuple[Said, ...] = ()
        self._painted = False
        self.frame = RehearsalFrame(theme, self)
        self.header = HeaderLine(theme, self)
        self.timeline = Timeline(theme, self)
        trained = Command.TRAINER in (more or {})
        steered = clock_keys is not None and not trained
        self.side = Side(theme, self, simulated=steered, trained=trained)
        self.notices = Notices(theme, self)
        self.bar = EntryBar(theme, self)
        self.entering = Entering(
            desk, self.bar.line, lambda: self.timeline.selected_id, running.now_ms
        )
        self.timeline.cards.installEventFilter(self)
        self.programme = ProgrammeKeys(desk, self.entering, self.timeline, self.side)
        self.programme.facts_asked.connect(self.facts_asked)
        table = {**(more or {}), **self.programme.table()}
        self._commanding = self._wired(desk, running, clock_keys, table)
        self.programme.aside.connect(self._commanding.enter_aside)
        self.programme.entered.connect(lambda: self._commanding.take(Command.ENTER))
        self.ends_rehearsal: Callable[[], bool] = lambda: False
        """Whether closing ends a rehearsal that somebody else leads; set by whoever does."""
        self.closing = Closing(self)
        self.closing.fell.connect(lambda: self.entering.unsay(self._closing_answer()))
        self.setMinimumSize(*_LEAST_PX)

    def _wired(
        self,
        desk: CommandedDesk,
        running: Running,
        clock_keys: ClockKeys | None,
        other: Mapping[Command, Callable[[], object]],
    ) -> Commanding:
        running.viewed.connect(self.show_view)
        self.entering.previewed.connect(self._show_preview)
        self.entering.answered.connect(self.bar.show_taken)
        self.timeline.selected.connect(self.entering.look_anew)
        more = {
            Command.CLEAR: self._clear,
            Command.THEME: self._turn_palette,
            Command.FULL_SCREEN: self._turn_full_screen,
            **other,
        }
        if Command.TRAINER in other:
            more[Command.REPORTS] = self.side.turn_reports
        return Commanding(
            desk, running, clock_keys, self.entering, self.bar.line, self.timeline, self.side, more
        )

    def show_view(self, view: View) -> None:
        """Show another moment in every part."""
        first = self._view is None
        self._view = view
        self.timeline.set_view(view)  # first: whatever goes wrong elsewhere, countdowns go on
        self.programme.look()
        self.header.show_header(view.header, view.saved)
        self.side.show_view(view)
        self._commanding.look(view.now_ms)
        self.bar.show_desk(view.desk)
        self._pass_own_lines()
        framed = self.frame.show_badge(view.rehearsal)
        if self._show_notices() or framed or first:
            self._lay_out()
        self._name(view)
        self.entering.look()

    def show_line(self, text: str) -> None:
        """Show a line of the program's own above the bar, until Escape or for five minutes."""
        self._show_own((Said(text),), _STANDS_TICKS)

    def show_briefly(self, text: str) -> None:
        """Show what a key did to another window, until Escape or for half a minute."""
        self._show_own((Said(text),), _BRIEF_TICKS)

    def show_reports(self, line: Said, reports: tuple[Reported, ...]) -> None:
        """Show what was reported last in a rehearsal, until it is entered or more comes."""
        self._reported = (line,)
        self.side.reports.show_reports(reports)
        if self._show_notices():
            self._lay_out()

    def _show_own(self, lines: tuple[Said, ...], ticks: int) -> None:
        self._own_lines, self._own_ticks = lines, ticks
        if self._show_notices():
            self._lay_out()

    def _pass_own_lines(self) -> None:
        """Let our own line go once it has stood long enough; the caller shows what is left."""
        self._own_ticks = max(0, self._own_ticks - 1)
        if not self._own_ticks:
            self._own_lines = ()

    def _show_notices(self) -> bool:
        given = self._view.notices if self._view is not None else ()
        return self.notices.show_notices((*self._reported, *self._own_lines, *given))

    def _show_preview(self, preview: Preview) -> None:
        told = self.side.show_lines(preview.lines)
        if preview == Preview() and not self.side.tells_change:
            self.bar.show_change(None if self._view is None else self._view.last_change)
        else:
            self.bar.show_preview(preview, lines=not told)
        self.timeline.set_ghosts(preview.ghosts)

    def _name(self, view: View) -> None:
        kind = "rehearsal, " if view.rehearsal else ""
        title = f"{view.header.title}: {kind}Limbwatch"
        if title != self.windowTitle():
            self.setWindowTitle(title)

    def _clear(self) -> None:
        """Drop the line, or else close what is open, or else let go of what is selected.

        An answer and our own line go with whatever it is: one press does one thing one sees.
        """
        self.programme.drop()
        typed = bool(self.bar.line.text())
        self.entering.clear()
        self._show_own((), 0)
        if typed or self.side.close_open() or self.programme.let_go():
            return
        self.timeline.select("")

    def _turn_palette(self) -> None:
        self._palette = LIGHT if self._palette.dark else DARK
        self._set_theme()
        self.themed.emit(self._palette.dark)

    def _turn_full_screen(self) -> None:
        if self.isFullScreen():
            self.showNormal()
        else:
            self.showFullScreen()

    def _set_theme(self) -> None:
        theme = Theme.for_window(self._palette, self.width(), self.height())
        self._theme = theme
        self.setPalette(theme.qt_palette())
        for part in (self.frame, self.header, self.timeline, self.side, self.notices, self.bar):
            part.set_theme(theme)
        self._lay_out()

    def _lay_out(self) -> None:
        self.frame.setGeometry(self.rect())
        inner = self.rect().marginsRemoved(self.frame.margins())
        notices_px = self.notices.wanted_px()
        at = places(inner, self._theme, self.bar.wanted_px(), notices_px)
        self.header.setGeometry(at.header)
        self.timeline.setGeometry(at.timeline)
        self.side.setGeometry(at.side)
        self.notices.setGeometry(at.notices)
        self.notices.setVisible(notices_px > 0)
        self.bar.setGeometry(at.bar)
        self._fit_line()

    def _fit_line(self) -> None:
        """Let the line end where the cards end; they may come to their width later than this."""
        margin_px = self._theme.px(MARGIN_PX)
        cards_right_px = self.timeline.x() + self.timeline.cards.geometry().right() + 1
        self.bar.set_edges(margin_px, cards_right_px - self.bar.x() - margin_px)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt calls it
        """Follow the cards' width."""
        if event.type() == QEvent.Type.Resize:
            self._fit_line()
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw at the new size."""
        del event
        self._set_theme()

    def paintEvent(self, event: QPaintEvent) -> None:
        """After the first frame, and not before, load what draws the strip."""
        del event
        if not self._painted:
            self._painted = True
            QTimer.singleShot(0, self, self._add_strip)

    def _add_strip(self) -> None:
        self.timeline.add_strip()
        self.programme.listen()
        self.strip_added.emit()

    def changeEvent(self, event: QEvent) -> None:
        """Give the line the keyboard whenever the window gets it."""
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.bar.line.setFocus()
        super().changeEvent(event)

    def _unsaved(self) -> int:
        """How many entries closing would forget."""
        return 0 if self._view is None else self._view.unsaved

    def _closing_answer(self) -> Taken:
        unsaved = self._unsaved()
        words = ending_words if self.ends_rehearsal() else closing_words
        return Taken(Answer.REFUSED, words(unsaved))

    def closeEvent(self, event: QCloseEvent) -> None:
        """Say that the board is closed.

        At the second asking where entries kept nowhere are forgotten, or others' rehearsal ends.
        """
        if not self.closing.lets(self._unsaved() or int(self.ends_rehearsal())):
            self.entering.say(self._closing_answer())
            event.ignore()
            return
        self.closed.emit()
        super().closeEvent(event)
