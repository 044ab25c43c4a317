"""Zones as papers name them after a clock time: 'EDT', 'Eastern', 'UTC', '-03:00'."""

import re
from dataclasses import dataclass
from functools import lru_cache

from core.plan.imports.model import Setting
from core.times.spoken import spoken_zone

# Minutes east of UTC. EST to PDT by RFC 5322, section 4.3; the others as the IANA database
# abbreviates them, written down from memory of it.
_FIXED_MIN = {
    "UTC": 0,
    "GMT": 0,
    "ZULU": 0,
    "Z": 0,
    "NST": -210,
    "NDT": -150,
    "AST": -240,
    "ADT": -180,
    "EST": -300,
    "EDT": -240,
    "CST": -360,
    "CDT": -300,
    "MST": -420,
    "MDT": -360,
    "PST": -480,
    "PDT": -420,
    "AKST": -540,
    "AKDT": -480,
    "HST": -600,
    "WET": 0,
    "WEST": 60,
    "BST": 60,
    "CET": 60,
    "CEST": 120,
    "EET": 120,
    "EEST": 180,
    "MSK": 180,
    "JST": 540,
    "KST": 540,
    "AEST": 600,
    "AEDT": 660,
    "NZST": 720,
    "NZDT": 780,
}

# As North America's papers say them, summer or winter: common practice, no source.
_GENERIC = {
    "ET": "America/New_York",
    "CT": "America/Chicago",
    "MT": "America/Denver",
    "PT": "America/Los_Angeles",
    "EASTERN": "America/New_York",
    "CENTRAL": "America/Chicago",
    "MOUNTAIN": "America/Denver",
    "PACIFIC": "America/Los_Angeles",
    "ATLANTIC": "America/Halifax",
    "NEWFOUNDLAND": "America/St_Johns",
}

UNCLEAR = frozenset({"IST", "SST", "ECT", "WST"})
"""Abbreviations of several zones far apart: a time with one of them is not read."""

_KINDS = r"(?:\s+(?P<season>daylight|standard|summer))?(?:\s+time\b)?"
OFFSET = re.compile(r"(?:UTC|GMT)\s?(?P<sign>[+−-])(?P<h>\d{1,2})(?::?(?P<m>\d\d))?(?![\d:])", re.I)


@dataclass(frozen=True, slots=True)
class Zone:
    """What clock times are shown in: a zone by its IANA name, or minutes east of UTC."""

    name: str = ""
    offset_min: int | None = None


def setting_zone(setting: Setting) -> Zone:
    """The zone of clock times that say none."""
    return Zone(setting.zone)


@lru_cache(maxsize=64)
def _pattern(zones: tuple[str, ...]) -> tuple[re.Pattern[str], dict[str, str]]:
    """A pattern for the names known here, and what the plan's own names stand for."""
    own: dict[str, str] = {}
    for zone in zones:
        city = zone.rpartition("/")[2].replace("_", " ")
        for name in (spoken_zone(zone), city, zone):
            own.setdefault(name.upper(), zone)
    known = sorted({*own, *_GENERIC}, key=len, reverse=True)
    spoken = "|".join(re.escape(name) for name in known if len(name) > 2)
    short = "|".join(sorted({*_FIXED_MIN, *UNCLEAR, "ET", "CT", "MT", "PT"}, key=len)[::-1])
    pattern = rf"(?P<spoken>(?i:{spoken}))(?i:{_KINDS})(?!\w)|(?P<short>{short})(?!\w)"
    return re.compile(pattern), own


def zone_at(text: str, at: int, setting: Setting) -> tuple[Zone | None, str, int]:
    """The zone named at a place of a text, the name, and where it ends.

    No zone but a name: an abbreviation that stands for several. Neither: no zone stands there.
    """
    if match := OFFSET.match(text, at):
        sign = 1 if match["sign"] == "+" else -1
        offset_min = sign * (int(match["h"]) * 60 + int(match["m"] or 0))
        if abs(offset_min) <= 14 * 60:
            return Zone(offset_min=offset_min), match[0].strip(), match.end()
    pattern, own = _pattern((setting.zone, *setting.zones))
    match = pattern.match(text, at)
    if match is None:
        return None, "", at
    name = (match["spoken"] or match["short"]).upper()
    if name in UNCLEAR:
        return None, name, match.end()
    if match["short"] and name in _FIXED_MIN:
        return Zone(offset_min=_FIXED_MIN[name]), name, match.end()
    return Zone(own.get(name) or _GENERIC[name]), match[0], match.end()
