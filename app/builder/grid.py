"""A section of a draft as a model for a table: its cells, edited in place, and what is wrong."""

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)

from core.plan.circles import in_order
from core.plan.drafting.clocks import clock_words
from core.plan.drafting.columns import Cell, Kind, Section
from core.plan.drafting.draft import Draft, DraftRefused
from core.plan.drafting.event_tables import EVENTS
from core.plan.drafting.placing import Fault
from core.plan.drafting.sections import FLIGHT
from core.plan.drafting.standing import row_words
from core.plan.planned import planned_times
from core.plan.positions import Trail
from core.times.writing import elapsed_text, local_time

Index = QModelIndex | QPersistentModelIndex

MARK = "◆"
"""Beside whatever is wrong: never by colour alone."""

_COMPUTED = ("Planned", "Elapsed")
_COMPUTED_AT = 2
_COMPUTED_ABOUT = (
    "Where it comes out, from its time and ties",
    "Counted from the event that elapsed time counts from",
)
FAULT_ROLE = Qt.ItemDataRole.UserRole
CELL_ROLE = Qt.ItemDataRole.StatusTipRole


class Grid(QAbstractTableModel):
    """One section, a row each; without a section what holds for the whole flight, one key a row.

    `under` is the row whose inner list it shows (the facts of an event, a course's contacts).
    """

    changed = Signal()
    """Something was typed and taken."""
    refused = Signal(str)
    """Why something was not, or what went out of the row with it."""
    moved = Signal(object)
    """The trail of a row that has another name now."""

    def __init__(
        self,
        draft: Draft,
        section: Section | None,
        under: Trail = (),
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.section = section
        self._draft = draft
        self._under = under
        self._faults: dict[tuple[Trail, str], list[Fault]] = {}
        self._trails: tuple[Trail, ...] = ()
        self._planned: Mapping[str, int] = {}
        self._expected_ms: Mapping[str, int] = {}
        roles = Qt.ItemDataRole
        self._roles: dict[Qt.ItemDataRole, Callable[[Cell], object]] = {
            roles.DisplayRole: self._words,
            roles.EditRole: lambda cell: self._draft.now.words(cell, typed=True),
            roles.CheckStateRole: self._mark_of,
            roles.ToolTipRole: self._about,
            roles.AccessibleDescriptionRole: self._about,
            FAULT_ROLE: self._faults_of,
            CELL_ROLE: lambda cell: cell,
        }
        self._read()

    # ------------------------------------------------------------------ places

    @property
    def under(self) -> Trail:
        """The row whose inner list this is."""
        return self._under

    def trail_of(self, row: int) -> Trail:
        """The trail of a row; () where there is none."""
        return self._trails[row] if 0 <= row < len(self._trails) else ()

    def cell_at(self, index: Index) -> Cell | None:
        """What is edited there; None for what is computed."""
        if not index.isValid() or index.row() >= self.rowCount():
            return None
        if self.section is None:
            return FLIGHT[index.row()]
        at = index.column()
        if self.section is EVENTS:
            if _COMPUTED_AT <= at < _COMPUTED_AT + len(_COMPUTED):
                return None
            at -= len(_COMPUTED) if at >= _COMPUTED_AT else 0
        return Cell(self._trails[index.row()], self.section.columns[at])

    def index_of(self, trail: Trail, key: str = "") -> QModelIndex:
        """Where a cell stands; its row's first where the key is ''; an invalid one if nowhere."""
        if self.section is None:
            for row, cell in enumerate(FLIGHT):
                if cell.trail == trail and key in {cell.column.key, ""}:
                    return self.index(row, 0)
            return QModelIndex()
        if trail not in self._trails:
            return QModelIndex()
        keys = [column.key for column in self.section.columns]
        at = keys.index(key) if key in keys else 0
        if self.section is EVENTS and at >= _COMPUTED_AT:
            at += len(_COMPUTED)
        return self.index(self._trails.index(trail), at)

    # ------------------------------------------------------------------ what Qt asks

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # as Qt has it
        """How many rows there are."""
        return 0 if parent.isValid() else len(self._trails)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # as Qt has it
        """How many columns there are."""
        if parent.isValid():
            return 0
        if self.section is None:
            return 1
        return len(self.section.columns) + (len(_COMPUTED) if self.section is EVENTS else 0)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        """The headings, and the numbers of the rows with a mark where something is wrong."""
        across = orientation == Qt.Orientation.Horizontal
        if role not in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole}:
            return None
        if self.section is None:
            cell = FLIGHT[min(section, len(FLIGHT) - 1)]
            return "" if across else self._marked(cell.column.heading, cell)
        if across:
            return self._heading(section, about=role == Qt.ItemDataRole.ToolTipRole)
        wrong = any(trail == self.trail_of(section) for trail, _ in self._faults)
        return f"{MARK} {section + 1}" if wrong else str(section + 1)

    def _marked(self, heading: str, cell: Cell) -> str:
        wrong = (cell.trail, cell.column.key) in self._faults
        return f"{MARK} {heading}" if wrong else heading

    def _heading(self, at: int, *, about: bool) -> str:
        if self.section is EVENTS:
            if 0 <= at - _COMPUTED_AT < len(_COMPUTED):
                return (_COMPUTED_ABOUT if about else _COMPUTED)[at - _COMPUTED_AT]
            at -= len(_COMPUTED) if at >= _COMPUTED_AT else 0
        column = self.section.columns[at] if self.section is not None else FLIGHT[0].column
        return column.about if about else column.heading

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """What a cell shows, and what is wrong with it."""
        cell = self.cell_at(index)
        if cell is None:
            return self._computed(index) if role == Qt.ItemDataRole.DisplayRole else None
        reader = self._roles.get(Qt.ItemDataRole(role))
        return None if reader is None else reader(cell)

    def _words(self, cell: Cell) -> str:
        return "" if self._flag(cell) is not None else self._draft.now.words(cell)

    def _mark_of(self, cell: Cell) -> Qt.CheckState | None:
        flag = self._flag(cell)
        if flag is None:
            return None
        return Qt.CheckState.Checked if flag else Qt.CheckState.Unchecked

    def _faults_of(self, cell: Cell) -> tuple[Fault, ...]:
        return tuple(self._faults.get((cell.trail, cell.column.key), ()))

    def _about(self, cell: Cell) -> str:
        return "\n".join(fault.words for fault in self._faults_of(cell)) or cell.column.about

    def flags(self, index: Index) -> Qt.ItemFlag:
        """What can be edited, and what is a mark to be set."""
        plain = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        cell = self.cell_at(index)
        if cell is None:
            return plain
        if self._flag(cell) is not None:
            return plain | Qt.ItemFlag.ItemIsUserCheckable
        return plain | Qt.ItemFlag.ItemIsEditable

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Take what was typed, or the mark that was set."""
        cell = self.cell_at(index)
        if cell is None or role not in {Qt.ItemDataRole.EditRole, Qt.ItemDataRole.CheckStateRole}:
            return False
        if role == Qt.ItemDataRole.CheckStateRole:
            value = "yes" if Qt.CheckState(value) == Qt.CheckState.Checked else "no"
        return self.type_into(cell, str(value))

    def type_into(self, cell: Cell, typed: str) -> bool:
        """Type into a cell, as the table does."""
        going = self._draft.going(cell, typed)
        try:
            trail = self._draft.change(cell, typed)
        except DraftRefused as refused:
            self.refused.emit(str(refused))
            return False
        if trail != cell.trail:
            self.moved.emit(trail)
        self.changed.emit()
        if going:
            self.refused.emit(f"Taken out, as it belongs to the other kind: {going}. Ctrl+Z: back")
        return True

    # ------------------------------------------------------------------ renewed

    def show_draft(self, draft: Draft, under: Trail | None = None) -> None:
        """Show the draft as it stands now; `under`: the inner list of another row."""
        self._draft = draft
        before, self._under = self._under, self._under if under is None else under
        if before == self._under and self._rows() == self._trails:
            self._planned = self._planned_now()
            self._all_changed()
            return
        self.beginResetModel()
        self._read()
        self.endResetModel()

    def show_faults(self, faults: Iterable[Fault]) -> None:
        """Show what is wrong, which may be while something is being typed."""
        found: dict[tuple[Trail, str], list[Fault]] = {}
        for fault in faults:
            if not fault.warning:
                found.setdefault((fault.trail, fault.key), []).append(fault)
        if found != self._faults:
            self._faults = found
            self._all_changed()

    def show_expected(self, expected_ms: Mapping[str, int]) -> None:
        """Show when the schedule has each event, where ties and clocks alone do not tell."""
        if expected_ms != self._expected_ms:
            self._expected_ms = expected_ms
            self._planned = self._planned_now()
            self._all_changed()

    def _all_changed(self) -> None:
        rows, columns = self.rowCount(), self.columnCount()
        if rows and columns:
            self.dataChanged.emit(self.index(0, 0), self.index(rows - 1, columns - 1))
            self.headerDataChanged.emit(Qt.Orientation.Vertical, 0, rows - 1)

    def _read(self) -> None:
        self._trails = self._rows()
        self._planned = self._planned_now()

    def _rows(self) -> tuple[Trail, ...]:
        if self.section is None:
            return tuple(cell.trail for cell in FLIGHT)
        return self._draft.now.trails(self.section, self._under)

    def _flag(self, cell: Cell) -> bool | None:
        return self._draft.now.flag(cell) if cell.column.kind is Kind.FLAG else None

    # ------------------------------------------------------------------ computed

    def _planned_now(self) -> Mapping[str, int]:
        plan = self._draft.good
        if plan is None or self.section is not EVENTS:
            return {}
        return {**self._expected_ms, **planned_times(plan, in_order(plan))}

    def _computed(self, index: Index) -> str:
        name = self._draft.now.table(self.trail_of(index.row())).get("id")
        at_ms = self._planned.get(str(name))
        plan = self._draft.good
        if at_ms is None or plan is None:
            return ""
        if index.column() > _COMPUTED_AT:
            zero_ms = self._planned.get(plan.elapsed_from or "")
            return "" if zero_ms is None else elapsed_text(at_ms - zero_ms)
        there: datetime = local_time(at_ms, plan.zones[0]).replace(tzinfo=None)
        day = self._draft.now.day
        return clock_words(there.replace(microsecond=0), day.year if day else None)


def row_name(draft: Draft, trail: Trail) -> str:
    """What a row is called on the screen."""
    return row_words(draft.now, trail)
