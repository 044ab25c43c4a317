"""The zones whose rules stand in a calendar itself (VTIMEZONE), as far as they can be followed.

Their library steps through a rule from its beginning each time it is asked. So only such rules are
taken as zones have: once a year, on a day that comes.
"""

import re
from collections.abc import Sequence
from datetime import tzinfo

from icalendar import Timezone

from core.plan.imports.components import Component

_MOST_CHANGES = 100
_RULE = re.compile(r"RRULE[;:]", re.I)
_YEARLY = re.compile(
    r"RRULE:(?=.*FREQ=YEARLY)"
    r"(?:(?:FREQ=YEARLY|INTERVAL=1|WKST=(?:MO|SU)|BYMONTH=(?:[1-9]|0[1-9]|1[0-2])"
    r"|BYDAY=-?[1-5]?(?:MO|TU|WE|TH|FR|SA|SU)|BYMONTHDAY=(?:-?(?:[1-9]|[12]\d|3[01]),?){1,31}"
    r"|UNTIL=\d{8}(?:T\d{6}Z?)?)(?:;|$)){1,8}",
    re.I,
)
_SHORT = re.compile(r"BYMONTH=0?2(?!\d).*BYMONTHDAY|BYMONTHDAY.*BYMONTH=0?2(?!\d)", re.I)


def zones_of(parts: Sequence[Component]) -> tuple[dict[str, tzinfo], tuple[str, ...]]:
    """The zones by their TZID, and what must be told of those that cannot be followed."""
    found: dict[str, tzinfo] = {}
    told: list[str] = []
    for part in parts:
        if part.kind != "VTIMEZONE" or part.wrong:
            continue
        zone = _zone(part) if _plain(part.lines) else None
        if zone is None:
            told.append(f"Line {part.line}: the rules of this zone cannot be followed")
        else:
            found[zone[0]] = zone[1]
    return found, tuple(told)


def _plain(lines: Sequence[str]) -> bool:
    """Whether all rules are such as zones have."""
    rules = [line.strip() for line in lines if _RULE.match(line)]
    changes = sum(1 for line in lines if line.upper().startswith("BEGIN:")) - 1
    folded = any(line[:1] in (" ", "\t") for line in lines)
    return (
        changes <= _MOST_CHANGES
        and not (rules and folded)
        and all(_YEARLY.fullmatch(rule) and not _SHORT.search(rule) for rule in rules)
    )


def _zone(part: Component) -> tuple[str, tzinfo] | None:
    try:
        zone = Timezone.from_ical("\r\n".join(part.lines) + "\r\n")
        if not isinstance(zone, Timezone):
            return None
        return str(zone["TZID"]), zone.to_tz()
    except (ValueError, KeyError, IndexError, AttributeError, TypeError, OverflowError):
        return None
