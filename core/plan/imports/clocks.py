"""Clock times as papers write them, and the instants they stand for."""

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from core.errors import TimeProblem
from core.plan.imports.dates import words_of
from core.plan.imports.zoned import Zone
from core.times.instants import aware_to_ms
from core.times.spoken import spoken_zone
from core.times.zones import find_zone, local_instants_ms, local_to_utc_ms

CLOCK = re.compile(
    r"(?P<h>\d{1,2})(?:"
    r":(?P<m>\d\d)(?::(?P<s>\d\d)(?:[.,](?P<f>\d{1,6}))?)?"
    r"|\.(?P<m2>\d\d)(?=\s?[ap]\.?m)"
    r"|h(?P<m3>\d\d)(?:m(?P<s3>\d\d)s?)?"
    r"|(?=\s?[ap]\.?m\b)"
    r")(?![\d:/])(?:\s?(?P<half>[ap])\.?m(?![a-z])\.?|(?P<half2>[ap])(?![a-z.]))?"
    r"|(?P<run>\d{4}(?:\d\d)?)(?=\s?(?:Z|UTC|GMT|hrs|hours|h)(?!\w))(?:\s?(?:hrs|hours|h)(?!\w))?"
    r"|(?P<word>noon|midnight)(?!\w)",
    re.I | re.ASCII,
)
"""A time of day at the beginning of a text."""


@dataclass(frozen=True, slots=True)
class Dial:
    """A time of day as it was written. `half` is 'a', 'p', or '' where it is not said."""

    hour: int
    minute: int
    second: int = 0
    ms: int = 0
    half: str = ""
    padded: bool = False
    """Written with two figures for the hour, the first a nought: '09:05'."""

    @property
    def plain(self) -> bool:
        """Whether it can be a time of one half of the day or the other."""
        return not self.half and 1 <= self.hour <= 12 and not self.padded


def dial_of(match: re.Match[str]) -> Dial:
    """The time of day of a match of `CLOCK`; TimeProblem where no clock shows it."""
    if match["word"]:
        return Dial(12, 0, half="p") if match["word"].lower() == "noon" else Dial(24, 0)
    if run := match["run"]:
        hour, minute, second, fraction = int(run[:2]), int(run[2:4]), int(run[4:] or 0), ""
        padded = True
    else:
        hour = int(match["h"])
        minute = int(match["m"] or match["m2"] or match["m3"] or 0)
        second, fraction = int(match["s"] or match["s3"] or 0), match["f"] or ""
        padded = len(match["h"]) == 2 and hour < 10
    half = (match["half"] or match["half2"] or "").lower()
    dial = Dial(hour, minute, second, int((fraction + "000")[:3]), half, padded=padded)
    _check(dial, match[0].strip())
    return dial


def _check(dial: Dial, written: str) -> None:
    if dial.half and not 1 <= dial.hour <= 12:
        raise TimeProblem(f"'{written}' has a half of the day and an hour of 24", "Keep one")
    whole = dial.hour == 24 and not (dial.minute or dial.second or dial.ms)
    if dial.minute > 59 or dial.second > 59 or (dial.hour > 23 and not whole):
        raise TimeProblem(f"'{written}' is no time of day", "The last one is 23:59:59")


def in_half(dial: Dial, half: str) -> Dial:
    """The same with its half of the day said."""
    return Dial(dial.hour, dial.minute, dial.second, dial.ms, half)


def shown_at(dial: Dial, day: date) -> datetime:
    """What clocks show then: a date and time without a zone."""
    hour = dial.hour
    if dial.half:
        hour = hour % 12 + (12 if dial.half == "p" else 0)
    midnight = datetime.combine(day, time())
    try:
        return midnight + timedelta(
            hours=hour, minutes=dial.minute, seconds=dial.second, milliseconds=dial.ms
        )
    except OverflowError as error:
        raise TimeProblem(
            f"{words_of(day)} is at the end of all calendars", "Check the year"
        ) from error


def instant_ms(naive: datetime, zone: Zone) -> int:
    """The instant at which clocks of a zone show that.

    Raises TimeProblem where they skip it, or show it twice.
    """
    if zone.offset_min is not None:
        offset = timedelta(minutes=zone.offset_min)
        return aware_to_ms(naive.replace(tzinfo=find_zone("UTC"))) - offset // timedelta(
            milliseconds=1
        )
    try:
        found = local_instants_ms(naive, zone.name)
    except OverflowError as error:
        raise TimeProblem("this is at the end of all calendars", "Check the year") from error
    if len(found) == 1:
        return found[0]
    return local_to_utc_ms(naive, zone.name)


def zone_words(zone: Zone) -> str:
    """How a zone is told of: 'Atlantic', 'UTC', 'UTC−4'."""
    if zone.offset_min is None:
        return spoken_zone(zone.name)
    if not zone.offset_min:
        return "UTC"
    hours, minutes = divmod(abs(zone.offset_min), 60)
    sign = "−" if zone.offset_min < 0 else "+"
    return f"UTC{sign}{hours}" + (f":{minutes:02d}" if minutes else "")
