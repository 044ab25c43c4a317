"""The page with the tables: sections, the one shown, the list inside a row, problems, the strip."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QLabel, QSplitter, QTabBar, QVBoxLayout, QWidget

from app.builder.beside import StripBeside
from app.builder.cell_editor import CellEditor
from app.builder.grid import MARK, Grid
from app.builder.listing import Listing
from app.builder.lists import Lines
from app.builder.looking import Looked, Looker
from app.builder.table import Table
from app.builder.telling import cell_words, fault_line, inside_words, offered, page_words, some_of
from app.theme import Theme
from core.plan.drafting.columns import Cell, Section
from core.plan.drafting.draft import Draft, DraftRefused
from core.plan.drafting.placing import Fault
from core.plan.drafting.sections import SECTIONS, section_of
from core.plan.drafting.standing import row_words
from core.plan.positions import Trail

_PAUSE_MS = 120
"""So long after the last letter the draft is tried with what is typed."""
_LOOK_MS = 300
"""So long after a change the strip is worked out anew."""
_HEIGHTS = (700, 180, 110)  # how tables, the list in a row and problems share the height
_PAGES: tuple[Section | None, ...] = (None, *SECTIONS)


class EditPage(QWidget):
    """Tables of a draft, edited by keys; says what is wrong while one types."""

    said = Signal(str)
    """A line about what was done, or why it was not."""
    changed = Signal()
    lines_pasted = Signal(str)

    def __init__(self, theme: Theme, draft: Draft, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.draft = draft
        self._asked: Trail = ()
        self._typed: tuple[Cell, str] | None = None
        self._faults: tuple[Fault, ...] = ()
        self._expected_ms: Mapping[str, int] = {}
        self.tabs = QTabBar()
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.tabs.setUsesScrollButtons(False)
        self.table = self._table(theme)
        self.inner_title = QLabel()
        self.inner = self._table(theme)
        self.about = QLabel()
        self.about.setObjectName("quiet")
        self.problems = Lines(("", "Where", "Column", "What is wrong, and what to do"), self)
        self.problem_list = Listing(theme, self.problems, 3)
        self.problem_list.horizontalHeader().hide()
        self.problem_list.setAccessibleName("What is wrong")
        self.beside = StripBeside(theme)
        self.looker = Looker(self)
        self._pause = QTimer(self, singleShot=True, interval=_PAUSE_MS)
        self._look = QTimer(self, singleShot=True, interval=_LOOK_MS)
        for section in _PAGES:
            self.tabs.addTab("Flight" if section is None else section.title)
        self._lay_out()
        self._wire()
        self.tabs.setCurrentIndex(1)

    def _table(self, theme: Theme) -> Table:
        editor = CellEditor(theme, self._offered)
        editor.typing.connect(self._typing)
        editor.left.connect(self._typed_no_more)
        editor.lines_pasted.connect(self.lines_pasted)
        return Table(theme, editor)

    def _lay_out(self) -> None:
        self.left = QSplitter(Qt.Orientation.Vertical)
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.inner_title)
        column.addWidget(self.inner)
        self.inside = inside
        for widget, share in ((self.table, 6), (inside, 1), (self.problem_list, 1)):
            self.left.addWidget(widget)
            self.left.setStretchFactor(self.left.count() - 1, share)
        self.left.setChildrenCollapsible(False)
        self.across = QSplitter(Qt.Orientation.Horizontal)
        self.across.addWidget(self.left)
        self.across.addWidget(self.beside)
        self.across.setStretchFactor(0, 7)
        self.across.setStretchFactor(1, 3)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.addWidget(self.tabs)
        page.addWidget(self.across, 1)
        page.addWidget(self.about)
        self.share(self.width())

    def share(self, width_px: int) -> None:
        """Give the strip its part of the width, and each column what it needs."""
        strip_px = max(self._theme.px(240), round(width_px * 0.24))
        self.across.setSizes([max(1, width_px - strip_px), strip_px])
        self.left.setSizes(_HEIGHTS)
        for table in (self.table, self.inner):
            table.fit()

    def _wire(self) -> None:
        self.tabs.currentChanged.connect(self._show_section)
        self.table.stood.connect(self._stood)
        self.inner.stood.connect(self._stood_inside)
        self.problem_list.picked.connect(self._go_to)
        self._pause.timeout.connect(self._try)
        self._look.timeout.connect(self._look_at)
        self.looker.looked.connect(self._show_looked)

    # ------------------------------------------------------------------ shown

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        for part in (self.table, self.inner, self.problem_list, self.beside):
            part.set_theme(theme)

    def show_draft(self, draft: Draft) -> None:
        """Show another draft, from its events on."""
        if draft is not self.draft:
            self.looker.forget()
            self.beside.forget()
        self.draft = draft
        self._asked = ()
        self._expected_ms = {}
        self._show_section(self.tabs.currentIndex())
        self._show_change()
        self.table.setFocus()

    def settle(self) -> None:
        """Take what is being typed: a key of the window concerns the draft with it."""
        self.table.settle()
        self.inner.settle()

    def stop(self) -> None:
        """Work nothing out any more."""
        self._pause.stop()
        self._look.stop()
        self.looker.stop()

    @property
    def section(self) -> Section | None:
        """The section that is shown; None for the flight."""
        return _PAGES[max(0, self.tabs.currentIndex())]

    def _show_section(self, at: int) -> None:
        del at
        grid = self._grid(self.section, ())
        grid.show_expected(self._expected_ms)
        self.table.show_grid(grid)
        self.table.setAccessibleName("Flight" if self.section is None else self.section.title)
        self.table.horizontalHeader().setVisible(self.section is not None)
        self._show_inside(())
        self._show_faults(self.draft.now.faults)
        self._stood()
        self.table.setFocus()

    def _grid(self, section: Section | None, under: Trail) -> Grid:
        grid = Grid(self.draft, section, under, self)
        grid.changed.connect(self._show_change)
        grid.refused.connect(self.said)
        grid.moved.connect(lambda trail: QTimer.singleShot(0, self, lambda: self.go(trail)))
        return grid

    def _show_inside(self, under: Trail) -> None:
        """Show the list inside a row, where its section has one."""
        inner = self.section.inside if self.section is not None else None
        told = "" if inner is None else inside_words(self.draft.now, inner, under)
        self.inside.setVisible(bool(told))
        if inner is None or not told:
            return
        grid = self.inner.grid
        if grid is None or grid.section is not inner:
            self.inner.show_grid(self._grid(inner, under))
        elif grid.under != under:
            grid.show_draft(self.draft, under)
            self.inner.fit()
        self.inner_title.setText(told)

    # ------------------------------------------------------------------ after a change

    def _show_change(self) -> None:
        self._typed = None
        for table in (self.table, self.inner):
            if table.grid is not None:
                stays = table.grid.under if table.grid.under in self._rows() else ()
                table.grid.show_draft(self.draft, stays)
        self._show_faults(self.draft.now.faults)
        self._show_tabs()
        self._stood()
        self._look.start()
        self.changed.emit()

    def _rows(self) -> Sequence[Trail]:
        return () if self.section is None else self.draft.now.trails(self.section)

    def _show_tabs(self) -> None:
        for at, section in enumerate(_PAGES):
            self.tabs.setTabText(at, page_words(section, self.draft.now))

    def _show_faults(self, faults: tuple[Fault, ...]) -> None:
        self._faults = faults
        for table in (self.table, self.inner):
            if table.grid is not None:
                table.grid.show_faults(faults)
        self.problems.show_lines([fault_line(self.draft.now, fault) for fault in faults])
        self.beside.show_broken(broken=any(not fault.warning for fault in faults))

    def _look_at(self) -> None:
        if self.draft.good is not None:
            self.looker.look(self.draft.good)

    def _show_looked(self, looked: Looked) -> None:
        self.beside.show_looked(looked)
        if looked.expected_ms:
            self._expected_ms = dict(looked.expected_ms)
        if self.table.grid is not None:
            self.table.grid.show_expected(self._expected_ms)

    # ------------------------------------------------------------------ while one types

    def _typing(self, cell: object, text: str) -> None:
        if isinstance(cell, Cell):
            self._typed = (cell, text)
            self._pause.start()

    def _try(self) -> None:
        if self._typed is None:
            return
        cell, text = self._typed
        if text == self.draft.now.words(cell, typed=True):
            self._typed_no_more()
            return
        try:
            tried = self.draft.trial(cell, text)
        except DraftRefused as refused:
            self.said.emit(str(refused))
            return
        self._show_faults(tried.faults)
        wrong = [f for f in tried.faults if (f.trail, f.key) == (cell.trail, cell.column.key)]
        self._say_about(cell, wrong)

    def _typed_no_more(self) -> None:
        self._pause.stop()
        self._typed = None
        self._show_faults(self.draft.now.faults)
        self._say_of(self._focused)

    def _offered(self, cell: Cell) -> Sequence[str]:
        return offered(self.draft.now, cell)

    # ------------------------------------------------------------------ standing somewhere

    def _stood(self) -> None:
        self._asked = ()
        row = self.table.row
        if self.section is not None:
            self._show_inside(row)
        if self.section is not None and self.section.key == "event":
            self.beside.stand_on(str(self.draft.now.table(row).get("id", "")))
        self._say_of(self.table)

    def _stood_inside(self) -> None:
        self._asked = ()
        self._say_of(self.inner)

    def _say_of(self, table: Table) -> None:
        grid, index = table.grid, table.currentIndex()
        cell = grid.cell_at(index) if grid is not None else None
        if cell is None:
            self.about.setText("Worked out from the rest" if index.isValid() else "Ins: a new row")
            return
        wrong = [f for f in self._faults if (f.trail, f.key) == (cell.trail, cell.column.key)]
        wrong = wrong or [f for f in self._faults if (f.trail, f.key) == (cell.trail, "")]
        self._say_about(cell, wrong)

    def _say_about(self, cell: Cell, wrong: Sequence[Fault]) -> None:
        about = cell_words(self.draft.now, cell, named=self.section is not None)
        self.about.setText(f"{MARK} {wrong[0].words}" if wrong else about)

    def go(self, trail: Trail, key: str = "") -> None:
        """Make a cell the current one, on whichever page it is."""
        head = trail[0] if trail else None
        section = section_of(str(head)) if head is not None else None
        at = _PAGES.index(section) if section in _PAGES else 0
        if at != self.tabs.currentIndex():
            self.tabs.setCurrentIndex(at)
        if len(trail) == 4:
            self.table.stand(trail[:2])
            self.inner.stand(trail, key)
            self.inner.setFocus()
        else:
            self.table.stand(trail, key)
            self.table.setFocus()

    def _go_to(self, at: int) -> None:
        self.go(self._faults[at].trail, self._faults[at].key)

    # ------------------------------------------------------------------ what keys ask for

    def turn(self, by: int) -> None:
        """Show the next page, or the one before."""
        self.tabs.setCurrentIndex((self.tabs.currentIndex() + by) % self.tabs.count())

    def next_part(self) -> None:
        """Go to the next list of the page."""
        parts = [self.table, self.inner, self.problem_list]
        parts = [part for part in parts if part.isVisible()]
        focused = next((at for at, part in enumerate(parts) if part.hasFocus()), -1)
        parts[(focused + 1) % len(parts)].setFocus()

    def next_problem(self) -> None:
        """Go to the next problem, and round again."""
        faults = self._faults
        if not faults:
            self.said.emit("Nothing is wrong with it")
            return
        row = self.problem_list.currentIndex().row()
        at = (row + 1) % len(faults)
        self.problem_list.selectRow(at)
        self._go_to(at)

    @property
    def _focused(self) -> Table:
        return self.inner if self.inner.hasFocus() else self.table

    def insert(self) -> None:
        """Put in a row below the current one."""
        table, grid = self._focused, self._focused.grid
        if grid is None or grid.section is None:
            self.said.emit("This page has its rows as they are")
            return
        try:
            new = self.draft.insert(grid.section, table.row or None, grid.under)
        except DraftRefused as refused:
            self.said.emit(str(refused))
            return
        self._show_change()
        self.go(new)

    def delete(self) -> None:
        """Take the current row out; where something hangs on it, at the second asking."""
        table, grid = self._focused, self._focused.grid
        row = table.row
        if grid is None or grid.section is None or not row:
            self.said.emit("There is no row to take out here")
            return
        hanging = self.draft.hanging(row)
        if hanging and self._asked != row:
            self._asked = row
            self.said.emit(
                f"{MARK} On {row_words(self.draft.now, row)} hang: {some_of(hanging)}. "
                "Ctrl+Del again takes it out all the same"
            )
            return
        at = table.currentIndex()
        try:
            self.draft.remove(row)
        except DraftRefused as refused:
            self.said.emit(str(refused))
            return
        self._show_change()
        last = grid.rowCount() - 1
        if last >= 0:
            table.setCurrentIndex(grid.index(min(at.row(), last), at.column()))

    def undo(self, *, again: bool = False) -> None:
        """Take the last change back, or make it again."""
        done = self.draft.redo() if again else self.draft.undo()
        if done is None:
            self.said.emit("Nothing to redo" if again else "Nothing to undo")
            return
        said, trail = done
        self._show_change()
        if trail:
            self.go(trail)
        self.said.emit(f"{'Done again' if again else 'Undone'}: {said}")

    def paste(self, text: str) -> None:
        """Take one value into the cell; many lines are another matter."""
        if "\n" in text.strip():
            self.lines_pasted.emit(text)
        elif text.strip():
            self._focused.type_here(text.strip())

    def copy(self) -> str:
        """The text of the current cell."""
        return str(self._focused.currentIndex().data() or "")
