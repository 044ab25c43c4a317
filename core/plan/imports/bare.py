"""Whether bare times of a timeline ('00:01:12') count from a start, or are times of day."""

import re

from core.plan.imports.dates import DATE
from core.plan.imports.model import Setting
from core.plan.imports.zoned import zone_at

_LINE = re.compile(r"(?m)^[^\S\n]*(?:[-–−•*][^\S\n]*)?(\d{1,2}):(\d\d):(\d\d)\b(.*)$")
_DASHED = re.compile(r"(?m)^[^\S\n]*[-–−][^\S\n]*\d{1,3}:\d\d:\d\d\b")
_PLAIN = re.compile(r"(?m)^[^\S\n]*\d{1,3}:\d\d:\d\d\b")
_START = re.compile(r"\b(?:lift-?\s?off|launch)\b", re.I)
_HALVES = re.compile(r"\d\s?[ap]\.?m\b", re.I)
_WORD = re.compile(r"(?<![\w-])(?=[A-Z\d])")
_LOOKED_AT = 20_000


def counts_from_start(text: str, setting: Setting) -> bool:
    """Whether they do: liftoff stands at nought, or they begin in the first hour of no day."""
    if setting.bare_elapsed is not None:
        return setting.bare_elapsed
    first = _LINE.search(text)
    if first is None or _HALVES.search(text):
        return False
    for match in _LINE.finditer(text[:_LOOKED_AT]):
        if not any(map(int, match.groups()[:3])) and _START.search(match[4]):
            return True
    return int(first[1]) == 0 and not _names_day_or_zone(text[:_LOOKED_AT], setting)


def dashes_are_minus(text: str) -> bool:
    """Whether a dash before a bare time is a minus sign: some have one and others have none."""
    return _DASHED.search(text) is not None and _PLAIN.search(text) is not None


def _names_day_or_zone(text: str, setting: Setting) -> bool:
    for match in _WORD.finditer(text):
        day = DATE.match(text, match.start())
        if (day is not None and not day["alone"]) or zone_at(text, match.start(), setting)[1]:
            return True
    return False
