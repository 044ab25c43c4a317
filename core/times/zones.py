"""Clock times in a zone, and the instants they stand for."""

import re
from datetime import datetime
from functools import cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from dateutil import tz

from core.errors import TimeProblem
from core.times.instants import aware_to_ms, parse_moment

_WITHOUT_SECONDS = re.compile(r"\d{4}-\d\d-\d\d[Tt ]\d\d:\d\d(?=$|[Zz+-])", re.ASCII)


@cache
def find_zone(name: str) -> ZoneInfo:
    """The zone of an IANA name; TimeProblem where there is none."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise TimeProblem(
            f"'{name[:60]}' is no time zone", "Write an IANA name, like America/Halifax"
        ) from error


def zone_names() -> tuple[str, ...]:
    """Every IANA zone that is known here, sorted. Slow the first time (it reads a folder)."""
    return tuple(sorted(available_timezones()))


def local_to_utc_ms(naive: datetime, zone: str) -> int:
    """The instant at which clocks in `zone` show `naive`.

    Raises TimeProblem where they never show it (skipped in spring), or show it twice.
    """
    there = naive.replace(tzinfo=find_zone(zone))
    shown = naive.isoformat(sep=" ")
    try:
        if not tz.datetime_exists(there):
            raise TimeProblem(
                f"{shown} does not exist in {zone}: clocks skip it",
                "Write it with an offset or in UTC with Z",
            )
        if tz.datetime_ambiguous(there):
            raise TimeProblem(
                f"{shown} comes twice in {zone}: clocks are put back then",
                f"Write which: {_offsets(there)}",
            )
        return aware_to_ms(there)
    except OverflowError as error:
        raise TimeProblem(f"{shown} is outside the years that can be reckoned with") from error


def instant_to_ms(text: str, zone: str) -> int:
    """The instant that `text` writes: RFC 3339 as it stands, without an offset a time in `zone`.

    Raises TimeProblem as `rfc3339_to_ms` and `local_to_utc_ms` do.
    """
    moment = parse_moment(text)
    return local_to_utc_ms(moment, zone) if moment.tzinfo is None else aware_to_ms(moment)


def typed_to_ms(text: str, zone: str) -> int:
    """The same, as one types it: the seconds may be left out, as in '2031-05-14T16:58'."""
    return instant_to_ms(_WITHOUT_SECONDS.sub(r"\g<0>:00", text.strip(), count=1), zone)


def _offsets(there: datetime) -> str:
    """Both readings of a repeated time, earlier first, as one would write them."""
    both = (there.replace(fold=fold).isoformat() for fold in (0, 1))
    return " or ".join(both)


def local_instants_ms(naive: datetime, zone: str) -> tuple[int, ...]:
    """Every instant at which clocks in `zone` show `naive`: none (skipped), one, or two (repeated).

    In order of time. OverflowError at the ends of the calendar.
    """
    there = naive.replace(tzinfo=find_zone(zone))
    # Asked first: a skipped time counts as ambiguous too.
    if not tz.datetime_exists(there):
        return ()
    folds = (0, 1) if tz.datetime_ambiguous(there) else (0,)
    return tuple(aware_to_ms(there.replace(fold=fold)) for fold in folds)
