"""The builder window: its pages, its keys, and the plan's file."""

from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import (
    QCloseEvent,
    QKeyEvent,
    QKeySequence,
    QResizeEvent,
    QShortcut,
)
from PySide6.QtWidgets import QLabel, QStackedWidget, QVBoxLayout, QWidget

from app.builder.asking import Asking
from app.builder.dress import dress
from app.builder.dropping import Dropping
from app.builder.editing import EditPage
from app.builder.filing import (
    CannotSave,
    course_beside,
    draft_of,
    file_name,
    fresh_draft,
    open_draft,
    save_draft,
)
from app.builder.form import BeginPage
from app.builder.importing import Importer, recognised
from app.builder.keeping import Keeping
from app.builder.keys import KEYS, Command
from app.builder.keys_page import KeysPage
from app.builder.table_keys import on_tables
from app.builder.taking import TakingPage
from app.builder.unsaved import Kept
from app.theme import DARK, LIGHT, Palette, Theme
from core.errors import PlanProblems
from core.plan.drafting.draft import Draft
from core.plan.drafting.event_tables import EVENTS
from core.plan.drafting.fresh import Beginning, new_plan
from core.plan.drafting.signal_tables import COURSES
from core.plan.drafting.taking import Taken, take_events
from core.plan.imports.events import Made
from core.plan.imports.kinds import Kind, kind_of
from core.plan.imports.opening import text_of

_LEAST_PX = (1024, 600)
_CLIPBOARD = "pasted text"
_ORBITS = frozenset({Kind.TRAJECTORY, Kind.ELEMENTS, Kind.ORBIT_MARKUP})
_NOT_SAVED = "◆ Not saved yet: Ctrl+S saves it; the same again goes on without"


