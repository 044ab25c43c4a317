"""The records of a table as text: which mark divides them, and the lines of each."""

import csv
import io
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

MARKS = ("\t", ";", "|", ",")
"""What may stand between two cells; of two that fit alike the first counts."""

_LOOKED_AT = 60
_MOST_LINES = 500
"""A cell in quotation marks may go over so many lines."""

OPEN_QUOTE = "a quotation mark is opened here and not closed"


@dataclass(frozen=True, slots=True)
class Record:
    """One row of a table: its first line, how many it has, its cells; `wrong` if it has none."""

    line: int
    lines: int
    text: str
    cells: tuple[str, ...]
    wrong: str = ""


def lines_kept(text: str) -> list[str]:
    """The lines with their ends, whichever way they end."""
    return list(io.StringIO(text, newline=""))


def mark_of(lines: Sequence[str]) -> str:
    """The mark between the cells; a comma where none divides the lines."""
    best, score = ",", (0.0, 0)
    for mark in MARKS:
        widths = [len(record.cells) for record in islice(records(lines, mark), _LOOKED_AT)]
        counts = Counter(width for width in widths if width > 1)
        if counts:
            width, often = counts.most_common(1)[0]
            if (often / len(widths), min(width, 2)) > score:
                best, score = mark, (often / len(widths), min(width, 2))
    return best


def records(lines: Sequence[str], mark: str, start: int = 0) -> Iterator[Record]:
    """The records from a line on. Blank lines are left out; what is broken is given alone."""
    at = start
    while at < len(lines):
        if not lines[at].strip("\r\n \ufeff"):
            at += 1
            continue
        record = _record(lines, at, mark)
        yield record
        at += record.lines


def _record(lines: Sequence[str], at: int, mark: str) -> Record:
    line = lines[at]
    if '"' not in line:
        return Record(at + 1, 1, _bare(line), tuple(_bare(line).split(mark)))
    reach = 1 if line.count('"') % 2 == 0 else _MOST_LINES
    reader = csv.reader(lines[at : at + reach], delimiter=mark, strict=True)
    try:
        cells = next(reader)
    except csv.Error:
        return _loose(line, at, mark)
    count = reader.line_num
    text = _bare("".join(lines[at : at + count]))
    return Record(at + 1, count, text, tuple(cells))


def _loose(line: str, at: int, mark: str) -> Record:
    """A line whose quotation marks are not as they should be: read if it ends within itself."""
    try:
        cells = next(csv.reader([line], delimiter=mark))
    except csv.Error:
        return Record(at + 1, 1, _bare(line), (), "this cell is too long")
    if any("\n" in cell or "\r" in cell for cell in cells):
        return Record(at + 1, 1, _bare(line), (), OPEN_QUOTE)
    return Record(at + 1, 1, _bare(line), tuple(cells))


def _bare(text: str) -> str:
    return text.rstrip("\r\n")
