"""When an entry of a calendar comes again: its rule, as far as a stated horizon."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import islice

from dateutil.rrule import rrulestr
from icalendar import vRecur

from core.errors import TimeProblem

HORIZON = timedelta(days=366)
"""A rule is followed so long after its first time."""

_MOST_WEEKS, _MOST_PARTS = 53, 400
MOST_TIMES = 400
"""So many times of one rule are taken."""

_OFTEN = ("SECONDLY", "MINUTELY")
_BY_HOURS = "HOURLY"
_TAKEN = frozenset(("FREQ", "UNTIL", "COUNT", "INTERVAL", "WKST", "BYSETPOS")) | frozenset(
    ("BYSECOND", "BYMINUTE", "BYHOUR", "BYDAY", "BYMONTHDAY", "BYYEARDAY", "BYWEEKNO", "BYMONTH")
)

# The Gregorian calendar comes again every 400 years, to the day of the week. Rules that never
# fall on any day are searched to the end of all years: from here on that is not far.
_SHIFT_YEARS = 7_600
FIRST_YEAR, LAST_YEAR = 1_900, 2_199
"""The years of a plan."""


@dataclass(frozen=True, slots=True)
class Times:
    """The times of a rule on the clocks of its zone, in order, and why there are no more."""

    local: tuple[datetime, ...]
    cut: str = ""


def times_of(rule: vRecur, first: datetime) -> Times:
    """The times of a rule from its first one on (without a zone). UNTIL is not looked at here.

    Raises TimeProblem for a rule that cannot be followed.
    """
    _check(rule, first)
    found: list[datetime] = [first]
    last, any_time = first + HORIZON, False
    for each in _following(rule, first):
        any_time = True
        if each > last:
            return Times(tuple(found), f"a year, until {last.date().isoformat()}")
        if each <= first:
            continue
        if len(found) == MOST_TIMES:
            return Times(tuple(found), f"{MOST_TIMES} times")
        found.append(each)
    return Times(tuple(found), "" if any_time else "its first time: the rule gives none")


def _following(rule: vRecur, first: datetime) -> Iterator[datetime]:
    words = bytes(rule.to_ical()).decode()  # type: ignore[no-untyped-call]
    kept = ";".join(part for part in words.split(";") if not part.upper().startswith("UNTIL="))
    try:
        each = rrulestr(kept, dtstart=first.replace(year=first.year + _SHIFT_YEARS))
        for one in islice(each, MOST_TIMES + 2):
            yield one.replace(year=one.year - _SHIFT_YEARS)
    except (ValueError, OverflowError, TypeError, IndexError) as error:
        raise TimeProblem("RRULE cannot be followed", "Write its times out") from error


def _check(rule: vRecur, first: datetime) -> None:
    often = str(next(iter(rule.get("FREQ", ())), "")).upper()
    if not often:
        raise TimeProblem("RRULE says no FREQ", "Write FREQ=DAILY, WEEKLY, MONTHLY or YEARLY")
    if often in _OFTEN:
        unit = often.removesuffix("LY").lower()
        raise TimeProblem(f"this repeats every {unit}", "Write out the times that matter")
    odd = sorted(key.upper() for key in rule if key.upper() not in _TAKEN)
    if odd:
        raise TimeProblem(f"RRULE has {odd[0][:20]}, which is not followed", "Write its times out")
    if often == _BY_HOURS and any(key.upper().startswith("BY") for key in rule):
        raise TimeProblem("RRULE picks among hours", "Write FREQ=DAILY with BYHOUR, or its times")
    if sum(len(values) for values in rule.values()) > _MOST_PARTS:
        raise TimeProblem("RRULE is very long", "Write its times out")
    if any(abs(getattr(day, "relative", None) or 0) > _MOST_WEEKS for day in rule.get("BYDAY", ())):
        raise TimeProblem("RRULE counts past the weeks of a year", "BYDAY goes to 53")
    if any(int(count) < 1 for key in ("INTERVAL", "COUNT") for count in rule.get(key, ())):
        raise TimeProblem("RRULE counts with nought", "INTERVAL and COUNT are 1 or more")
    if not FIRST_YEAR <= first.year <= LAST_YEAR:
        raise TimeProblem("this is outside the years 1900 to 2199", "Check the year")
