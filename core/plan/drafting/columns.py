"""What the tables of a draft are made of: sections, columns and how a cell is typed."""

from dataclasses import dataclass
from enum import StrEnum

from core.plan.gather import Named
from core.plan.positions import Trail


class Kind(StrEnum):
    """How a cell is typed and written."""

    WORDS = "words"
    IDENTITY = "identity"
    LENGTH = "length"
    CLOCK = "clock"
    EITHER = "clock or length"
    """A clock time, or a length where its table counts from an event."""
    FLAG = "flag"
    CHOICE = "choice"
    ONE = "one"
    """The id of something."""
    SEVERAL = "several"
    """Several ids or words."""
    NUMBER = "number"
    NUMBERS = "numbers"
    """A number, or several."""
    BOUND = "bound"
    """A clock time, or the id of an event."""
    MAYBE_LENGTH = "maybe length"
    """A length, or 'none'."""
    WINDOW = "window"
    STRETCHES = "stretches"
    STRETCH = "stretch"
    TIES = "ties"
    EDGE = "edge"
    EPOCH = "epoch"
    KEYED = "keyed"
    """Keys and their values: 'event ignition; duration 374s'."""
    LINES = "lines"


@dataclass(frozen=True, slots=True)
class Column:
    """A key of a table as a column: what stands over it, how it is typed, and like what."""

    key: str
    heading: str
    kind: Kind
    like: str = ""
    about: str = ""
    named: Named | None = None
    """What its ids stand for."""
    choices: tuple[str, ...] = ()
    default: bool = False
    """What a flag is where it is left out."""


@dataclass(frozen=True, slots=True)
class Section:
    """A list of tables of the plan. `inside`: of each row, a list that has a table of its own."""

    key: str
    title: str
    columns: tuple[Column, ...]
    named: Named | None = None
    inside: "Section | None" = None
    called: str = ""
    """What one row is called."""

    def column(self, key: str) -> Column | None:
        """The column of a key."""
        return next((column for column in self.columns if column.key == key), None)


@dataclass(frozen=True, slots=True)
class Cell:
    """One place in a draft: the table that a trail leads to, and a column of it."""

    trail: Trail
    column: Column
