"""The record on paper: both pictures, then the tables. Loads Qt."""

from collections.abc import Iterator

from app.printing.application import drawing_application
from app.printing.blocks import (
    Block,
    Cell,
    Column,
    Heading,
    NewPage,
    Paragraph,
    Picture,
    Row,
    Table,
)
from app.printing.paper import Paper, pdf
from app.printing.running import Running
from app.record.day_strip import strip_pictures
from app.record.inks import PAPER
from app.record.page import FIRST_ROWS, ROWS
from app.record.slips import slip_pictures
from core.session.record.glance import glance
from core.session.record.model import DayRecord
from core.session.record.tables import Part, parts
from core.session.record.words import REHEARSAL, about_lines, heading

_WIDTH = 860.0
"""The pictures are drawn for so many units across the page: their words are then well to read."""
_WIDE = frozenset({"Event", "Read as", "What it said", "Note", "Item", "Check-off"})
"""Columns that take the room that is left."""


def record_pdf(record: DayRecord) -> bytes:
    """The record as PDF, A4."""
    application = drawing_application()
    badge = REHEARSAL if record.rehearsal else ""
    running = Running(heading(record), record.session, badge)
    document = pdf(running, tuple(_blocks(record)), Paper())
    del application  # it was held on to until all was drawn
    return document.data


def _blocks(record: DayRecord) -> Iterator[Block]:
    yield Paragraph("\n".join(about_lines(record)), small=True)
    yield Paragraph("\n".join(glance(record)))
    slips = slip_pictures(record, PAPER, _WIDTH, ROWS, FIRST_ROWS)
    for place, svg in enumerate(slips):
        yield NewPage() if place else Heading("Planned against happened")
        yield Picture(svg)
    for place, svg in enumerate(strip_pictures(record, PAPER, _WIDTH)):
        yield NewPage()
        if not place:
            yield Heading("The day's strip")
        yield Picture(svg)
    yield NewPage()
    for part in parts(record):
        yield Heading(part.title)
        yield _table(part, rehearsal=record.rehearsal)


def _table(part: Part, *, rehearsal: bool) -> Table:
    mark = (Cell("", REHEARSAL),) if rehearsal else ()
    columns = tuple(
        Column(head, keep=firm, wide=head in _WIDE)
        for head, firm in zip(part.head, part.firm, strict=True)
    )
    rows = tuple(Row((*mark, *(Cell(text) for text in row))) for row in part.rows)
    return Table((*((Column("", keep=True),) if rehearsal else ()), *columns), rows)
