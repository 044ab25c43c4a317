"""What a dropped or pasted text most likely is, by its content alone."""

import re
from collections import Counter
from enum import StrEnum
from itertools import islice

from core.plan.imports.records import MARKS, lines_kept, records

_LOOKED_AT = 60
_TWO_LINES = re.compile(r"(?m)^1 [A-Z0-9 ]{5}[A-Z ] .*\r?\n2 [A-Z0-9 ]{5} ")
_MESSAGE = re.compile(r"\s*CCSDS_(OEM|OMM)_VERS\b")
_MARKUP = re.compile(r"<(?:\w+:)?(oem|omm)\b", re.I)
_HOLDER = re.compile(r"<(?:\w+:)?ndm\b", re.I)
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
        widths = [len(record.cells) for record in islice(records(lines, mark), _LOOKED_AT)]
        width, often = Counter(widths).most_common(1)[0] if widths else (1, 0)
        # A comma stands in sentences too: there all lines but one must agree, with three cells.
        most = 0.7 if mark != "," else 0.95
        if width > 1 and often >= most * len(widths) and (mark != "," or _even(widths)):
            return True
    return False


def _even(widths: list[int]) -> bool:
    return len(widths) > 1 and (max(widths) > 2 or min(widths) > 1)
