"""One entry of a calendar (VEVENT, RFC 5545): its times, its words, what is wrong with it."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from zoneinfo import ZoneInfo

from dateutil import tz
from icalendar import Event, vRecur
from icalendar.error import InvalidCalendar

from core.errors import TimeProblem
from core.plan.imports.components import Component
from core.plan.imports.recurring import FIRST_YEAR, LAST_YEAR, times_of
from core.times.instants import aware_to_ms
from core.times.zones import find_zone

GIVE, LIVE, EXACT, LANE = (
    "X-LIMBWATCH-GIVE",
    "X-LIMBWATCH-LIVE",
    "X-LIMBWATCH-AT",
    "X-LIMBWATCH-LANE",
)
"""What a calendar of ours says beside the standard's properties."""

_NEEDED = ("DTSTART", "DTEND", "DURATION", "RRULE", "RDATE", "EXDATE", "RECURRENCE-ID", "STATUS")

Zones = Callable[[str], tzinfo | None]
"""The zone of a TZID, by its IANA name or by the calendar's own rules; None where it is neither."""


@dataclass(frozen=True, slots=True)
class Clocks:
    """How the times of a calendar are read: its zones, the plan's, and the time of whole days."""

    zones: Zones
    zone: str
    all_day_at: time | None = None


@dataclass(frozen=True, slots=True)
class When:
    """A time of an entry as clocks show it, in which zone, and how it was read."""

    local: datetime
    zone: tzinfo
    told: str = ""

    @property
    def at_ms(self) -> int:
        """The instant; of a repeated time the first, of a skipped one as if not skipped."""
        return aware_to_ms(self.local.replace(tzinfo=self.zone).astimezone(UTC))


def parsed(component: Component) -> Event:
    """The entry in a component. TimeProblem where what matters of it cannot be read."""
    body = "\r\n".join(component.lines) + "\r\n"
    try:
        event = Event.from_ical(body)
    except (ValueError, InvalidCalendar, KeyError, IndexError, AttributeError) as error:
        raise TimeProblem("this entry cannot be read", "Save the calendar again") from error
    if not isinstance(event, Event):
        raise TimeProblem("this entry cannot be read", "Save the calendar again")
    broken = next((str(name) for name, _ in event.errors if str(name) in _NEEDED), None)
    if broken is not None:
        where = component.line_of(broken)
        raise TimeProblem(f"{broken} on line {where} means nothing", f"Mend {broken}: see RFC 5545")
    return event


def start_of(event: Event, clocks: Clocks) -> When:
    """When an entry begins. TimeProblem where it says nothing that can be taken."""
    if "DTSTART" not in event:
        raise TimeProblem("this entry has no DTSTART", "Give it a beginning")
    return when_of(event["DTSTART"], clocks)


def when_of(value: object, clocks: Clocks) -> When:
    """A date and time of a calendar, as clocks show it."""
    if isinstance(value, list):
        raise TimeProblem("one of its times stands twice", "Keep one")
    moment, params = getattr(value, "dt", None), getattr(value, "params", {})
    if isinstance(moment, date):
        _check_year(moment)
    if isinstance(moment, datetime):
        return _on_the_clock(moment, str(params.get("TZID", "")), clocks)
    if isinstance(moment, date):
        if clocks.all_day_at is None:
            raise TimeProblem(
                "this lasts all day: it has no time", "Give a time of day for such entries"
            )
        told = f"all day: taken at {clocks.all_day_at:%H:%M}"
        local = datetime.combine(moment, clocks.all_day_at)
        return When(local, find_zone(clocks.zone), told)
    raise TimeProblem("its time means nothing", "Write it like 20310514T164600Z")


def _check_year(moment: date) -> None:
    if not FIRST_YEAR <= moment.year <= LAST_YEAR:
        raise TimeProblem(f"the year {moment.year} is outside 1900 to 2199", "Check the year")


