"""How a time is written on a screen: clock times in one style, lengths with their units.

A length never looks like a clock time. Shown instants are floored to the second, so that the
clock on the wall plus a countdown is always the shown time of its event.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum

from core.times.instants import ms_to_aware
from core.times.zones import find_zone

SECOND_MS = 1_000
MINUTE_MS = 60 * SECOND_MS
HOUR_MS = 60 * MINUTE_MS
DAY_MS = 24 * HOUR_MS

ABOUT_GIVE_MS = 30 * SECOND_MS
"""A time less certain than this loses its seconds and says 'about'."""

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

Parts = tuple[tuple[str, str], ...]
"""A length as (digits, unit) pairs, the largest unit first."""

_UNITS = ((DAY_MS, "d"), (HOUR_MS, "h"), (MINUTE_MS, "min"), (SECOND_MS, "s"))


class Hours(IntEnum):
    """Whether a window's clock times carry a.m. and p.m., or count to 24."""

    TWELVE = 12
    TWENTY_FOUR = 24


@dataclass(frozen=True, slots=True)
class Style:
    """How a window writes every clock time on it: in one zone (IANA name), one way of hours."""

    zone: str
    hours: Hours = Hours.TWELVE


# ------------------------------------------------------------------ instants


def floor_second_ms(instant_ms: int) -> int:
    """The whole second in which an instant falls."""
    return instant_ms // SECOND_MS * SECOND_MS


def apart_ms(later_ms: int, earlier_ms: int) -> int:
    """The difference between two instants as they are shown: that of their whole seconds.

    The countdown to an event is `apart_ms(event, now)`; it is negative once the event is past.
    """
    return floor_second_ms(later_ms) - floor_second_ms(earlier_ms)


def is_about(give_ms: int) -> bool:
    """Whether a time with that give says 'about' and loses its seconds."""
    return give_ms >= ABOUT_GIVE_MS


def local_time(instant_ms: int, zone: str) -> datetime:
    """The instant as clocks in a zone (IANA name) show it. Years 2 to 9998; ValueError beyond."""
    try:
        return ms_to_aware(instant_ms).astimezone(find_zone(zone))
    except OverflowError as error:
        raise ValueError(f"{instant_ms} ms is at the end of all calendars") from error


def clock_text(instant_ms: int, style: Style, *, seconds: bool = True) -> str:
    """The time of day: '4:57:20 p.m.' or '16:57:20', floored; '4:57 p.m.' without seconds."""
    there = local_time(instant_ms, style.zone)
    tail = f":{there.minute:02d}" + (f":{there.second:02d}" if seconds else "")
    if style.hours is Hours.TWENTY_FOUR:
        return f"{there.hour:02d}{tail}"
    half = "a.m." if there.hour < 12 else "p.m."
    return f"{(there.hour + 11) % 12 + 1}{tail} {half}"


def dated_clock_text(instant_ms: int, style: Style, today_ms: int, *, seconds: bool = True) -> str:
    """The time of day, with the day where it is not today's: 'Thu 4:31:00 p.m.'.

    More than six days off it is '22 May 4:31:00 p.m.', in another year '22 May 2032 ...'.
    """
    clock = clock_text(instant_ms, style, seconds=seconds)
    day = _day_text(local_time(instant_ms, style.zone), local_time(today_ms, style.zone))
    return f"{day} {clock}" if day else clock


def nearest_minute_ms(instant_ms: int) -> int:
    """The whole minute nearest to an instant; halfway between two it is the earlier.

    So no shown return is later than it can be by more than half a minute, and 5:12:30 is 5:12.
    """
    return (instant_ms + MINUTE_MS // 2 - 1) // MINUTE_MS * MINUTE_MS


def weekday_text(instant_ms: int, zone: str) -> str:
    """The day of the week there, in full."""
    return WEEKDAYS[local_time(instant_ms, zone).weekday()]


def date_text(instant_ms: int, zone: str) -> str:
    """The date there: '14 May 2031'."""
    there = local_time(instant_ms, zone)
    return f"{there.day} {MONTHS[there.month - 1]} {there.year:04d}"


def _day_text(there: datetime, today: datetime) -> str:
    days = (there.date() - today.date()).days
    if not days:
        return ""
    if abs(days) < 7:
        return WEEKDAYS[there.weekday()][:3]
    year = "" if there.year == today.year else f" {there.year:04d}"
    return f"{there.day} {MONTHS[there.month - 1][:3]}{year}"


# ------------------------------------------------------------------ lengths


def figure(length_ms: int, give_ms: int = 0) -> Parts:
    """A length as a card shows it: (('16', 'min'), ('08', 's')); the sign is dropped.

    Whole seconds, floored; with a give of half a minute or more the nearest whole minute.
    """
    size_ms = abs(length_ms)
    if is_about(give_ms):
        return _parts((size_ms + MINUTE_MS // 2) // MINUTE_MS * MINUTE_MS, last="min")
    return _parts(size_ms, last="s")


def duration_words(length_ms: int, give_ms: int = 0) -> str:
    """A length in words and digits: '16 min 08 s'; the sign is dropped."""
    return _joined(figure(length_ms, give_ms))


def short_duration_words(length_ms: int) -> str:
    """The same without units that are nought at its end: '5 min', '1 h 20 min', '45 s'."""
    parts = figure(length_ms)
    while len(parts) > 1 and not int(parts[-1][0]):
        parts = parts[:-1]
    return _joined(parts)


def difference_words(by_ms: int) -> str:
    """A change against something: '1 min 18 later', '45 s earlier', empty for under a second."""
    if abs(by_ms) < SECOND_MS:
        return ""
    words = short_duration_words(by_ms)
    if SECOND_MS * 60 <= abs(by_ms) < HOUR_MS:
        words = words.removesuffix(" s")
    return f"{words} {'later' if by_ms > 0 else 'earlier'}"


def elapsed_text(length_ms: int) -> str:
    """Mission elapsed time: '3 d 03:12:40', '03:12:40', before it begins '−00:05:00'."""
    whole_s = abs(length_ms) // SECOND_MS
    days, rest_s = divmod(whole_s, 86_400)
    clock = f"{rest_s // 3_600:02d}:{rest_s // 60 % 60:02d}:{rest_s % 60:02d}"
    sign = "−" if length_ms < 0 and whole_s else ""
    return f"{sign}{days} d {clock}" if days else f"{sign}{clock}"


def _parts(size_ms: int, last: str) -> Parts:
    parts: list[tuple[str, str]] = []
    for unit_ms, unit in _UNITS:
        count, size_ms = divmod(size_ms, unit_ms)
        if parts:
            parts.append((f"{count:02d}", unit))
        elif count or unit == last:
            parts.append((str(count), unit))
        if unit == last:
            break
    return tuple(parts)


def _joined(parts: Parts) -> str:
    return " ".join(f"{digits} {unit}" for digits, unit in parts)
