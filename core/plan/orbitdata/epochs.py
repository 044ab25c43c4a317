"""Epochs of the CCSDS formats, by calendar or by day of the year, as instants."""

import re
from datetime import date, timedelta

from core.errors import TimeProblem
from core.plan.orbitdata.telling import quoted
from core.times.scales import LEAPS_MS, TimeSystem, tt_s_from

_EPOCH = re.compile(
    r"(\d{4}-\d\d-\d\d|\d{4}-\d{3})T(\d\d):(\d\d):(\d\d(?:\.\d*)?)Z?", flags=re.ASCII
)
_YEARS = range(1900, 2200)
_DAY_S = 86_400
_NOON = date(2000, 1, 1)
_UNIX = date(1970, 1, 1)


class Epochs:
    """Reads the epochs of one time system; each day is worked out once."""

    def __init__(self, system: TimeSystem) -> None:
        self.system = system
        self._midnights_s: dict[str, float] = {}

    def tt_s(self, text: str) -> float:
        """The instant in seconds of TT past J2000. Raises TimeProblem.

        A second that is put in, 23:59:60, is taken in UTC on the days that have one.
        """
        match = _EPOCH.fullmatch(text)
        if match is None:
            raise _no_epoch(text)
        midnight_s = self._midnights_s.get(match[1])
        if midnight_s is None:
            days = (_day(match[1]) - _NOON).days
            midnight_s = tt_s_from(self.system, days * _DAY_S - _DAY_S / 2)
            self._midnights_s[match[1]] = midnight_s
        return midnight_s + _since_midnight_s(match, self.system)


def utc_ms_of_epoch(text: str) -> float:
    """The instant of an epoch in UTC, in milliseconds since the Unix epoch. Raises TimeProblem.

    Within a second that is put in it stays at the midnight after it.
    """
    match = _EPOCH.fullmatch(text)
    if match is None:
        raise _no_epoch(text)
    since_s = min(_since_midnight_s(match, TimeSystem.UTC), float(_DAY_S))
    return (_day(match[1]) - _UNIX).days * _DAY_S * 1000.0 + since_s * 1000


def _no_epoch(text: str) -> TimeProblem:
    return TimeProblem(
        f"{quoted(text)} is no epoch", "Like 2031-05-14T17:50:00.000 or 2031-134T17:50:00.000"
    )


def _day(text: str) -> date:
    year, _, rest = text.partition("-")
    if int(year) not in _YEARS:
        raise TimeProblem(f"{quoted(text)} is outside the years 1900 to 2199", "Check the year")
    try:
        if "-" in rest:
            return date.fromisoformat(text)
        day = date(int(year), 1, 1) + timedelta(days=int(rest) - 1)
    except ValueError as error:
        raise TimeProblem(f"there is no day {quoted(text)}", "Check the month and day") from error
    if day.year != int(year):
        raise TimeProblem(f"there is no day {quoted(text)}", "Days of the year begin at 001")
    return day


def _since_midnight_s(match: re.Match[str], system: TimeSystem) -> float:
    hour, minute, second = int(match[2]), int(match[3]), float(match[4])
    if hour < 24 and minute < 60 and second < 60:
        return hour * 3600 + minute * 60 + second
    if (hour, minute) != (23, 59) or second >= 61:
        raise TimeProblem(
            f"{quoted(match[0])} is no time of day", "Hours go to 23, minutes and seconds to 59"
        )
    midnight_after_ms = ((_day(match[1]) - _UNIX).days + 1) * _DAY_S * 1000
    if system is not TimeSystem.UTC or midnight_after_ms not in LEAPS_MS:
        raise TimeProblem(
            f"{quoted(match[0])} is a leap second, and none is known there",
            "Seconds go to 59 but on the days on which one was put into UTC",
        )
    return _DAY_S - 1 + (second - 59)
