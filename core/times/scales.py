"""Time scales: UTC as the board has it, and the uniform Terrestrial Time that motion follows.

Terrestrial Time (TT) is counted in seconds past J2000, 2000-01-01T12:00:00 TT. UTC is counted in
milliseconds since the Unix epoch, which leaves no room for a leap second: the second that is put
in, 23:59:60, is held at the midnight after it.
"""

from bisect import bisect_right
from datetime import date
from enum import StrEnum

J2000_MS = 946_728_000_000.0
"""What the Unix clock shows at 2000-01-01T12:00:00 on a clock of any scale."""

TT_LESS_TAI_S = 32.184
"""TT - TAI, by the definition of TT (IAU 1991)."""

TAI_LESS_GPS_S = 19.0
"""TAI - GPS time: GPS stopped taking leap seconds at its epoch, 1980-01-06 (IS-GPS-200)."""

FIRST_TAI_LESS_UTC_S = 10.0

# IERS Bulletin C; the last that put a second in is number 52, of July 2016. A test holds the list
# against the leap-second kernel of NAIF. Before 1972 UTC was steered in small steps; it is taken
# to differ from TAI by 10 s then too, which is 2 s wrong in 1970 and 6 s in 1965.
_ONE_SECOND_MORE_ON = """
    1972-07-01 1973-01-01 1974-01-01 1975-01-01 1976-01-01 1977-01-01 1978-01-01 1979-01-01
    1980-01-01 1981-07-01 1982-07-01 1983-07-01 1985-07-01 1988-01-01 1990-01-01 1991-01-01
    1992-07-01 1993-07-01 1994-07-01 1996-01-01 1997-07-01 1999-01-01 2006-01-01 2009-01-01
    2012-07-01 2015-07-01 2017-01-01
"""

_DAY_MS = 86_400_000.0


def _midnight_ms(day: str) -> float:
    return (date.fromisoformat(day) - date(1970, 1, 1)).days * _DAY_MS


LEAPS_MS = tuple(_midnight_ms(day) for day in _ONE_SECOND_MORE_ON.split())
"""The instants of UTC from which TAI - UTC is a second more; it is 10 s before the first.

After the last, 2017-01-01, it stays at 37 s until a new one is announced and put in here.
"""

LEAPS_TT_S = tuple(
    (leap_ms - J2000_MS) / 1000 + TT_LESS_TAI_S + FIRST_TAI_LESS_UTC_S + count
    for count, leap_ms in enumerate(LEAPS_MS)
)
"""The same in TT: the instants at which the second that is put in begins."""


class TimeSystem(StrEnum):
    """A time scale in which an orbit data file may be written, by its CCSDS name."""

    UTC = "UTC"
    UT1 = "UT1"
    TAI = "TAI"
    TT = "TT"
    TDB = "TDB"
    GPS = "GPS"


def tai_less_utc_s(utc_ms: float) -> float:
    """TAI - UTC at an instant of UTC: 37 s since 2017."""
    return FIRST_TAI_LESS_UTC_S + bisect_right(LEAPS_MS, utc_ms)


def tt_s_of_utc_ms(utc_ms: float) -> float:
    """The instant in seconds of TT past J2000, exact to a microsecond."""
    return (utc_ms - J2000_MS) / 1000 + TT_LESS_TAI_S + tai_less_utc_s(utc_ms)


def utc_ms_of_tt_s(tt_s: float) -> float:
    """The instant in milliseconds UTC since the Unix epoch, not rounded."""
    begun = bisect_right(LEAPS_TT_S, tt_s)
    tai_ms = J2000_MS + (tt_s - TT_LESS_TAI_S) * 1000
    utc_ms = tai_ms - (FIRST_TAI_LESS_UTC_S + begun) * 1000
    # Within the second that is put in, the clock would show the last second of the day again.
    return max(utc_ms, LEAPS_MS[begun - 1]) if begun else utc_ms


def tt_s_from(system: TimeSystem, shown_s: float) -> float:
    """The instant in seconds of TT past J2000 at which a clock of that scale shows a date and time.

    `shown_s` is what it shows, as seconds past 2000-01-01T12:00:00 with all days of 86 400 s.
    TDB is taken as TT (they differ by less than 2 ms), and UT1 as UTC (by less than 0.9 s).
    """
    match system:
        case TimeSystem.TT | TimeSystem.TDB:
            return shown_s
        case TimeSystem.TAI:
            return shown_s + TT_LESS_TAI_S
        case TimeSystem.GPS:
            return shown_s + TAI_LESS_GPS_S + TT_LESS_TAI_S
        case TimeSystem.UTC | TimeSystem.UT1:
            return tt_s_of_utc_ms(J2000_MS + shown_s * 1000)
