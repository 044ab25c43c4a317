"""Clock times on paper: in the desk's zone, and in those of the audience beside it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from core.board.paper.model import Head, Kind, Place
from core.times.spoken import spoken_zone
from core.times.writing import (
    MINUTE_MS,
    Style,
    clock_text,
    date_text,
    dated_clock_text,
    is_about,
    local_time,
    short_duration_words,
    weekday_text,
)

_BESIDE = 2
"""More zones of the audience than so many stand below the desk's time, not beside it."""


@dataclass(frozen=True, slots=True)
class Clocks:
    """How the sheet writes times.

    `day_ms` is of the day that goes without saying where a table has no line for the day.
    """

    style: Style
    zones: Sequence[str]
    day_ms: int

    @property
    def desk(self) -> str:
        """The desk's zone, as it is spoken of."""
        return spoken_zone(self.style.zone)

    @property
    def others(self) -> tuple[str, ...]:
        """The audience's zones."""
        return tuple(zone for zone in self.zones[1:] if zone != self.style.zone)

    @property
    def _beside(self) -> tuple[str, ...]:
        """Those of them that have a column."""
        return self.others if len(self.others) <= _BESIDE else ()

    def heads(self) -> tuple[Head, ...]:
        """The headings of the columns of clock times."""
        return tuple(
            Head(spoken_zone(zone).upper(), Kind.TIME) for zone in (self.style.zone, *self._beside)
        )

    def places(self, at_ms: int, give_ms: int = 0, below: str = "") -> tuple[Place, ...]:
        """An instant in each zone; those of the audience without seconds."""
        shown_ms = _nearest_ms(at_ms) if is_about(give_ms) else at_ms
        beside = tuple(Place(self._there(shown_ms, zone)) for zone in self._beside)
        if len(beside) < len(self.others):
            told = [f"{self._there(shown_ms, zone)} {spoken_zone(zone)}" for zone in self.others]
            below = "\n".join([below, *told])
        return (Place(self.event(at_ms, give_ms), below, strong=True), *beside)

    def event(self, at_ms: int, give_ms: int = 0) -> str:
        """'4:57:20 p.m.', or 'about 5:31 p.m.' where the give is large."""
        if is_about(give_ms):
            return f"about {clock_text(_nearest_ms(at_ms), self.style, seconds=False)}"
        return clock_text(at_ms, self.style)

    def other(self, at_ms: int, day_of_ms: int, *, seconds: bool = True) -> str:
        """An instant beside another: its day is written where it is not the same."""
        return dated_clock_text(at_ms, self.style, day_of_ms, seconds=seconds)

    def short(self, at_ms: int) -> str:
        """With its day where that is not the sheet's, without seconds where there are none."""
        whole = at_ms % MINUTE_MS == 0
        return dated_clock_text(at_ms, self.style, self.day_ms, seconds=not whole)

    def span(self, from_ms: int, to_ms: int) -> str:
        """'4:00 p.m. to 5:30 p.m.'."""
        whole = to_ms % MINUTE_MS == 0
        until = dated_clock_text(to_ms, self.style, from_ms, seconds=not whole)
        return f"{self.short(from_ms)} to {until}"

    def day(self, at_ms: int) -> str:
        """'Wednesday, 14 May 2031'."""
        return f"{weekday_text(at_ms, self.style.zone)}, {date_text(at_ms, self.style.zone)}"

    def turned(self, before_ms: int, at_ms: int) -> str:
        """'clocks have gone back 1 h': between two instants; '' where they have not been turned."""
        were, are = (local_time(ms, self.style.zone).utcoffset() for ms in (before_ms, at_ms))
        by_ms = ((are or timedelta()) - (were or timedelta())) // timedelta(milliseconds=1)
        if not by_ms:
            return ""
        return f"clocks have gone {'on' if by_ms > 0 else 'back'} {short_duration_words(by_ms)}"

    def full(self, at_ms: int) -> str:
        """'Wednesday, 14 May 2031, 4:41:12 p.m. Atlantic'."""
        return f"{self.day(at_ms)}, {clock_text(at_ms, self.style)} {self.desk}"

    def _there(self, at_ms: int, zone: str) -> str:
        there, here = local_time(at_ms, zone), local_time(at_ms, self.style.zone)
        clock = clock_text(at_ms, replace(self.style, zone=zone), seconds=False)
        day = "" if there.date() == here.date() else f"{weekday_text(at_ms, zone)[:3]} "
        return f"{day}{clock}"


def _nearest_ms(at_ms: int) -> int:
    return (at_ms + MINUTE_MS // 2) // MINUTE_MS * MINUTE_MS
