"""What any import gives: rows, what could not be read, and what holds for the rest."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

Progress = Callable[[int, int], bool]
"""Told now and then how much is done, of how much; False stops the reading there."""


EDITORIAL = "For editorial use: not for navigation, range safety or flight control."
"""What every export says; read again, it is no event."""

CHECK = "Check the date and the time"
"""The remedy where a time says nothing better."""


class TwoParts(StrEnum):
    """What an elapsed time of two figures counts."""

    MINUTES_SECONDS = "minutes and seconds"
    HOURS_MINUTES = "hours and minutes"


@dataclass(frozen=True, slots=True)
class Setting:
    """What a text does not say itself and is read with."""

    zone: str
    """IANA name: clock times that say no zone are times there."""
    day: date | None = None
    """The day of clock times before any date is given; None: such times are not read."""
    zones: tuple[str, ...] = ()
    """Further zones of the plan, whose spoken names ('Eastern') are known."""
    two_parts: TwoParts | None = None
    """What 'T+2:30' is; None: such a time is not read, unless the text says it above."""
    bare_elapsed: bool | None = None
    """Whether '03:29:33' alone in a timeline is elapsed time; None: as the text shows."""
    zero_ms: int | None = None
    """When elapsed time begins, where the plan says: it tells the day of a clock time beside it."""


@dataclass(frozen=True, slots=True)
class Row:
    """One event as it was read. `line` counts from 1; `text` is what stood there.

    One of `at_ms` and `elapsed_ms` is given: an instant, or a length from the plan's zero.
    """

    line: int
    text: str
    name: str
    at_ms: int | None = None
    elapsed_ms: int | None = None
    give_ms: int = 0
    live: bool = False
    lane: str = ""
    note: str = ""
    """What else stood there, to be kept as a fact of the event."""
    length_ms: int | None = None
    """How long it lasts, where a range, an end or a length was given."""
    more_lines: tuple[int, ...] = ()
    """The lines that continue it."""
    told: str = ""
    """How it was read, where that is not plain: 'the day after', 'first half of the day taken'."""


@dataclass(frozen=True, slots=True)
class NotRead:
    """A line that gave no event: why, and what to write or do instead."""

    line: int
    text: str
    why: str
    hint: str = ""
    more_lines: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Heading:
    """A line that is no event but says something about the others, and what it was taken for."""

    line: int
    text: str
    meaning: str


class Meaning(StrEnum):
    """What a column of a table holds; the value is how a screen names it."""

    NAME = "event"
    CLOCK = "clock time"
    DATE = "date"
    ELAPSED = "elapsed time"
    LENGTH = "how long"
    END = "end"
    GIVE = "give"
    LIVE = "live moment"
    LANE = "lane"
    NOTE = "note"
    SKIP = "left out"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table: what stands over it, and what it was taken for."""

    heading: str
    meaning: Meaning


@dataclass(frozen=True, slots=True)
class Imported:
    """All that one text or file gave.

    `source` is what it is called in problems: a file's name, or 'clipboard'.
    """

    source: str
    rows: tuple[Row, ...] = ()
    not_read: tuple[NotRead, ...] = ()
    headings: tuple[Heading, ...] = ()
    columns: tuple[Column, ...] = ()
    told: tuple[str, ...] = ()
    """What holds for all of it: 'Times without a zone were read as Atlantic time'."""
    stopped: bool = False
    """Stopped on the way: the lines behind the last one here were not looked at."""

    @property
    def last_line(self) -> int:
        """The last line that was looked at; 0 where none was."""
        rows = (line for row in self.rows for line in (row.line, *row.more_lines))
        others = (line for one in self.not_read for line in (one.line, *one.more_lines))
        return max((*rows, *others, *(one.line for one in self.headings)), default=0)
