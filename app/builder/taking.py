"""The page that shows what was pasted as it would become: confirmed or changed before it counts."""

from dataclasses import replace
from datetime import date, time

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.builder.choosing import Choosing
from app.builder.importing import Importer, Source, Wish, read_as
from app.builder.listing import Listing
from app.builder.lists import Line, Lines
from app.builder.offer import Offer
from app.builder.offering import Offering, chosen, offered_lines, offering, zero_ms_of
from app.theme import Theme
from core.errors import PlanProblems, TimeProblem
from core.plan.drafting.clocks import read_clock
from core.plan.drafting.draft import Draft
from core.plan.imports.columns import Columns
from core.plan.imports.kinds import Kind
from core.plan.imports.model import Imported, Meaning, Setting, TwoParts
from core.plan.imports.opened import counts_days, heads_of
from core.times.zones import find_zone, zone_names

_ROWS = ("Line", "Planned", "Elapsed", "Event", "Id", "Give", "Live", "How it was read, and facts")
_NOT_READ = ("Line", "What stands there", "Why it gives no event")
_COLUMNS = ("Column", "First cell", "Taken for")
_TWO = {"not said": None, "hours and minutes": TwoParts.HOURS_MINUTES,
        "minutes and seconds": TwoParts.MINUTES_SECONDS}  # fmt: skip
_BARE = {"as the text shows": None, "elapsed time": True, "a time of day": False}
_DAY_FIRST = {"not said": None, "5 June": True, "May 6": False}
_FROM_1904 = {"1900": False, "1904": True}
_KINDS = (Kind.TABLE, Kind.TIMELINE)
"""What any text can be read as, whatever it was taken for."""
_AS_THEY_STAND = "clock times as they stand"


