"""A table as it was opened, before anything is read of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from core.plan.imports.columns import Columns
from core.plan.imports.model import Heading, Meaning
from core.plan.imports.records import Record
from core.plan.imports.serials import number_of

MOST_COLUMNS = 200
_LOOKED_AT = 200
_DAYS = frozenset({Meaning.CLOCK, Meaning.DATE, Meaning.END})


@dataclass(frozen=True, slots=True)
class Table:
    """A table as it was opened: its records, and what its columns are most likely."""

    source: str
    text: str = field(repr=False)
    mark: str
    records: tuple[Record, ...] = field(repr=False)
    proposed: Columns
    before: tuple[Heading, ...] = ()

    @property
    def headings(self) -> tuple[str, ...]:
        """What stands over each column, where the first row is taken for a heading."""
        return heads_of(self, self.proposed)


def heads_of(table: Table, columns: Columns) -> tuple[str, ...]:
    """What stands over each column, with the columns as they are taken."""
    width = len(columns.meanings)
    if not columns.heading or not table.records:
        return ("",) * width
    cells = [cell.strip() for cell in table.records[0].cells[:width]]
    return (*cells, *[""] * (width - len(cells)))


def counts_days(table: Table, columns: Columns) -> bool:
    """Whether days stand in it as a spreadsheet's numbers, with the columns as they are taken."""
    held = [at for at, meaning in enumerate(columns.meanings) if meaning in _DAYS]
    body = table.records[int(columns.heading) :][:_LOOKED_AT]
    return any(
        _is_day(record.cells[at]) for record in body for at in held if at < len(record.cells)
    )


def _is_day(cell: str) -> bool:
    """Whether a cell is a number of days; four figures alone are a time of day: 1646."""
    text = cell.strip()
    number = number_of(text)
    return number is not None and number >= 1 and not (len(text) == 4 and text.isdigit())


def trimmed(cells: Sequence[str]) -> tuple[str, ...]:
    """The cells without the empty ones at the end."""
    kept = list(cells[:MOST_COLUMNS])
    while kept and not kept[-1].strip():
        kept.pop()
    return tuple(kept)
