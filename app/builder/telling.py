"""What the builder says of a draft in words: its pages, what is wrong, what hangs on what."""

from collections.abc import Sequence

from app.builder.grid import MARK
from app.builder.lists import Line
from core.plan.drafting.columns import Cell, Kind, Section
from core.plan.drafting.placing import Fault
from core.plan.drafting.references import names
from core.plan.drafting.sections import FLIGHT, section_of
from core.plan.drafting.signal_tables import CONTACTS
from core.plan.drafting.standing import Standing, row_words
from core.plan.positions import Trail
from core.times.zones import zone_names

_MOST_NAMED = 6


def page_words(section: Section | None, now: Standing) -> str:
    """The name of a page with the number of its rows, marked where something is wrong on it."""
    wrong = {fault.trail[:1] for fault in now.faults if not fault.warning}
    if section is None:
        words, marked = "Flight", bool(wrong & {cell.trail for cell in FLIGHT})
    else:
        number = len(now.trails(section))
        words = f"{section.title} {number}" if number else section.title
        marked = (section.key,) in wrong
    return f"{MARK} {words}" if marked else words


def fault_line(now: Standing, fault: Fault) -> Line:
    """A problem on a line: its row, its column, what is wrong and what to do."""
    mark = "note" if fault.warning else MARK
    section = section_of(str(fault.trail[0])) if fault.trail else None
    if section is None:
        return Line((mark, "Flight", _flight_heading(fault), fault.words))
    inner = section.inside if len(fault.trail) == 4 else section
    column = inner.column(fault.key) if inner is not None else None
    number = fault.trail[1] if len(fault.trail) > 1 else None
    row = f"{section.title} {number + 1}" if isinstance(number, int) else ""
    where = f"{row}  {row_words(now, fault.trail[:2])}".strip()
    heading = column.heading if column is not None else fault.key
    return Line((mark, where, heading, fault.words))


def _flight_heading(fault: Fault) -> str:
    """What stands over the cell of the flight's page that is wrong."""
    place = (fault.trail, fault.key)
    cells = (cell for cell in FLIGHT if (cell.trail, cell.column.key) == place)
    return next((cell.column.heading for cell in cells), fault.key)


def inside_words(now: Standing, inner: Section, under: Trail) -> str:
    """What stands over the list inside a row; empty where the row can have none."""
    table = now.table(under)
    if not under or (inner is CONTACTS and table.get("kind") not in {None, "passes"}):
        return ""
    name = row_words(now, under)
    if inner is CONTACTS and "file" in table:
        return f"{inner.title} of {name} stand in a file of their own: {table['file']}"
    number = len(now.trails(inner, under))
    return f"{inner.title} of {name}: {number or 'none'}     F6 goes there, Ins makes one"


def cell_words(now: Standing, cell: Cell, *, named: bool) -> str:
    """What a cell is for and what is typed there; `named`: with its row before it."""
    column = cell.column
    like = f"     like  {column.like}" if column.like else ""
    about = f"{column.heading}: {column.about}" if column.about else column.heading
    row = f"{row_words(now, cell.trail)}     " if named else ""
    return f"{row}{about}{like}"


def offered(now: Standing, cell: Cell) -> Sequence[str]:
    """What could stand in a cell."""
    column = cell.column
    if column.key == "zones":
        return zone_names()
    if column.kind is Kind.IDENTITY or column.named is None:
        return column.choices
    return names(now.raw, column.named)


def some_of(words: Sequence[str]) -> str:
    """The first few of many, and how many more there are."""
    told = ", ".join(words[:_MOST_NAMED])
    more = len(words) - _MOST_NAMED
    return told if more <= 0 else f"{told} and {more} more"
