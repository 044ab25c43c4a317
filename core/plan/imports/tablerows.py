"""The rows of a table, cell by cell, as its columns say."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from core.errors import TimeProblem
from core.plan.imports.cells import (
    Grid,
    clock_cell,
    date_cell,
    elapsed_cell,
    length_cell,
    yes_or_no,
)
from core.plan.imports.columns import Columns, heading_unit, heading_zone
from core.plan.imports.model import (
    CHECK,
    EDITORIAL,
    Column,
    Heading,
    Imported,
    Meaning,
    NotRead,
    Row,
    Setting,
)
from core.plan.imports.moments import Found, Reading
from core.plan.imports.opened import Table, heads_of, trimmed
from core.plan.imports.records import Record
from core.plan.imports.running import Running
from core.plan.imports.serials import number_of
from core.times.writing import elapsed_text

Cells = Mapping[Meaning, tuple[int, str]]
"""The cells of a row that are not empty, by what they mean, with their columns."""

T = TypeVar("T")

_BARE = frozenset({"note", "notes", "remark", "remarks", "comment", "comments", "description"})
"""Headings that say nothing of what stands under them."""

_MEASURED = (Meaning.GIVE, Meaning.LENGTH)

_GUARD = re.compile(r"'(?=['=+@\t-])")
"""A sign that keeps a spreadsheet from taking a name for a formula."""


class RowReader:
    """Reads record by record; days run on from row to row."""

    def __init__(self, table: Table, columns: Columns, setting: Setting) -> None:
        self._table, self._columns, self._setting = table, columns, setting
        self._heads = heads_of(table, columns)
        self._running = Running(_times_of(table, columns), setting)
        self._zones = tuple(heading_zone(head, setting) for head in self._heads)
        self._units = tuple(heading_unit(head) for head in self._heads)
        self._rows: list[Row] = []
        self._not_read: list[NotRead] = []
        self._headings: list[Heading] = list(table.before)

    def take(self, record: Record, *, first: bool) -> None:
        """One record: a row, the heading, or told as not read."""
        more = tuple(range(record.line + 1, record.line + record.lines))
        if record.wrong:
            self._refuse(record, record.wrong, 'Write "" for a mark within a cell', more)
            return
        head = trimmed(self._table.records[0].cells)
        if self._columns.heading and (first or trimmed(record.cells) == head):
            self._headings.append(Heading(record.line, record.text, "the heading"))
            return
        if trimmed(record.cells) == (EDITORIAL,):
            self._headings.append(Heading(record.line, record.text, "what the table is for"))
            return
        if not any(cell.strip() for cell in record.cells):
            self._headings.append(Heading(record.line, record.text, "an empty row"))
            return
        try:
            row = self._row(record)
        except TimeProblem as problem:
            self._refuse(record, problem.what, problem.hint or CHECK, more)
        else:
            self._rows.append(replace(row, more_lines=more))

    def refuse_rest(self, rest: Sequence[Record]) -> None:
        """What lies beyond the most that is read."""
        for record in rest:
            more = tuple(range(record.line + 1, record.line + record.lines))
            self._refuse(record, "no more rows are read", "Read it in parts", more)

    def imported(self, *, stopped: bool) -> Imported:
        """All that was read."""
        told: tuple[str, ...] = ()
        if self._running.unnamed:
            told = (f"Clock times that name no zone were read in {self._setting.zone}",)
        columns = tuple(
            Column(head, meaning)
            for head, meaning in zip(self._heads, self._columns.meanings, strict=True)
        )
        return Imported(
            self._table.source,
            tuple(self._rows),
            tuple(self._not_read),
            tuple(self._headings),
            columns,
            told,
            stopped,
        )

    def _refuse(self, record: Record, why: str, hint: str, more: tuple[int, ...]) -> None:
        self._not_read.append(NotRead(record.line, record.text, why, hint, more))

    # -------------------------------------------------------------- one row

    def _row(self, record: Record) -> Row:
        cells = self._cells(record)
        grid = self._grid()
        name = _name(cells.get(Meaning.NAME, (0, ""))[1])
        if not name:
            raise TimeProblem("this row has no name", "Write what happens, or leave the row out")
        row = Row(
            record.line,
            record.text,
            name,
            give_ms=_read(cells, Meaning.GIVE, length_cell, grid, 0),
            live=yes_or_no(cells.get(Meaning.LIVE, (0, ""))[1]),
            lane=cells.get(Meaning.LANE, (0, ""))[1].strip(),
            note=self._note(record),
            length_ms=_read(cells, Meaning.LENGTH, length_cell, grid, None),
        )
        return self._timed(row, cells, grid)

    def _cells(self, record: Record) -> Cells:
        """The cells of a row by what they mean; bare figures get the unit of their heading."""
        cells: dict[Meaning, tuple[int, str]] = {}
        for at, (meaning, cell) in enumerate(
            zip(self._columns.meanings, record.cells, strict=False)
        ):
            if cell.strip() and meaning not in (Meaning.NOTE, Meaning.SKIP):
                bare = meaning in _MEASURED and number_of(cell) is not None
                cells[meaning] = (at, f"{cell.strip()}{self._units[at]}" if bare else cell)
        return cells

    def _grid(self) -> Grid:
        columns = self._columns
        reading = Reading(
            self._setting,
            self._running.day,
            day_first=columns.day_first,
            two_parts=columns.two_parts,
        )
        return Grid(reading, columns.from_1904)

    def _timed(self, row: Row, cells: Cells, grid: Grid) -> Row:
        elapsed_ms = _read(cells, Meaning.ELAPSED, elapsed_cell, grid, None)
        clock = cells.get(Meaning.CLOCK)
        if clock is None:
            if elapsed_ms is None:
                raise TimeProblem("this row has no time", "Write a clock time or an elapsed time")
            return replace(row, elapsed_ms=elapsed_ms)
        found = clock_cell(clock[1], grid)
        if found.elapsed_ms is not None:
            return replace(row, elapsed_ms=found.elapsed_ms, give_ms=row.give_ms or found.give_ms)
        return self._on_the_clock(row, found, elapsed_ms, cells, grid)

    def _on_the_clock(
        self,
        row: Row,
        found: Found,
        elapsed_ms: int | None,
        cells: Cells,
        grid: Grid,
    ) -> Row:
        found, told = self._with_day(found, cells, grid)
        found = self._zoned(found, cells[Meaning.CLOCK][0])
        end = clock_cell(cells[Meaning.END][1], grid) if Meaning.END in cells else None
        if end is not None and end.day is None:
            found = replace(found, until=end.dial)
        at = self._running.at(found, elapsed_ms=elapsed_ms)
        said = [*at.told, *told]
        if elapsed_ms is not None:
            said.append(f"elapsed {elapsed_text(elapsed_ms)} stands beside it")
        length_ms = row.length_ms if at.length_ms is None else at.length_ms
        if end is not None and end.day is not None:
            length_ms = self._running.ended_ms(end, found) - at.at_ms
        if length_ms is not None and length_ms < 0:
            raise TimeProblem("this ends before it begins", "Put the earlier time first")
        give_ms = max(row.give_ms, found.give_ms)
        return replace(
            row, at_ms=at.at_ms, give_ms=give_ms, length_ms=length_ms, told="; ".join(said)
        )

    def _with_day(self, found: Found, cells: Cells, grid: Grid) -> tuple[Found, tuple[str, ...]]:
        """The day from the row's date, where its time has none; a blank date is the one above."""
        if found.day is not None or Meaning.DATE not in cells:
            return found, ()
        day, told = date_cell(cells[Meaning.DATE][1], grid)
        return replace(found, day=day), (told,) if told else ()

    def _zoned(self, found: Found, at: int) -> Found:
        zone = self._zones[at] if at < len(self._zones) else None
        return found if found.zone is not None or zone is None else replace(found, zone=zone)

    def _note(self, record: Record) -> str:
        """The cells that have no other place, each with what stands over it."""
        said = []
        for at, cell in enumerate(record.cells):
            known = self._columns.meanings[at] if at < len(self._heads) else Meaning.NOTE
            if known is Meaning.NOTE and cell.strip():
                head = self._heads[at] if at < len(self._heads) else ""
                text = " ".join(cell.split())
                bare = not head or head.casefold() in _BARE
                said.append(text if bare else f"{head}: {text}")
        return "; ".join(said)


def _read(
    cells: Cells,
    meaning: Meaning,
    reader: Callable[[str, Grid], int],
    grid: Grid,
    default: T,
) -> int | T:
    """What the cell of a meaning says; the default where it is empty or there is none."""
    return reader(cells[meaning][1], grid) if meaning in cells else default


def _name(cell: str) -> str:
    name = _GUARD.sub("", cell.strip(), count=1)
    return name if name.isprintable() else " ".join(name.split())


def _times_of(table: Table, columns: Columns) -> str:
    """The cells with clock times, for telling a day of 12 hours from one of 24."""
    wanted = [
        at for at, what in enumerate(columns.meanings) if what in (Meaning.CLOCK, Meaning.END)
    ]
    return "\n".join(
        record.cells[at] for record in table.records for at in wanted if at < len(record.cells)
    )
