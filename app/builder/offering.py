"""What an import would become: the events of each row, and the lines that give none, in words."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from app.builder.lists import Line
from core.plan.circles import in_order
from core.plan.drafting.clocks import clock_words
from core.plan.drafting.retiming import Retimed, can_be_retimed
from core.plan.drafting.taking import Taken, Ties, tied
from core.plan.imports.events import OTHER_TIME, Made, Same, events_of, zero_of
from core.plan.imports.model import Imported, Row
from core.plan.model import Event, Plan
from core.plan.planned import planned_times
from core.times.durations import write_duration
from core.times.writing import elapsed_text, local_time


@dataclass(frozen=True, slots=True)
class Offered:
    """A row and the event it becomes; `same` where an event of its name stands already.

    `was_ms`: that event stands at this other time, and the row may give it its own.
    """

    row: Row
    event: Event
    same: Same | None = None
    was_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Offering:
    """All that an import would add to a plan."""

    made: Made
    offered: tuple[Offered, ...]
    not_read: tuple[Line, ...]
    zero: Ties | None


def offering(imported: Imported, plan: Plan) -> Offering:
    """What an import would add; nothing is added here."""
    made = events_of(imported.rows, plan)
    offered = [Offered(row, event) for row, event in zip(made.rows, made.events, strict=True)]
    often = Counter(row.name.casefold() for row in (*made.rows, *(one.row for one in made.same)))
    alone = [often[one.row.name.casefold()] == 1 for one in made.same]
    offered += [
        Offered(one.row, one.event, one, _was_ms(one, plan) if single else None)
        for one, single in zip(made.same, alone, strict=True)
    ]
    offered.sort(key=lambda one: one.row.line)
    return Offering(made, tuple(offered), _not_read(imported, made), _zero(plan, made))


def _was_ms(same: Same, plan: Plan) -> int | None:
    """When the event stands that a row may give a new time; None where it may not."""
    event = next((one for one in plan.events if one.id == same.stands), None)
    if event is None or not can_be_retimed(event) or same.why != OTHER_TIME:
        return None
    return planned_times(plan, in_order(plan)).get(event.id)


def zero_ms_of(plan: Plan) -> int | None:
    """When elapsed time begins as the plan stands; None where nothing says."""
    return planned_times(plan, in_order(plan)).get(zero_of(plan))


def _zero(plan: Plan, made: Made) -> Ties | None:
    """The event that clock times can be tied to: the zero of elapsed time, else liftoff."""
    times = planned_times(plan, in_order(plan))
    zero = made.zero or plan.elapsed_from or ""
    at_ms = times.get(zero)
    if at_ms is None:
        at_ms = next((one.at_ms for one in made.events if one.id == zero), None)
    return None if at_ms is None else Ties(zero, at_ms)


def chosen(now: Offering, lines: Sequence[Line], *, ties: bool) -> Taken:
    """What is ticked: events, tied to the zero where that is wanted, and new times."""
    ticked = [one for one, line in zip(now.offered, lines, strict=True) if line.taken]
    events = tuple(one.event for one in ticked if one.was_ms is None)
    retimed = tuple(
        Retimed(one.same.stands, at_ms, at_ms - one.was_ms)
        for one in ticked
        if one.same is not None
        and one.was_ms is not None
        and (at_ms := _at_ms(one.event, now)) is not None
    )
    return Taken(tied(events, now.zero) if ties and now.zero is not None else events, retimed)


def offered_lines(now: Offering, zone: str, year: int | None) -> list[Line]:
    """The rows as they would become, each ticked but those that stand already."""
    return [_line(one, now, zone, year) for one in now.offered]


def _line(one: Offered, now: Offering, zone: str, year: int | None) -> Line:
    event, row = one.event, one.row
    told = [_same_words(one, one.same, zone, year)] if one.same else []
    told += [row.told] if row.told else []
    told += [fact.text for fact in event.facts]
    texts = (
        str(row.line),
        _when(event, now, zone, year),
        _elapsed(event, now),
        event.name,
        event.id,
        write_duration(event.give_ms) if event.give_ms else "",
        "live" if event.live else "",
        "; ".join(told),
    )
    return Line(texts, one.same is None, row.text)


def _same_words(one: Offered, same: Same, zone: str, year: int | None) -> str:
    if one.was_ms is None:
        return f"{same.why}: already there as '{same.stands}'"
    was = clock_words(local_time(one.was_ms, zone).replace(tzinfo=None, microsecond=0), year)
    return f"tick: new time of '{same.stands}', was {was}"


def _at_ms(event: Event, now: Offering) -> int | None:
    if event.at_ms is not None:
        return event.at_ms
    zero = now.zero
    tie = event.ties[0] if event.ties else None
    if zero is None or tie is None or tie.event != zero.event or tie.offset_ms is None:
        return None
    return zero.at_ms + tie.offset_ms


def _when(event: Event, now: Offering, zone: str, year: int | None) -> str:
    at_ms = _at_ms(event, now)
    if at_ms is None:
        return ""
    return clock_words(local_time(at_ms, zone).replace(tzinfo=None, microsecond=0), year)


def _elapsed(event: Event, now: Offering) -> str:
    if event.ties and event.ties[0].offset_ms is not None:
        return elapsed_text(event.ties[0].offset_ms)
    at_ms = _at_ms(event, now)
    return "" if at_ms is None or now.zero is None else elapsed_text(at_ms - now.zero.at_ms)


def _not_read(imported: Imported, made: Made) -> tuple[Line, ...]:
    """Every line that gives no event, and why, in the order of the text."""
    found = [
        (one.line, Line((str(one.line), one.text.strip(), f"{one.why}. {one.hint}".rstrip(". "))))
        for one in (*imported.not_read, *made.not_taken)
    ]
    found += [
        (one.line, Line((str(one.line), one.text.strip(), f"taken as: {one.meaning}")))
        for one in imported.headings
    ]
    return tuple(line for _, line in sorted(found, key=lambda one: one[0]))
