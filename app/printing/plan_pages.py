"""The printed plan laid out: sections as headings and tables. It writes no word of its own."""

from collections.abc import Iterator

from app.printing.blocks import (
    Block,
    Cell,
    Column,
    Heading,
    Paragraph,
    Row,
    Sign,
    Signs,
    Table,
    group,
)
from app.printing.paper import Printed, Size, fitting, pdf
from app.printing.running import Running
from core.board.paper.model import Grid, Head, Kind, Line, Place, PlanSheet


def plan_pdf(sheet: PlanSheet, size: Size, badge: str = "") -> Printed:
    """The plan as PDF, on its side where its tables need the width.

    Needs a running application: see `drawing_application`.
    """
    running = Running(sheet.title, sheet.what, badge, sheet.made)
    blocks = list(plan_blocks(sheet))
    return pdf(running, blocks, fitting(blocks, size))


def plan_blocks(sheet: PlanSheet) -> Iterator[Block]:
    """The sheet as blocks, in its order."""
    for text in sheet.warnings:
        yield Paragraph(text, strong=True)
    for text in sheet.lead:
        yield Paragraph(text, small=True)
    if sheet.legend:
        yield Signs(tuple((Sign(*each.mark), each.text) for each in sheet.legend))
    for section in sheet.sections:
        yield Heading(section.title)
        for text in section.lead:
            yield Paragraph(text, small=True, leads=True)
        for grid in section.grids:
            yield _table(grid)


def _table(grid: Grid) -> Table:
    return Table(
        tuple(_column(head) for head in grid.heads), tuple(_row(each) for each in grid.lines)
    )


def _column(head: Head) -> Column:
    return Column(head.text, keep=head.kind is not Kind.WORDS, wide=head.kind is Kind.WORDS)


def _row(line: Line) -> Row:
    return group(line.day) if line.day else Row(tuple(_cell(place) for place in line.places))


def _cell(place: Place) -> Cell:
    sign = None if place.mark is None else Sign(*place.mark)
    return Cell(place.text, place.below, place.strong, sign)
