"""`limbwatch record`: what each format is made by, and which files it may be written over."""

from enum import StrEnum
from pathlib import Path

from app.record.page import GENERATOR, record_page
from core.session.database import BESIDE
from core.session.record.model import DayRecord
from core.session.record.sheet import COLUMNS, record_csv
from core.session.record.text import record_text
from core.times.writing import Hours


class Format(StrEnum):
    """What a record is written as; the word is also the end of the file's name, but for text."""

    TEXT = "text"
    CSV = "csv"
    ICS = "ics"
    HTML = "html"
    PDF = "pdf"


_ENDS = {".txt": Format.TEXT, ".htm": Format.HTML, **{f".{each}": each for each in Format}}

_SIGNS = {
    Format.TEXT: b"Record: ",
    Format.CSV: ",".join(COLUMNS[:4]).encode(),
    Format.ICS: b"PRODID:-//Limbwatch//Record",
    Format.HTML: GENERATOR.encode(),
    Format.PDF: b"%PDF-",
}
"""What stands near the beginning of a record that was written before."""
_NEAR = 1_000


def format_of(path: Path) -> Format | None:
    """The format that a file's name asks for by its end; None where it asks for none."""
    return _ENDS.get(path.suffix.lower())


def hours_of(kind: Format) -> Hours:
    """How clock times are written where nobody says: in columns and on paper room is scarce."""
    return Hours.TWENTY_FOUR if kind in (Format.TEXT, Format.PDF) else Hours.TWELVE


def written(record: DayRecord, kind: Format) -> bytes:
    """The record in that format. Only PDF loads Qt."""
    match kind:
        case Format.TEXT:
            return record_text(record).encode()
        case Format.CSV:
            return record_csv(record).encode()
        case Format.HTML:
            return record_page(record).encode()
        case Format.ICS:
            # Late: the library takes a tenth of a second to load.
            from core.session.record.calendar import record_calendar  # noqa: PLC0415

            return record_calendar(record)
        case Format.PDF:
            # Late: it loads Qt.
            from app.record.printed import record_pdf  # noqa: PLC0415

            return record_pdf(record)


def is_in_the_way(path: Path, kind: Format) -> bool:
    """Whether a file stands there that is no record of that format: it is not written over.

    Raises OSError where it cannot be read.
    """
    if not path.is_file():
        return False
    with path.open("rb") as file:
        begins = file.read(_NEAR)
    return bool(begins) and _SIGNS[kind] not in begins


def is_of_session(path: Path, session: Path) -> bool:
    """Whether a file is the session itself, or one of those that belong to it."""
    target, own = path.resolve(), session.resolve()
    return target in {own.with_name(f"{own.name}{end}") for end in ("", ".lock", *BESIDE)}
