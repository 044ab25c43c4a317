"""Times as the presenter window writes them: rounded as they are spoken, in digits."""

from core.board.words import either
from core.saying.against import against_words
from core.saying.clocks import said_minute_ms
from core.times.spoken import spoken_zone
from core.times.writing import (
    DAY_MS,
    HOUR_MS,
    MINUTE_MS,
    MONTHS,
    SECOND_MS,
    WEEKDAYS,
    Style,
    apart_ms,
    clock_text,
    dated_clock_text,
    floor_second_ms,
    is_about,
    local_time,
    nearest_minute_ms,
)


def spoken_clock(
    at_ms: int, give_ms: int, style: Style, now_ms: int, *, later: bool = False
) -> str:
    """'4:49 p.m. Atlantic', 'about 5:31 p.m. Atlantic', 'Thursday, 4:31 p.m. Atlantic'.

    The minute in which it is, or about which it is: as it is said. The `later` of two returns is
    said to the nearest.
    """
    minute_ms = nearest_minute_ms(at_ms) if later else said_minute_ms(at_ms, give_ms)
    day = _day(minute_ms, style, now_ms)
    about = "about " if is_about(give_ms) else ""
    words = f"{about}{clock_text(minute_ms, style, seconds=False)} {spoken_zone(style.zone)}"
    return f"{day}, {words}" if day else words


def _day(at_ms: int, style: Style, now_ms: int) -> str:
    there = local_time(at_ms, style.zone)
    days = (there.date() - local_time(now_ms, style.zone).date()).days
    if not days:
        return ""
    if abs(days) < 7:
        return WEEKDAYS[there.weekday()]
    return f"{there.day} {MONTHS[there.month - 1]}"


def planned_words(by_ms: int, give_ms: int) -> str:
    """'about a minute later than planned'; nothing where it is on time as far as one can know."""
    words = against_words(by_ms, give_ms)
    return f"{words} {'later' if by_ms > 0 else 'earlier'} than planned" if words else ""


def until_words(at_ms: int, give_ms: int, now_ms: int) -> str:
    """How long until then, to the nearest minute: '16 min', '1 h 05 min', '2 d 3 h'.

    Under a minute the seconds; one that is only about known has none: 'about 50 min'.
    """
    left_ms = max(0, apart_ms(at_ms, now_ms))
    if is_about(give_ms):
        return f"about {nearest_minutes(left_ms)}"
    return _down(left_ms) if left_ms < MINUTE_MS else nearest_minutes(left_ms)


def either_until_words(times_ms: tuple[int, ...], now_ms: int) -> str:
    """'31 or 42 min': the earlier rounded down, a later one to the nearest minute."""
    first_ms, *others_ms = (max(0, apart_ms(at_ms, now_ms)) for at_ms in sorted(times_ms))
    told = [_down(first_ms), *(nearest_minutes(left_ms) for left_ms in others_ms)]
    if all(text.endswith(" min") and " h " not in text for text in told):
        told = [*(text.removesuffix(" min") for text in told[:-1]), told[-1]]
        if told[0] == told[-1].removesuffix(" min"):
            return told[-1]
    return either(told)


def nearest_minutes(left_ms: int) -> str:
    """A length to the nearest minute, and never none: '33 min', '1 h 05 min'."""
    return _down(max(MINUTE_MS, (left_ms + MINUTE_MS // 2) // MINUTE_MS * MINUTE_MS))


def _down(left_ms: int) -> str:
    if left_ms < MINUTE_MS:
        return f"{left_ms // SECOND_MS} s"
    if left_ms < HOUR_MS:
        return f"{left_ms // MINUTE_MS} min"
    if left_ms < DAY_MS:
        hours, minutes = divmod(left_ms // MINUTE_MS, 60)
        return f"{hours} h {minutes:02d} min" if minutes else f"{hours} h"
    days, hours = divmod(left_ms // HOUR_MS, 24)
    return f"{days} d {hours} h" if hours else f"{days} d"


def by_clock(at_ms: int, style: Style, now_ms: int) -> str:
    """'4:46 p.m.': to the minute, never later than the truth; in its last minute to the second."""
    minute_ms = at_ms // MINUTE_MS * MINUTE_MS
    if minute_ms > now_ms or minute_ms == floor_second_ms(at_ms):
        return dated_clock_text(at_ms, style, now_ms, seconds=False)
    return dated_clock_text(at_ms, style, now_ms)
