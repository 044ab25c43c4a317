"""The printed plan of a desk, and its words by section, for tests."""

from core.board.paper.model import Grid, Line, Place, PlanSheet, Section
from core.board.paper.sheet import AsOf
from core.session.on_paper import printed_plan
from core.times.instants import rfc3339_to_ms
from tests.core.board.boards import Seat

MADE_MS = rfc3339_to_ms("2031-05-13T20:05:00Z")


def stands(taken: Seat) -> PlanSheet:
    """As it stands at the moment that the clock shows."""
    return printed_plan(taken.desk, AsOf(taken.now_ms, MADE_MS))


def written(taken: Seat) -> PlanSheet:
    """As planned."""
    return printed_plan(taken.desk, AsOf(None, MADE_MS))


def section(sheet: PlanSheet, title: str) -> Section:
    """The section of that title."""
    return next(each for each in sheet.sections if each.title == title)


def titles(sheet: PlanSheet) -> list[str]:
    """The titles of all sections."""
    return [each.title for each in sheet.sections]


def heads(grid: Grid) -> list[str]:
    """The headings of a table."""
    return [head.text for head in grid.heads]


def events(sheet: PlanSheet) -> Grid:
    """The table of events."""
    return section(sheet, "Events").grids[0]


def row(grid: Grid, name: str) -> dict[str, Place]:
    """The row in which that text stands, by its headings."""
    found = next(line for line in grid.lines if any(p.text == name for p in line.places))
    return dict(zip(heads(grid), found.places, strict=True))


def event(sheet: PlanSheet, name: str) -> dict[str, Place]:
    """The row of an event, by its headings."""
    return row(events(sheet), name)


def text(line: Line) -> str:
    """All the words of a row."""
    return line.day or " | ".join(
        f"{place.text} ({place.below})" if place.below else place.text for place in line.places
    )


def words(sheet: PlanSheet, title: str) -> list[str]:
    """All rows of a section in words."""
    return [text(line) for grid in section(sheet, title).grids for line in grid.lines]