class TakingPage(QWidget):
    """Shows the rows of an import, those that were not read, and how it is read."""

    taken = Signal(object, object, str)
    """A Taken, all that was Made, and what they come from."""
    left = Signal()

    def __init__(self, theme: Theme, importer: Importer, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._importer = importer
        self._draft: Draft | None = None
        self._source: Source | None = None
        self._columns: Columns | None = None
        self._imported: Imported | None = None
        self._now: Offering | None = None
        self._wished: Wish | None = None
        self._reading = self._stopping = False
        self.rows = Lines(_ROWS, self)
        self.not_read = Lines(_NOT_READ, self)
        self.columns = Lines(_COLUMNS, self, edited=True)
        self.title, self.told, self.progress = QLabel(), QLabel(), QLabel()
        self.zone, self.day, self.all_day = QLineEdit(), QLineEdit(), QLineEdit()
        self.two_parts, self.bare, self.ties = QComboBox(), QComboBox(), QComboBox()
        self.day_first, self.from_1904, self.kind = QComboBox(), QComboBox(), QComboBox()
        self._said = (self.two_parts, self.bare, self.day_first, self.from_1904)
        self.row_list = Listing(theme, self.rows, len(_ROWS) - 1, self)
        self.not_read_list = Listing(theme, self.not_read, len(_NOT_READ) - 1, self)
        self.column_list = Listing(theme, self.columns, 2, self)
        self.column_list.setItemDelegateForColumn(2, Choosing(tuple(Meaning), self.column_list))
        self.column_list.picked.connect(
            lambda at: self.column_list.edit(self.columns.index(at, len(_COLUMNS) - 1))
        )
        self._lay_out()
        self._wire()

    # ------------------------------------------------------------------ made

    def _lay_out(self) -> None:
        self.title.setObjectName("title")
        self.told.setObjectName("quiet")
        self.told.setWordWrap(True)
        self.progress.setObjectName("told")
        self.two_parts.addItems(list(_TWO))
        self.bare.addItems(list(_BARE))
        self.day_first.addItems(list(_DAY_FIRST))
        self.from_1904.addItems(list(_FROM_1904))
        self.kind.addItems([str(kind) for kind in _KINDS])
        fields = QHBoxLayout()
        self._labels: dict[QWidget, QLabel] = {}
        for box in (self.kind, *self._said, self.ties):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        for words, field in (
            ("Read as a", self.kind),
            ("Clock of", self.zone),
            ("Day", self.day),
            ("T+2:30 is", self.two_parts),
            ("03:29:33 alone is", self.bare),
            ("5/6 is", self.day_first),
            ("Day numbers from", self.from_1904),
            ("All-day entries at", self.all_day),
            ("Keep", self.ties),
        ):
            self._labels[field] = QLabel(words)
            field.setAccessibleName(words)
            fields.addWidget(self._labels[field])
            fields.addWidget(field)
        fields.addStretch(1)
        self.take_button = QPushButton("Take the ticked ones (Ctrl+Enter)")
        self.leave_button = QPushButton("Leave all as it was (Esc)")
        feet = QHBoxLayout()
        feet.addWidget(self.progress, 1)
        feet.addWidget(self.leave_button)
        feet.addWidget(self.take_button)
        column = QVBoxLayout(self)
        column.addWidget(self.title)
        column.addLayout(fields)
        column.addWidget(self.told)
        column.addWidget(self.column_list, 2)
        column.addWidget(self.row_list, 6)
        self.not_read_title = QLabel()
        column.addWidget(self.not_read_title)
        column.addWidget(self.not_read_list, 2)
        column.addLayout(feet)

    def _wire(self) -> None:
        self.zone.setCompleter(Offer(zone_names(), "", self.zone))
        for field in (self.zone, self.day, self.all_day):
            field.editingFinished.connect(self.read)
        for box in self._said:
            box.activated.connect(self.read)
        self.kind.activated.connect(self._read_otherwise)
        self.columns.typed.connect(self._retake_column)
        self.rows.ticked.connect(self._count)
        self.take_button.clicked.connect(self.take)
        self.leave_button.clicked.connect(self.leave)
        self._importer.progressed.connect(self._show_progress)
        self._importer.done.connect(self._show_imported)
        self._importer.failed.connect(self._show_failed)

    def set_theme(self, theme: Theme) -> None:
        """Draw in other sizes."""
        for one in (self.row_list, self.not_read_list, self.column_list):
            one.set_theme(theme)

    # ------------------------------------------------------------------ reading

    def show_source(self, source: Source, draft: Draft) -> None:
        """Read a source for a draft and show what it gives."""
        self._draft = draft
        self.zone.setText(draft.now.zone)
        day = draft.now.day
        self.day.setText(f"{day.day} {day:%b %Y}" if day is not None else "")
        for box in self._said:
            box.setCurrentIndex(0)  # what was said of another text holds for that one
        self._show_kind(source)
        self.read()
        self.row_list.setFocus()

    def _show_kind(self, source: Source) -> None:
        """Show what the text is read as, and what can be said of one of that kind."""
        self._source, self._imported, self._now, self._wished = source, None, None, None
        self._columns = source.table.proposed if source.table is not None else None
        self.kind.setCurrentText(source.kind)
        for field, shown in (
            (self.kind, source.kind in _KINDS),
            (self.day_first, source.table is not None),
            (self.all_day, source.kind is Kind.CALENDAR),
            (self.two_parts, source.kind is not Kind.CALENDAR),
            (self.bare, source.kind is Kind.TIMELINE),
        ):
            self._show_field(field, shown=shown)
        self.column_list.setVisible(source.table is not None)
        self.rows.show_lines(())
        self.not_read.show_lines(())
        self._show_columns()

    def _read_otherwise(self) -> None:
        """Read the text as what the person says it is."""
        kind = Kind(self.kind.currentText())
        if self._source is None or kind is self._source.kind:
            return
        try:
            self._show_kind(read_as(self._source, kind))
        except PlanProblems as problems:
            self.progress.setText(f"◆ {problems.problems[0]}")
            self.kind.setCurrentText(self._source.kind)
            return
        self.read()

    @property
    def is_reading(self) -> bool:
        """Whether something is still on its way."""
        return self._reading

    def read(self) -> None:
        """Read it as the fields have it, in a thread; nothing where they are as before."""
        if self._source is None:
            return
        wish = self._wish()
        if wish is None or wish == self._wished:
            return
        self._wished, self._reading, self._stopping = wish, True, False
        self._show_progress(0, 0)
        self._importer.read(self._source, wish)

    def _wish(self) -> Wish | None:
        zone = self.zone.text().strip()
        try:
            find_zone(zone)
        except TimeProblem as problem:
            self.progress.setText(f"◆ {problem}")
            return None
        day = read_clock(f"{self.day.text().strip()} 12:00", None)
        if day is None and self.day.text().strip():
            self.progress.setText("◆ The day is typed like 11 May 2031")
            return None
        two = _TWO[self.two_parts.currentText()]
        setting = Setting(zone, day.date() if day else None, two_parts=two)
        plan = self._draft.good if self._draft is not None else None
        if plan is not None:
            setting = replace(setting, zones=tuple(plan.zones), zero_ms=zero_ms_of(plan))
        if self._source is not None and self._source.kind is Kind.TIMELINE:
            setting = replace(setting, bare_elapsed=_BARE[self.bare.currentText()])
        columns = self._columns
        if columns is not None:
            first = _DAY_FIRST[self.day_first.currentText()]
            columns = replace(
                columns,
                two_parts=two if two is not None else columns.two_parts,
                day_first=first if first is not None else columns.day_first,
                from_1904=_FROM_1904[self.from_1904.currentText()],
            )
        return Wish(setting, columns, self._all_day_at())

    def _all_day_at(self) -> time | None:
        at = read_clock(self.all_day.text(), date(2000, 1, 1))
        return None if at is None else at.time()

    def _show_progress(self, done: int, of: int) -> None:
        if not self._reading or self._stopping:
            return  # it was on its way when the reading was stopped
        so_far = f"Reading: {done} of {of} lines" if of else "Reading"
        self.progress.setText(f"{so_far} ... Esc stops" if done < of or not of else "")

    def _show_failed(self, why: str) -> None:
        self._reading = self._stopping = False
        self.title.setText("This cannot be read")
        self.progress.setText(f"◆ {why}")

    def _show_imported(self, imported: Imported) -> None:
        draft = self._draft
        if draft is None or draft.good is None or not self._reading:
            return
        self._imported, self._reading, self._stopping = imported, False, False
        self._now = now = offering(imported, draft.good)
        year = draft.now.day.year if draft.now.day else None
        self.rows.show_lines(offered_lines(now, draft.good.zones[0], year))
        self.row_list.setCurrentIndex(self.rows.index(0, 0))  # Space takes the tick away there
        self.not_read.show_lines(now.not_read)
        decoded = self._source.told if self._source is not None else ()
        told = (*_stopped(imported), *decoded, *imported.told)
        self.told.setText(". ".join(told))
        self.told.setVisible(bool(told))
        number = len(now.not_read)
        self.not_read_title.setText(
            f"{_counted(number, 'line')} that {'gives' if number == 1 else 'give'} no event"
            if number
            else f"Every line {'until there ' if imported.stopped else ''}gives an event"
        )
        self.not_read_list.setVisible(bool(number))
        self._show_ties(now)
        self._count()

    def _show_ties(self, now: Offering) -> None:
        clocked = any(one.event.at_ms is not None for one in now.offered)
        shown = clocked and now.zero is not None
        kept = self.ties.currentIndex()
        self.ties.clear()
        self.ties.addItem(_AS_THEY_STAND)
        if now.zero is not None:
            self.ties.addItem(f"each tied to {now.zero.event}, moving with it")
        self.ties.setCurrentIndex(max(0, min(kept, self.ties.count() - 1)))
        self._show_field(self.ties, shown=shown)

    def _show_field(self, field: QWidget, *, shown: bool) -> None:
        field.setVisible(shown)
        self._labels[field].setVisible(shown)

    def _count(self) -> None:
        source = self._source
        if source is None:
            return
        ticked = sum(line.taken is True for line in self.rows.lines)
        self.title.setText(
            f"{source.name[:1].upper()}{source.name[1:]}, read as a {source.kind}: "
            f"{_counted(ticked, 'event')} to take"
        )
        self.progress.setText("")

    # ------------------------------------------------------------------ columns

    def _show_columns(self) -> None:
        table = self._source.table if self._source is not None else None
        if table is None or self._columns is None:
            self.columns.show_lines(())
            self._show_field(self.from_1904, shown=False)
            return
        self._show_field(self.from_1904, shown=counts_days(table, self._columns))
        heads = heads_of(table, self._columns)
        body = table.records[1:] if self._columns.heading else table.records
        first = body[0].cells if body else ()
        self.columns.show_lines(
            [
                Line((head or f"column {at + 1}", first[at] if at < len(first) else "", meaning))
                for at, (head, meaning) in enumerate(
                    zip(heads, self._columns.meanings, strict=True)
                )
            ]
        )

    def _retake_column(self, at: int, typed: str) -> None:
        columns = self._columns
        meaning = _meaning(typed)
        if columns is None or meaning is None:
            self.progress.setText(f"◆ One of: {', '.join(Meaning)}")
            return
        meanings = tuple(meaning if i == at else one for i, one in enumerate(columns.meanings))
        self._columns = replace(columns, meanings=meanings)
        self._show_columns()
        self.read()

    # ------------------------------------------------------------------ done

    def take(self) -> None:
        """Hand over what is ticked."""
        if self._now is None or self._source is None or self._reading:
            return
        taken = chosen(self._now, self.rows.lines, ties=self.ties.currentIndex() == 1)
        if taken.words:
            self.taken.emit(taken, self._now.made, self._told_name())
        else:
            self.progress.setText("◆ Nothing is ticked")

    def leave(self) -> None:
        """Stop reading, if it is read yet; else leave the page."""
        if self._reading and not self._stopping:
            self._stopping = True
            self.progress.setText("Stopping ... Esc leaves all as it was")
            self._importer.stop()
            return
        self._reading = self._stopping = False
        self.left.emit()

    def _told_name(self) -> str:
        """What the events come from, as the change that takes them is called."""
        name = self._source.name if self._source is not None else ""
        imported = self._imported
        if imported is None or not imported.stopped:
            return name
        return f"{name} until line {imported.last_line}"

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Ctrl+Enter takes, Escape leaves."""
        enter = event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.take()
        elif event.key() == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)


def _meaning(typed: str) -> Meaning | None:
    """The meaning whose name begins so."""
    short = typed.strip().lower()
    found = [one for one in Meaning if one.value.startswith(short)] if short else []
    return found[0] if found else None


def _stopped(imported: Imported) -> tuple[str, ...]:
    """What is told of a reading that was stopped."""
    if not imported.stopped:
        return ()
    last = imported.last_line
    if not last:
        return ("◆ Stopped before the first line",)
    return (f"◆ Stopped: nothing below line {last} was looked at. What stands above can be taken",)


def _counted(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
