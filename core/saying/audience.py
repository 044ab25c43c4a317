"""For whom the clock times are: in which zones, by which usage."""

from dataclasses import dataclass
from datetime import datetime, time, timedelta

from core.plan.model import Plan, Usage
from core.saying.clocks import clock_words, part_of_day
from core.saying.numbers import capital, ordinal
from core.times.instants import aware_to_ms
from core.times.spoken import spoken_zone
from core.times.writing import MONTHS, WEEKDAYS, local_time

_SOON_DAYS = 7


@dataclass(frozen=True, slots=True)
class Audience:
    """The zones (IANA names) of those who listen, the desk's first, and how clocks are spoken."""

    zones: tuple[str, ...]
    usage: Usage = Usage.AMERICAN

    @classmethod
    def of(cls, plan: Plan) -> "Audience":
        """That of a plan."""
        return cls(plan.zones, plan.usage)

    def bare(self, minute_ms: int) -> str:
        """The time at the desk and no more: 'four fifty-seven'."""
        return clock_words(local_time(minute_ms, self.zones[0]), self.usage)

    def one(self, minute_ms: int, now_ms: int) -> str:
        """The time at the desk with its zone: 'four fifty-seven Atlantic'."""
        return self._there(minute_ms, now_ms, self.zones[0])

    def all(self, minute_ms: int, now_ms: int) -> str:
        """The time in every zone: 'four fifty-seven Atlantic, three fifty-seven Eastern'.

        Zones that share a name or a clock are said once; the weekday is said where it is another.
        """
        told: dict[str, str] = {}
        for zone in self.zones:
            told.setdefault(spoken_zone(zone), self._there(minute_ms, now_ms, zone))
        return ", ".join(told.values())

    def dated(self, minute_ms: int, now_ms: int) -> str:
        """'tomorrow, Thursday, at four thirty-one in the afternoon, Atlantic time'."""
        zone = self.zones[0]
        there = local_time(minute_ms, zone)
        days = (there.date() - local_time(now_ms, zone).date()).days
        clock = clock_words(there, self.usage)
        if clock not in ("noon", "midnight"):
            clock = f"{clock} {part_of_day(there)}"
        at = f"at {clock}, {_zone_time(zone)}"
        if days == 0:
            return f"today {at}"
        return f"{self._day(minute_ms, days)}, {at}"

    def midnight_ms(self, now_ms: int) -> int:
        """When today ends at the desk, and with it 'today' and 'tomorrow'."""
        there = local_time(now_ms, self.zones[0])
        ends = datetime.combine(there.date() + timedelta(days=1), time(), there.tzinfo)
        return aware_to_ms(ends)

    def _day(self, minute_ms: int, days: int) -> str:
        there = local_time(minute_ms, self.zones[0])
        weekday = WEEKDAYS[there.weekday()]
        if days == 1:
            return f"tomorrow, {weekday}"
        if abs(days) < _SOON_DAYS:
            return weekday
        return f"{weekday} the {ordinal(there.day)} of {MONTHS[there.month - 1]}"

    def _there(self, minute_ms: int, now_ms: int, zone: str) -> str:
        there, today = local_time(minute_ms, zone), local_time(now_ms, zone)
        clock = f"{clock_words(there, self.usage)} {spoken_zone(zone)}"
        days = (there.date() - today.date()).days
        if not days and self._one_date(minute_ms):
            return clock
        if abs(days) < _SOON_DAYS:
            return f"{clock} on {WEEKDAYS[there.weekday()]}"
        return f"{clock} on the {ordinal(there.day)} of {MONTHS[there.month - 1]}"

    def _one_date(self, minute_ms: int) -> bool:
        """Whether the time falls on the same date wherever they listen."""
        return len({local_time(minute_ms, zone).date() for zone in self.zones}) == 1


def _zone_time(zone: str) -> str:
    name = spoken_zone(zone)
    return name if name.startswith("UTC") else f"{capital(name)} time"
