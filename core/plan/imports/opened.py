"""A table as it was opened, before anything is read of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from core.plan.imports.columns import Columns
from core.plan.imports.model import Heading
from core.plan.imports.records import Record

MOST_COLUMNS = 200


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


def trimmed(cells: Sequence[str]) -> tuple[str, ...]:
    """The cells without the empty ones at the end."""
    kept = list(cells[:MOST_COLUMNS])
    while kept and not kept[-1].strip():
        kept.pop()
    return tuple(kept)