def _on_the_clock(moment: datetime, tzid: str, clocks: Clocks) -> When:
    local = moment.replace(tzinfo=None)
    if moment.tzinfo is not None and moment.utcoffset() == timedelta(0) and not tzid:
        return When(local, UTC)
    if tzid:
        # A zone that is no IANA one may have been left behind by another calendar.
        resolved = moment.tzinfo if isinstance(moment.tzinfo, ZoneInfo) else None
        named = clocks.zones(tzid) or resolved
        if named is None:
            raise TimeProblem(
                f"the zone '{tzid[:40]}' is not known here", "Write the times in UTC, with Z"
            )
        return When(local, named, _odd(local, named))
    zone = find_zone(clocks.zone)
    told = f"no zone: read in {clocks.zone}"
    odd = _odd(local, zone)
    return When(local, zone, f"{told}; {odd}" if odd else told)


def _odd(local: datetime, zone: tzinfo) -> str:
    """What must be told of a time that clocks skip or show twice (RFC 5545, section 3.3.5)."""
    there = local.replace(tzinfo=zone)
    if not tz.datetime_exists(there):
        return "clocks skip this time: taken as if they did not"
    return (
        "clocks show this time twice: the first was taken" if tz.datetime_ambiguous(there) else ""
    )


def again(event: Event, start: When) -> tuple[tuple[When, ...], str]:
    """All times of an entry, in order, less those left out; and where its rule was cut."""
    whens, cut = [start], ""
    rule = event.get("RRULE")
    if isinstance(rule, list):
        raise TimeProblem("this entry has two rules", "Give each an entry of its own")
    if isinstance(rule, vRecur):
        times = times_of(rule, start.local)
        whens = [When(each, start.zone, _told(each, start)) for each in times.local]
        until = _until(rule, start)
        if until is not None:
            kept = [when for when in whens if when.at_ms <= until]
            times_cut = "" if len(kept) < len(whens) else times.cut
            whens, cut = kept, times_cut
        else:
            cut = times.cut
    extra = {when.at_ms: when for when in _listed(event.get("RDATE"), start)}
    left_out = {when.at_ms for when in _listed(event.get("EXDATE"), start)}
    found = extra | {when.at_ms: when for when in whens}
    return tuple(found[at_ms] for at_ms in sorted(found) if at_ms not in left_out), cut


def _told(local: datetime, start: When) -> str:
    if local == start.local:
        return start.told
    plain = start.told.partition("; clocks ")[0]
    plain = "" if plain.startswith("clocks ") else plain
    odd = "" if start.zone is UTC else _odd(local, start.zone)
    return "; ".join(part for part in (plain, odd) if part)


def _until(rule: vRecur, start: When) -> int | None:
    """The instant after which a rule gives no more times."""
    value = next(iter(rule.get("UNTIL", ())), None)
    if isinstance(value, date) and value.year > LAST_YEAR:
        return None
    if isinstance(value, date):
        _check_year(value)
    if isinstance(value, datetime):
        if value.tzinfo is not None:
            return aware_to_ms(value)
        return When(value, start.zone).at_ms
    if isinstance(value, date):
        return When(datetime.combine(value, time(23, 59, 59)), start.zone).at_ms
    return None


def _listed(value: object, start: When) -> Iterator[When]:
    """The times in RDATE or EXDATE; those without a zone are in that of the entry."""
    several: Iterable[object] = value if isinstance(value, list) else (value,)
    for one in several:
        for each in getattr(one, "dts", ()):
            moment = each.dt[0] if isinstance(each.dt, tuple) else each.dt
            if isinstance(moment, date):
                _check_year(moment)
            if isinstance(moment, datetime) and moment.tzinfo is not None:
                yield When(moment.astimezone(UTC).replace(tzinfo=None), UTC)
            elif isinstance(moment, datetime):
                yield When(moment, start.zone)
            elif isinstance(moment, date):
                yield When(datetime.combine(moment, start.local.time()), start.zone)


def length_ms(event: Event, start: When, clocks: Clocks) -> int | None:
    """How long an entry lasts; None where it says nothing, or has no time at all."""
    if "DTEND" in event:
        end = when_of(event["DTEND"], clocks)
        taken_ms = end.at_ms - start.at_ms
    elif "DURATION" in event:
        length = getattr(event["DURATION"], "dt", None)
        if not isinstance(length, timedelta):
            raise TimeProblem("DURATION means nothing", "Write it like PT6M14S")
        taken_ms = length // timedelta(milliseconds=1)
    else:
        return None
    if taken_ms < 0:
        raise TimeProblem("this entry ends before it begins", "Mend DTEND or DURATION")
    return taken_ms or None
