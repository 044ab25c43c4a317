"""The record as plain text, for the desk's own file: at most a hundred characters a line."""

from collections.abc import Iterator

from core.session.record.columns import paragraph, table
from core.session.record.glance import glance
from core.session.record.model import DayRecord
from core.session.record.tables import FIRM, parts
from core.session.record.words import REHEARSAL, about_lines, heading, in_one_line

WIDTH = 100


def record_text(record: DayRecord) -> str:
    """The whole record. Of a rehearsal every line says so."""
    mark = f"{REHEARSAL}  " if record.rehearsal else ""
    lines = (in_one_line(line.replace(FIRM, " ")) for line in _lines(record, WIDTH - len(mark)))
    return "".join(f"{mark}{line}".rstrip() + "\n" for line in lines)


def _lines(record: DayRecord, width: int) -> Iterator[str]:
    for line in (heading(record), *about_lines(record)):
        yield from paragraph(line, width)
    yield ""
    for line in glance(record):
        yield from paragraph(line, width, "  ")
    for part in parts(record):
        yield ""
        yield part.title.upper()
        yield from table([tuple(each.upper() for each in part.head), *part.rows], width)