class BuilderWindow(Dropping):
    """Makes and changes a plan. `board` opens the board on a plan's file.

    What is not saved yet is kept in the folder `drafts`.
    """

    def __init__(
        self,
        asking: Asking,
        board: Callable[[Path], None],
        today: date,
        drafts: Path,
        palette: Palette = DARK,
    ) -> None:
        super().__init__()
        self._asking, self._board, self._palette = asking, board, palette
        self._theme = Theme.for_window(palette, self.width(), self.height())
        self.path: Path | None = None
        self._folder = Path.cwd()
        self._asked: Command | None = None
        self._closing = False
        self.importer = Importer(self)
        self.keeping = Keeping(drafts, self)
        self.begin_page = BeginPage(today)
        self.edit: EditPage | None = None
        self.taking = TakingPage(self._theme, self.importer)
        self.keys_page = KeysPage()
        self.pages = QStackedWidget()
        self.header, self.line = QLabel(), QLabel()
        self._lay_out()
        self._wire()
        self.setMinimumSize(*_LEAST_PX)
        self._set_theme()
        self._show_page(self.begin_page)
        self._name()
        self.say(self.keeping.look_for(None, ""))

    def _lay_out(self) -> None:
        self.header.setObjectName("title")
        self.line.setObjectName("told")
        self.line.setWordWrap(True)
        for page in (self.begin_page, self.taking, self.keys_page):
            self.pages.addWidget(page)
        column = QVBoxLayout(self)
        column.addWidget(self.header)
        column.addWidget(self.pages, 1)
        column.addWidget(self.line)

    def _wire(self) -> None:
        self.begin_page.begun.connect(self.begin)
        self.begin_page.opened.connect(partial(self.take, Command.OPEN))
        self.taking.taken.connect(self._take_events)
        self.taking.left.connect(self._back)
        for key in KEYS:
            for keys in key.keys:
                shortcut = QShortcut(QKeySequence(keys), self)
                shortcut.activated.connect(partial(self.take, key.command))
        self.keys_page.left.connect(self._back)
        self.keeping.failed.connect(self.say)
        self.file_dropped.connect(self.open)
        self.text_dropped.connect(lambda text: self._import(text, _CLIPBOARD, None))

    # ------------------------------------------------------------------ a draft

    @property
    def draft(self) -> Draft | None:
        """The plan that is being made."""
        return self.edit.draft if self.edit is not None else None

    def begin(self, beginning: Beginning) -> None:
        """Begin a new plan."""
        self._show_draft(fresh_draft(new_plan(beginning), self._folder), None)
        self.say("A new plan. Paste the mission's timeline with Ctrl+V, or type events: Ins")

    def open(self, path: Path) -> None:
        """Open a plan, or take another file into the one that is open."""
        try:
            opened = text_of(path.read_bytes(), path.name)
        except OSError as error:
            offer = self.keeping.look_for(path, "")
            self.say(f"◆ {path.name} cannot be opened: {error.strerror}. {offer}".rstrip(". "))
            return
        except PlanProblems as problems:
            self.say(f"◆ {problems.problems[0]}")
            return
        if path.suffix == ".toml" or kind_of(opened.text) is Kind.PLAN:
            self._open_plan(path)
        else:
            self._import(opened.text, path.name, path, opened.told)

    def _open_plan(self, path: Path) -> None:
        if not self._may_leave(Command.OPEN):
            return
        try:
            draft = open_draft(path)
        except PlanProblems as problems:
            first = problems.problems[0]
            self.say(f"◆ {first}. Mend that line in a text editor, then open it again")
            return
        self._show_draft(draft, path)
        stands = f"{path.name}: {'good as it stands' if draft.is_good else 'not good yet'}"
        self.say(self.keeping.look_for(path, draft.text) or stands)

    def _take_up(self) -> None:
        """Go on with the unsaved draft that an earlier run left."""
        kept = self.keeping.offered
        if kept is None:
            self.say("No unsaved draft is offered here")
            return
        path = self.keeping.offered_of
        if not self._may_leave(Command.TAKE_UP):
            return
        try:
            draft = draft_of(kept, path, self._folder)
        except PlanProblems as problems:
            self.say(f"◆ The unsaved draft cannot be read: {problems.problems[0]}")
            return
        self._show_draft(draft, path, kept)
        self.say("The unsaved draft is taken up. Ctrl+S saves it")

    def _show_draft(self, draft: Draft, path: Path | None, kept: Kept | None = None) -> None:
        self.keeping.watch(draft, path, kept)
        self.path = path
        self._folder = path.parent if path is not None else self._folder
        if self.edit is None:
            self.edit = EditPage(self._theme, draft)
            self.edit.said.connect(self.say)
            self.edit.changed.connect(self._changed)
            self.edit.lines_pasted.connect(lambda text: self._import(text, _CLIPBOARD, None))
            self.pages.addWidget(self.edit)
        self._show_page(self.edit)
        self.edit.show_draft(draft)
        self.edit.share(self.width())
        self._name()

    # ------------------------------------------------------------------ what is taken in

    def _import(self, text: str, name: str, path: Path | None, told: tuple[str, ...] = ()) -> None:
        draft = self.draft
        if draft is None or draft.good is None:
            self.say("◆ Begin a plan first, or mend what is marked; then take this into it")
            return
        try:
            source = recognised(text, name, told)
            if source.kind in _ORBITS:
                self._take_orbit(text, path, draft)
                return
        except (PlanProblems, CannotSave) as problems:
            self.say(f"◆ {problems}")
            return
        if source.kind is Kind.PLAN:
            self.say("◆ This is a plan: save it as a file, and open that with Ctrl+O")
            return
        self._show_page(self.taking)
        self.taking.show_source(source, draft)
        self.say("")

    def _take_events(self, taken: Taken, made: Made, name: str) -> None:
        draft, edit = self.draft, self.edit
        if draft is None or edit is None:
            return
        number = len(draft.now.trails(EVENTS))
        take_events(draft, taken, made, name)
        self._back()
        edit.show_draft(draft)
        edit.go(("event", number if taken.events else 0))
        self.say(f"{taken.words} taken in. Ctrl+Z takes all of it back")

    def _take_orbit(self, text: str, path: Path | None, draft: Draft) -> None:
        told = course_beside(text, path, self.path, draft)
        if self.edit is not None:
            self.edit.show_draft(draft)
            self.edit.go(draft.now.trails(COURSES)[-1])
        self.say(told)

    # ------------------------------------------------------------------ keys

    def take(self, command: Command) -> None:
        """Do what a key asks for."""
        if self._asked is not command:
            self._asked = None
        if self.edit is not None:
            self.edit.settle()
        everywhere: dict[Command, Callable[[], None]] = {
            Command.SAVE: self._save,
            Command.SAVE_AS: partial(self._save, anew=True),
            Command.OPEN: self._ask_open,
            Command.NEW: self._new,
            Command.TAKE_UP: self._take_up,
            Command.BOARD: self._open_board,
            Command.THEME: self._turn_palette,
            Command.KEYS: self._turn_keys,
        }
        if command in everywhere:
            everywhere[command]()
        elif self.edit is not None and self.pages.currentWidget() is self.edit:
            self.line.setText("")
            on_tables(self.edit)[command]()

    def say(self, words: str) -> None:
        """Say what was done, or why it was not."""
        self.line.setText(words)

    def _save(self, *, anew: bool = False) -> None:
        draft = self.draft
        if draft is None:
            return
        fresh = anew or self.path is None
        path = self._asking.to_save(self._folder, file_name(draft)) if fresh else self.path
        if path is None:
            return
        if path.suffix != ".toml":
            path = path.with_name(f"{path.name}.toml")
        try:
            save_draft(draft, path, fresh=fresh)
        except CannotSave as problem:
            self.say(f"◆ {problem}")
            return
        self.path, self._folder = path, path.parent
        if self.edit is not None and fresh:
            self.edit.show_draft(draft)
        self.keeping.watch(draft, path)
        wrong = sum(not fault.warning for fault in draft.now.faults)
        self.say(f"Saved as {path}" + (f". Still to be mended: {wrong}" if wrong else ""))
        self._name()

    def _ask_open(self) -> None:
        path = self._asking.to_open(self._folder)
        if path is not None:
            self.open(path)

    def _new(self) -> None:
        if self._may_leave(Command.NEW):
            self._show_page(self.begin_page)

    def _open_board(self) -> None:
        draft = self.draft
        if draft is None:
            return
        if not draft.is_good:
            self.say("◆ Mend what is marked first; F8 goes from one to the next")
            return
        if draft.is_changed or self.path is None:
            self._save()
        if not draft.is_changed and self.path is not None:
            self._board(self.path)
            self.say(f"The board opens on {self.path.name}")

    def _turn_palette(self) -> None:
        self._palette = LIGHT if self._palette.dark else DARK
        self._set_theme()

    def _turn_keys(self) -> None:
        if self.pages.currentWidget() is self.keys_page:
            self._back()
        else:
            self._show_page(self.keys_page)

    def _back(self) -> None:
        self._show_page(self.edit if self.edit is not None else self.begin_page)
        if self.edit is not None:
            self.edit.table.setFocus()

    def _show_page(self, page: QWidget) -> None:
        self.pages.setCurrentWidget(page)
        if page is self.begin_page:
            self.begin_page.title.setFocus()
        elif page is self.keys_page:
            self.keys_page.setFocus()

    def _may_leave(self, command: Command) -> bool:
        """Whether the draft may be left: saved, or asked for a second time."""
        draft = self.draft
        if draft is None or not draft.is_changed or self._asked is command:
            self._asked = None
            return True
        self._asked = command
        self.say(_NOT_SAVED)
        return False

    def _changed(self) -> None:
        """What was said of an earlier change no longer holds."""
        self.line.setText("")
        self.keeping.changed()
        self._name()

    # ------------------------------------------------------------------ the window

    def _name(self) -> None:
        draft = self.draft
        if draft is None:
            words = "Making a plan"
        else:
            file = self.path.name if self.path is not None else "no file yet"
            words = f"{draft.now.title or 'A plan'}     {file}{'  *' if draft.is_changed else ''}"
        self.header.setText(f"{words}     F1: keys")
        self.setWindowTitle(f"Limbwatch: {words}")

    def _set_theme(self) -> None:
        self._theme = Theme.for_window(self._palette, self.width(), self.height())
        dress(self, self._theme)
        self.taking.set_theme(self._theme)
        if self.edit is not None:
            self.edit.set_theme(self._theme)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw at the new size."""
        del event
        self._set_theme()
        if self.edit is not None:
            self.edit.share(self.width())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves what is offered, while it stands in the line."""
        offer = self.keeping.words
        if event.key() == Qt.Key.Key_Escape and offer and self.line.text().endswith(offer):
            self.say(self.keeping.leave())
        else:
            super().keyPressEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close; what is not saved is forgotten at the second asking."""
        draft = self.draft
        if self.edit is not None:
            self.edit.settle()
        if draft is not None and draft.is_changed and not self._closing:
            self._closing = True
            self.say("◆ Not saved yet: Ctrl+S saves it; closing once more forgets it")
            event.ignore()
            return
        self.importer.forget()
        self.keeping.let_go()
        if self.edit is not None:
            self.edit.stop()
        super().closeEvent(event)
