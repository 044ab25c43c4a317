"""A table, from a CSV file or a spreadsheet's clipboard: its columns proposed, then its rows."""

import re

from core.plan.imports.columns import Columns, heading_at, propose
from core.plan.imports.model import Heading, Imported, Progress, Setting
from core.plan.imports.opened import Table, trimmed
from core.plan.imports.opening import checked
from core.plan.imports.records import lines_kept, mark_of, records
from core.plan.imports.tablerows import RowReader

EVERY = 100
"""So many rows are read between two words about the progress."""

MOST_ROWS = 200_000
_SEP = re.compile(r"sep=(.)\s*", re.I)


def open_table(text: str, source: str = "clipboard") -> Table:
    """The table in a text, and a proposal for its columns. Nothing is read of it yet.

    Raises PlanProblems where the text cannot be taken at all.
    """
    plain = checked(text, source)
    lines = lines_kept(plain)
    told = _SEP.fullmatch(lines[0].strip("\r\n"))
    mark = told[1] if told else mark_of(lines)
    found = tuple(records(lines, mark, 1 if told else 0))
    before = [Heading(1, lines[0].strip(), "the mark between the cells")] if told else []
    first = heading_at([record.cells for record in found[:15]])
    before += [Heading(one.line, one.text, "above the table") for one in found[:first]]
    found = found[first:]
    good = [record.cells for record in found[:500] if not record.wrong]
    proposed = propose([trimmed(cells) for cells in good])
    return Table(source, plain, mark, found, proposed, tuple(before))


def read_table(
    table: Table, columns: Columns, setting: Setting, progress: Progress | None = None
) -> Imported:
    """The rows of a table, its columns as a person has confirmed or changed them."""
    reader = RowReader(table, columns, setting)
    for at, record in enumerate(table.records):
        if progress is not None and at % EVERY == 0 and not progress(at, len(table.records)):
            return reader.imported(stopped=True)
        if at == MOST_ROWS:
            reader.refuse_rest(table.records[at:])
            break
        reader.take(record, first=at == 0)
    if progress is not None:
        progress(len(table.records), len(table.records))
    return reader.imported(stopped=False)
