"""Clock times as typed, and the instants they may mean: in which zone, on which day."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from core.entries.clockshapes import (
    CLOCK,
    STAMP,
    Dial,
    days_of,
    dials_of,
    exact,
    refuse_odd_digits,
)
from core.entries.words import nearest, shown
from core.errors import EntryProblem
from core.times.instants import aware_to_ms
from core.times.spoken import spoken_zone
from core.times.writing import MONTHS, local_time
from core.times.zones import local_instants_ms

_EARLIEST_MS, _LATEST_MS = -2_208_988_800_000, 32_503_680_000_000
"""The years 1900 to 2999: beyond them a figure is a slip of the hand."""


@dataclass(frozen=True, slots=True)
class Asking:
    """What a clock time is read against.

    `near_ms` is the instant whose day is meant where none is typed; with `ahead` the first such
    time from then on. `zones` are the plan's, the desk's first.
    """

    near_ms: int
    zones: Sequence[str]
    ahead: bool = False

    def distance(self, instant_ms: int) -> tuple[bool, int]:
        """How far an instant is from what is most likely meant, for sorting."""
        return self.ahead and instant_ms < self.near_ms, abs(instant_ms - self.near_ms)


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant that a clock time may mean.

    `notes` say how it was read where that could have been otherwise: 'read as p.m.', 'Central'.
    """

    at_ms: int
    notes: tuple[str, ...] = ()


def read_clock(text: str, asking: Asking) -> tuple[Moment, ...] | None:
    """The instants that a clock time (in small letters) may mean, the likeliest first.

    None where it has not the shape of one. Raises EntryProblem where it has, but means nothing:
    an hour or a day there is not, a time the clocks skip, a zone the plan does not have.
    """
    short = text.replace(",", " ").replace("  ", " ").strip()
    if match := STAMP.fullmatch(short):
        moments = _stamped(match, asking)
    elif match := CLOCK.fullmatch(short):
        moments = _on_the_dial(match, asking)
    else:
        refuse_odd_digits(short)
        return None
    return tuple(sorted(moments, key=lambda moment: asking.distance(moment.at_ms)))


def checked_ms(instant_ms: int, part: str) -> int:
    """The instant, where it lies in the years 1900 to 2999; else EntryProblem."""
    if not _EARLIEST_MS <= instant_ms < _LATEST_MS:
        raise EntryProblem(
            f"'{shown(part)}' is outside the years 1900 to 2999", part, "Check the figure"
        )
    return instant_ms


# ------------------------------------------------------------------ with a full date


def _stamped(match: re.Match[str], asking: Asking) -> list[Moment]:
    text = f"{match['date']}T{match['time']}"
    offset = (match["offset"] or "").strip().upper()
    if offset and match["zone"]:
        raise EntryProblem("A zone is said twice", match["zone"], "Keep the offset or the name")
    moment = exact(text, match[0])
    if offset:
        instant_ms = aware_to_ms(exact(text + offset, match[0]))
        return [Moment(checked_ms(instant_ms, match[0]), ("UTC",) if offset == "Z" else ())]
    zones = _zones_meant(match["zone"], asking.zones)
    return [each for zone in zones for each in _instants(moment, zone, "", match[0], asking.zones)]


# ------------------------------------------------------------------ a time of day


def _on_the_dial(match: re.Match[str], asking: Asking) -> list[Moment]:
    zones = ["UTC"] if match["utc"] else _zones_meant(match["zone"], asking.zones)
    dials = dials_of(match)
    if match["utc"] and not match["half"]:
        dials = [replace(dials[0], note="")]  # in UTC nobody says a.m. or p.m.
    moments: list[Moment] = []
    skipped: EntryProblem | None = None
    for zone in zones:
        for dial in dials:
            try:
                moments += _placed(dial, zone, match, asking)
            except EntryProblem as problem:
                skipped = problem
    if skipped and not moments:
        raise skipped
    return moments


def _placed(dial: Dial, zone: str, match: re.Match[str], asking: Asking) -> list[Moment]:
    """The dial's time on the day that is meant."""
    anchor = local_time(asking.near_ms, zone).replace(tzinfo=None)
    days = tuple(days_of(match, anchor))
    if not days:
        raise EntryProblem(
            f"'{shown(match[0])}' names a day that does not exist", match[0], "Check the date"
        )
    each = [exact(f"{day}T{dial.iso}", match[0]) for day in days]
    dated = match["date"] or match["day"] or match["day2"]
    ahead = asking.ahead and not dated  # a date means the nearest year, also one just past
    meant = min(each, key=lambda naive: _off(naive, anchor, ahead=ahead))
    return _instants(meant, zone, dial.note, match[0], asking.zones)


def _off(naive: datetime, anchor: datetime, *, ahead: bool) -> tuple[bool, timedelta]:
    return ahead and naive < anchor, abs(naive - anchor)


# ------------------------------------------------------------------ zones


def _zones_meant(name: str | None, zones: Sequence[str]) -> list[str]:
    """The zones of that name: IANA, spoken, or the city; the desk's where none is named."""
    if name is None:
        return [zones[0]]
    said = name.removesuffix(" time")
    if said == "utc":
        return ["UTC"]
    names = {zone: _names_of(zone) for zone in zones}
    meant = [zone for zone, known in names.items() if said in known]
    if meant:
        return meant
    near = nearest(said, (each for known in names.values() for each in known))
    spoken = ", ".join(dict.fromkeys(spoken_zone(zone) for zone in zones))
    raise EntryProblem(
        f"'{shown(name)}' after a time is no zone of this plan",
        name,
        f"The nearest is '{near}'" if near else f"Read here: {spoken}, and z for UTC",
    )


def _names_of(zone: str) -> tuple[str, ...]:
    city = zone.rpartition("/")[2].replace("_", " ")
    return spoken_zone(zone).lower(), city.lower(), zone.lower()


def _instants(
    naive: datetime, zone: str, note: str, part: str, zones: Sequence[str]
) -> list[Moment]:
    """The instants at which clocks in the zone show that: two where they are put back."""
    try:
        found = local_instants_ms(naive, zone)
    except OverflowError as error:
        raise EntryProblem(
            f"'{shown(part)}' is outside the years 1900 to 2999", part, "Check the figure"
        ) from error
    if not found:
        clock = f"{naive:%H:%M} on {naive.day} {MONTHS[naive.month - 1]}"
        raise EntryProblem(
            f"{clock} does not exist in {spoken_zone(zone)} time: clocks skip it",
            part,
            "Write it in UTC, with z",
        )
    elsewhere = spoken_zone(zone) if zone != zones[0] else ""
    which = ("the first of two", "the second of two") if len(found) == 2 else ("",)
    return [
        Moment(checked_ms(at_ms, part), tuple(filter(None, (note, elsewhere, once))))
        for at_ms, once in zip(found, which, strict=True)
    ]
