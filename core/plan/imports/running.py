"""The day and the half of the day as they run on from line to line."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from core.errors import TimeProblem
from core.plan.imports.clocks import Dial, in_half, instant_ms, shown_at
from core.plan.imports.dates import words_of
from core.plan.imports.model import Setting
from core.plan.imports.moments import Found
from core.plan.imports.zoned import Zone, setting_zone
from core.times.durations import UNITS_MS
from core.times.instants import EPOCH, aware_to_ms
from core.times.zones import find_zone

_BACK_MS = UNITS_MS["h"]
"""A line may be this much earlier than the one above it; more is the next day."""

_AGREE_MS = 5 * UNITS_MS["m"]
"""So far apart a clock time and the elapsed time beside it may be."""

_HALVES = re.compile(r"\d\s?[ap]\.?m\b", re.I)
_TWENTY_FOUR = re.compile(r"(?<![\d:.])(?:0\d|1[3-9]|2[0-3]):[0-5]\d(?!\s?[ap]\.?m)(?![\d:/]*\d/)")


@dataclass(frozen=True, slots=True)
class At:
    """The instant of a line, how long it lasts, and how that was read."""

    at_ms: int
    length_ms: int | None
    told: tuple[str, ...]


class Running:
    """What holds from line to line: the day, the zone, and when the last line was."""

    def __init__(self, text: str, setting: Setting) -> None:
        self.day = setting.day
        self.zone = setting_zone(setting)
        self.zoned = False
        """Whether a heading named the zone."""
        self.unnamed = False
        """Whether any time was read in the setting's zone only because nothing named one."""
        self._twelve = _HALVES.search(text) is not None
        self._twenty_four = _TWENTY_FOUR.search(text) is not None
        self._last_ms: int | None = None
        self._zero_ms = setting.zero_ms

    def is_open(self, found: Found) -> bool:
        """Whether a time lacks its half of the day, where the others have theirs."""
        return self._twelve and found.dial is not None and found.dial.plain and found.zone is None

    def show_in(self, zone: Zone) -> None:
        """A heading says the zone of what follows."""
        self.zone, self.zoned = zone, True

    def begin(self, day: date) -> None:
        """A heading says the day of what follows."""
        self.day = day
        self._last_ms = None

    def ended_ms(self, end: Found, begun: Found) -> int:
        """The instant of an end that has its own day."""
        if end.dial is None or end.day is None:
            raise ValueError("this end has no day")
        zone = end.zone or begun.zone or self.zone
        return instant_ms(shown_at(end.dial, end.day), zone)

    def at(self, found: Found, others: Sequence[Found] = (), elapsed_ms: int | None = None) -> At:
        """The instant of a clock time.

        `elapsed_ms` is the elapsed time that stands beside it: it tells the day. TimeProblem where
        it has no instant, or several, or where others beside it mean another.
        """
        dial = found.dial
        if dial is None:
            raise ValueError("an elapsed time has no instant here")
        zone = found.zone or self.zone
        told: list[str] = [found.told] if found.told else []
        day = found.day or self.day
        if day is None:
            raise TimeProblem("this time has no day", "Give the first day, or a line with the date")
        counted_ms = self._counted_ms(elapsed_ms)
        if counted_ms is not None and found.day is None:
            dial, day = self._nearest(dial, zone, counted_ms)
        else:
            dial, day = self._meant(dial, day, zone, told, fixed=found.day is not None)
        at_ms = instant_ms(shown_at(dial, day), zone)
        length_ms = None
        if found.until is not None:
            length_ms = _until_ms(found.until, dial, day, zone) - at_ms
        if not all(self._same(other, at_ms, day) for other in others):
            raise TimeProblem("the times in this line do not agree", "Keep the right one")
        self.day, self._last_ms = day, at_ms
        if counted_ms is not None and abs(at_ms - counted_ms) > _AGREE_MS:
            told.append("clock and elapsed time do not agree")
        if elapsed_ms is not None and self._zero_ms is None:
            self._zero_ms = at_ms - elapsed_ms
        self.unnamed = self.unnamed or (found.zone is None and not self.zoned)
        return At(at_ms, length_ms, tuple(told))

    def _counted_ms(self, elapsed_ms: int | None) -> int | None:
        if elapsed_ms is None or self._zero_ms is None:
            return None
        return self._zero_ms + elapsed_ms

    def _nearest(self, dial: Dial, zone: Zone, counted_ms: int) -> tuple[Dial, date]:
        """The half and the day that lie nearest to where the elapsed time is."""
        day = (EPOCH + timedelta(milliseconds=counted_ms)).date()
        choices = [(each, one) for one in self._days(day) for each in self._dials(dial, zone)]
        return min(choices, key=lambda one: abs(_rough_ms(one[0], one[1], zone) - counted_ms))

    def _same(self, found: Found, at_ms: int, near: date) -> bool:
        """Whether another time of a line means the same instant, on any day where none is said."""
        if found.dial is None:
            return True
        zone = found.zone or self.zone
        halves = (in_half(found.dial, half) for half in "ap") if found.dial.plain else ()
        days = (found.day,) if found.day else self._days(near)
        return any(
            abs(_rough_ms(dial, day, zone) - at_ms) < UNITS_MS["m"]
            for dial in (found.dial, *halves)
            for day in days
        )

    def _meant(
        self, dial: Dial, day: date, zone: Zone, told: list[str], *, fixed: bool
    ) -> tuple[Dial, date]:
        """The half of the day and the day that are meant."""
        dials = self._dials(dial, zone)
        days = [day] if fixed else self._days(day)
        choices = [(each, one) for one in days for each in dials]
        if len(choices) == 1:
            return choices[0]
        if self._last_ms is None:
            if len(dials) > 1:
                raise _open_half(dial)
            return dial, day
        chosen = self._first_after(choices, zone, self._last_ms, halves=len(dials) > 1)
        if len(dials) > 1:
            told.append(f"read as {chosen[0].half}.m.")
        if chosen[1] > day:
            told.append(f"taken as the next day, {words_of(chosen[1])}")
        elif self._earlier(chosen, zone):
            told.append("earlier than the line above")
        return chosen

    def _first_after(
        self, choices: list[tuple[Dial, date]], zone: Zone, last_ms: int, *, halves: bool
    ) -> tuple[Dial, date]:
        """The first choice that does not lie before the last line (or hardly so)."""
        floor_ms = last_ms if halves else last_ms - _BACK_MS
        timed = [(_rough_ms(dial, day, zone), (dial, day)) for dial, day in choices]
        later = [one for one in timed if one[0] >= floor_ms]
        return min(later or timed[-1:], key=lambda one: one[0])[1]

    def _earlier(self, chosen: tuple[Dial, date], zone: Zone) -> bool:
        return self._last_ms is not None and _rough_ms(*chosen, zone) < self._last_ms

    @staticmethod
    def _days(day: date) -> list[date]:
        try:
            return [day + timedelta(days=days) for days in (-1, 0, 1)]
        except OverflowError as error:
            raise TimeProblem("this is at the end of all calendars", "Check the year") from error

    def _dials(self, dial: Dial, zone: Zone) -> list[Dial]:
        """The halves of the day that are open."""
        if not dial.plain or zone.offset_min == 0 or (self._twenty_four and not self._twelve):
            return [dial]
        return [in_half(dial, "a"), in_half(dial, "p")]


def _rough_ms(dial: Dial, day: date, zone: Zone) -> int:
    """The instant, for choosing a day: where clocks skip or repeat the time, one near it."""
    naive = shown_at(dial, day)
    if zone.offset_min is not None:
        return instant_ms(naive, zone)
    try:
        return aware_to_ms(naive.replace(tzinfo=find_zone(zone.name)))
    except OverflowError as error:
        raise TimeProblem("this is at the end of all calendars", "Check the year") from error


def _until_ms(until: Dial, dial: Dial, day: date, zone: Zone) -> int:
    """The end of a range: the first such time after its beginning."""
    if until.plain and dial.half and not until.half:
        until = min(
            (in_half(until, half) for half in "ap"),
            key=lambda each: (shown_at(each, day) - shown_at(dial, day)) % timedelta(days=1),
        )
    end = shown_at(until, day)
    if end < shown_at(dial, day):
        end += timedelta(days=1)
    return instant_ms(end, zone)


def _open_half(dial: Dial) -> TimeProblem:
    written = f"{dial.hour}:{dial.minute:02d}"
    return TimeProblem(
        f"{written} may be a.m. or p.m.",
        f"Write {written} p.m., or {dial.hour:02d}:{dial.minute:02d}",
    )
