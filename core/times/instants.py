"""Instants as whole milliseconds UTC since the Unix epoch, and as RFC 3339 text."""

import re
from datetime import UTC, datetime, timedelta

from core.errors import TimeProblem

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MS = timedelta(milliseconds=1)

_RFC3339 = re.compile(
    r"(?P<date>\d{4}-\d\d-\d\d)[Tt ](?P<time>\d\d:\d\d:\d\d)(?:\.(?P<fraction>\d{1,30}))?"
    r"(?P<offset>[Zz]|[+-]\d\d:\d\d)?",
    re.ASCII,
)


def aware_to_ms(moment: datetime) -> int:
    """The instant of an aware datetime, rounded to the millisecond (a half goes up)."""
    return (moment - EPOCH + _MS / 2) // _MS


def ms_to_aware(instant_ms: int) -> datetime:
    """The instant as an aware datetime in UTC. Years 1 to 9999; ValueError beyond."""
    try:
        return EPOCH + timedelta(milliseconds=instant_ms)
    except OverflowError as error:
        raise ValueError(f"{instant_ms} ms is outside the years 1 to 9999") from error


def rfc3339_to_ms(text: str) -> int:
    """The instant that an RFC 3339 date and time names; digits beyond the millisecond round.

    Raises TimeProblem where it is none, or has no offset.
    """
    moment = parse_moment(text)
    if moment.tzinfo is None:
        raise TimeProblem(f"'{text}' says no zone", "Add Z, or an offset like -03:00")
    return aware_to_ms(moment)


def ms_to_rfc3339(instant_ms: int) -> str:
    """The instant in RFC 3339, UTC, with milliseconds: '2031-05-14T19:58:05.250Z'."""
    text = ms_to_aware(instant_ms).isoformat(timespec="milliseconds")
    return text.replace("+00:00", "Z")


def parse_moment(text: str) -> datetime:
    """A date and time as written: aware where it has an offset, else naive (local to someone).

    Raises TimeProblem where it is neither, or names a day or an hour that no clock has.
    """
    shown = text if len(text) <= 40 else f"{text[:37]}..."
    match = _RFC3339.fullmatch(text.strip())
    if match is None:
        raise TimeProblem(
            f"'{shown}' is no date and time",
            "Write it like 2031-05-14T17:50:00, with Z or an offset if it is not the desk's time",
        )
    fraction = (match["fraction"] or "")[:6].ljust(6, "0")
    offset = (match["offset"] or "").upper().replace("Z", "+00:00")
    try:
        moment = datetime.fromisoformat(f"{match['date']}T{match['time']}.{fraction}{offset}")
        if moment.tzinfo is not None:
            moment.astimezone(UTC)
    except (ValueError, OverflowError) as error:
        raise TimeProblem(f"'{shown}' names a day or time that does not exist") from error
    return moment
