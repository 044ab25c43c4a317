"""Zones as spoken on the air: 'Atlantic', 'Eastern', 'Central European', else the city's name."""

from datetime import datetime, timedelta
from functools import cache

from core.times.zones import find_zone

# The English generic names of the Unicode CLDR (common/main/en.xml, timeZoneNames), without
# 'Time', for zones known by their winter abbreviation and offset in the IANA database. Written
# down from memory of CLDR. The offset tells North America's Central from China's or Cuba's.
_NAMES = {
    ("NST", -210): "Newfoundland",
    ("AST", -240): "Atlantic",
    ("EST", -300): "Eastern",
    ("CST", -360): "Central",
    ("MST", -420): "Mountain",
    ("PST", -480): "Pacific",
    ("AKST", -540): "Alaska",
    ("HST", -600): "Hawaii",
    ("WET", 0): "Western European",
    ("CET", 60): "Central European",
    ("EET", 120): "Eastern European",
    ("MSK", 180): "Moscow",
    ("IST", 330): "India",
    ("CST", 480): "China",
    ("JST", 540): "Japan",
    ("KST", 540): "Korea",
    ("AWST", 480): "Western Australia",
    ("NZST", 720): "New Zealand",
}

_YEAR = 2030
"""Any year will do in which a zone's present rules hold."""


@cache
def spoken_zone(zone: str) -> str:
    """How a zone (IANA name) is spoken of; TimeProblem where there is none of that name."""
    winter = min(
        (datetime(_YEAR, month, 1, tzinfo=find_zone(zone)) for month in (1, 7)),
        key=lambda moment: moment.utcoffset() or timedelta(),
    )
    offset_min = (winter.utcoffset() or timedelta()) // timedelta(minutes=1)
    abbreviation = winter.tzname() or ""
    if abbreviation == "UTC":
        return "UTC"
    if named := _NAMES.get((abbreviation, offset_min)):
        return named
    area, _, place = zone.rpartition("/")
    if area == "Etc":
        return _by_offset(offset_min)
    return place.replace("_", " ")


def _by_offset(offset_min: int) -> str:
    """A zone that is nothing but its offset. Its IANA name has the sign the other way round."""
    hours = abs(offset_min) // 60
    return f"UTC{'−' if offset_min < 0 else '+'}{hours}" if hours else "UTC"
