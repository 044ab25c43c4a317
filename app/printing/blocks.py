"""What a printed document is made of, as data: headings, paragraphs, tables, pictures."""

from dataclasses import dataclass

from core.signal.model import Fill


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of the text. It never stands alone at the foot of a page."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text; line breaks in it are kept. `leads`: it stays with what follows it."""

    text: str
    small: bool = False
    strong: bool = False
    leads: bool = False


@dataclass(frozen=True, slots=True)
class Sign:
    """The contact mark: how a lane is before and after an instant, from top to bottom."""

    before: Fill
    after: Fill


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one place of a table; `below` in smaller letters under it.

    A sign stands left of the text, which says the same in words.
    """

    text: str = ""
    below: str = ""
    strong: bool = False
    sign: Sign | None = None


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    `keep`: its lines are broken only where there is no other way; `wide`: it gets the room that
    is left over.
    """

    head: str
    right: bool = False
    keep: bool = False
    wide: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table, a cell for each column.

    `group`: a line across the table, its only cell, under which the rows that follow belong; it is
    repeated on the next page.
    """

    cells: tuple[Cell, ...]
    group: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table. Its heading row comes again on each page; no row is cut in two.

    `again` is written after a group's line where it is repeated. ValueError for a row with another
    number of cells than there are columns.
    """

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    again: str = "continued"

    def __post_init__(self) -> None:
        for row in self.rows:
            if len(row.cells) != (1 if row.group else len(self.columns)):
                raise ValueError(f"a row of {len(row.cells)} cells in {len(self.columns)} columns")


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as SVG text, as wide as the page or `share` of it; never larger than a page.

    `words` stand under it and are found in the text.
    """

    svg: str
    words: str = ""
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class NewPage:
    """What follows begins on a new page."""


@dataclass(frozen=True, slots=True)
class Signs:
    """The legend of the contact marks, in one line where there is room."""

    each: tuple[tuple[Sign, str], ...]


Block = Heading | Paragraph | Table | Picture | Signs | NewPage


def row(*texts: str) -> Row:
    """A row of plain texts."""
    return Row(tuple(Cell(text) for text in texts))


def group(text: str) -> Row:
    """A line across the table, under which the rows that follow belong."""
    return Row((Cell(text, strong=True),), group=True)
