"""What a dropped or pasted text most likely is, by its content alone."""

import re
from collections import Counter
from enum import StrEnum
from itertools import islice

from core.plan.imports.columns import heading_at, is_heading
from core.plan.imports.dates import DATE
from core.plan.imports.records import MARKS, Record, lines_kept, records

_LOOKED_AT = 60
_TIMELINE_CELLS = 3
"""Of a line: a clock time, an elapsed time, words."""
_TWO_LINES = re.compile(r"(?m)^1 [A-Z0-9 ]{5}[A-Z ] .*\r?\n2 [A-Z0-9 ]{5} ")
_MESSAGE = re.compile(r"\s*CCSDS_(OEM|OMM)_VERS\b")
_MARKUP = re.compile(r"<(?:\w+:)?(oem|omm)\b", re.I)
_HOLDER = re.compile(r"<(?:\w+:)?ndm\b", re.I)
_SAID = re.compile(r"\b(?:all )?(?:times|hours)\b.*\b[A-Z]{2,5}\b|\belapsed\b|\bT\s?[+-]", re.I)
"""What a line says of the times below it: 'All times EDT'."""
_PLAN = re.compile(r"(?m)^\s*(?:limbwatch\s*=|\[\[event\]\])")


class Kind(StrEnum):
    """What a text is; the value is how a screen calls it."""

    TABLE = "table"
    CALENDAR = "calendar"
    TIMELINE = "timeline"
    TRAJECTORY = "trajectory"
    ELEMENTS = "elements"
    ORBIT_MARKUP = "orbit data in XML"
    PLAN = "plan"


def kind_of(text: str) -> Kind:
    """What a text most likely is; a timeline where nothing else fits."""
    start = text.removeprefix("\ufeff").lstrip()[:4_000]
    if start[:15].upper() == "BEGIN:VCALENDAR":
        return Kind.CALENDAR
    if _PLAN.search(start):
        return Kind.PLAN
    return _orbit(start) or (Kind.TABLE if _is_table(text[:100_000]) else Kind.TIMELINE)


def _orbit(start: str) -> Kind | None:
    if message := _MESSAGE.match(start):
        return Kind.TRAJECTORY if message[1] == "OEM" else Kind.ELEMENTS
    if start.startswith("<"):
        named = _MARKUP.search(start)
        if named is None:
            return Kind.ORBIT_MARKUP if _HOLDER.search(start) else None
        return Kind.TRAJECTORY if named[1].lower() == "oem" else Kind.ELEMENTS
    if _TWO_LINES.search(start):
        return Kind.ELEMENTS
    return Kind.ELEMENTS if start[:1] in "[{" and '"MEAN_MOTION"' in start else None


def _is_table(text: str) -> bool:
    """Whether most lines have as many cells as each other, two or more."""
    lines = lines_kept(text)[:_LOOKED_AT]
    if lines and re.fullmatch(r"sep=.\s*", lines[0], re.I):
        return True
    for mark in MARKS:
        found = list(islice(records(lines, mark), _LOOKED_AT))
        widths = [len(record.cells) for record in found]
        width, often = Counter(widths).most_common(1)[0] if widths else (1, 0)
        # A comma stands in sentences too: there all lines but one must agree, with three cells.
        most = 0.7 if mark != "," else 0.95
        if width > 1 and often >= most * len(widths) and (mark != "," or _even(widths)):
            return not _is_timeline(found)
    return False


def _is_timeline(found: list[Record]) -> bool:
    """Whether lines with two cells stand below days, or below a word on their times.

    A press kit has a tab behind its times: no row is a heading, and days stand between them.
    """
    filled = [[cell.strip() for cell in one.cells if cell.strip()] for one in found]
    rows = [cells for cells in filled if len(cells) > 1]
    if not rows or max(len(cells) for cells in rows) > _TIMELINE_CELLS:
        return False
    first = heading_at(rows)
    if is_heading(rows[first], rows[first + 1 :]):
        return False
    lone = (cells[0] for cells in filled if len(cells) == 1)
    return any(DATE.match(line) or _SAID.search(line) for line in lone)


def _even(widths: list[int]) -> bool:
    return len(widths) > 1 and (max(widths) > 2 or min(widths) > 1)
