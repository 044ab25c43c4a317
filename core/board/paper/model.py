"""What is printed of a plan, as data: sections of tables, every word already written."""

from dataclasses import dataclass
from enum import Enum, auto

from core.signal.model import Fill


class Kind(Enum):
    """What stands in a column: so it is set."""

    TIME = auto()
    """Clock times and lengths: not to be broken where there is room at all."""
    WORDS = auto()
    LANE = auto()
    """How a lane is: a mark, and a word that says the same."""


@dataclass(frozen=True, slots=True)
class Head:
    """The heading of a column."""

    text: str
    kind: Kind = Kind.WORDS


@dataclass(frozen=True, slots=True)
class Place:
    """One place of a table: its text, and what stands below it in smaller letters.

    `mark`: how a lane is before and after the instant of the row.
    """

    text: str = ""
    below: str = ""
    strong: bool = False
    mark: tuple[Fill, Fill] | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """A row: a place for each column. With `day` it is a line across, for the rows after it."""

    places: tuple[Place, ...] = ()
    day: str = ""


@dataclass(frozen=True, slots=True)
class Grid:
    """A table."""

    heads: tuple[Head, ...]
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the printed plan: its heading, what is said first, its tables."""

    title: str
    lead: tuple[str, ...] = ()
    grids: tuple[Grid, ...] = ()


@dataclass(frozen=True, slots=True)
class Legend:
    """What a contact mark means."""

    mark: tuple[Fill, Fill]
    text: str


@dataclass(frozen=True, slots=True)
class PlanSheet:
    """The printed plan. `warnings` stand out at its beginning; `what` says as of when it is."""

    title: str
    what: str
    made: str
    lead: tuple[str, ...]
    warnings: tuple[str, ...]
    legend: tuple[Legend, ...]
    sections: tuple[Section, ...]


def line(*texts: str) -> Line:
    """A row of plain texts."""
    return Line(tuple(Place(text) for text in texts))
