"""Events of a draft that get another time from a paper: a clock time, or the length of a tie."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.errors import TimeProblem
from core.plan.drafting.cells import Written
from core.plan.drafting.event_tables import EVENTS
from core.plan.drafting.literals import literal
from core.plan.drafting.standing import Standing
from core.plan.model import Event
from core.plan.plain import Moment
from core.plan.positions import Trail
from core.plan.writer import written
from core.times.durations import parse_duration, write_duration


@dataclass(frozen=True, slots=True)
class Retimed:
    """An event that stands, and when it is planned now; `by_ms` is how far that moves it."""

    event: str
    at_ms: int
    by_ms: int


def can_be_retimed(event: Event) -> bool:
    """Whether one time says when it is: a clock time, or one tie with its offset."""
    if event.at_ms is not None:
        return not event.ties
    return len(event.ties) == 1 and event.ties[0].offset_ms is not None


def retimings(now: Standing, retimed: Sequence[Retimed]) -> Mapping[Trail, Written]:
    """The keys to write for new times, by the rows of their events."""
    rows = {now.table(trail).get("id"): trail for trail in now.trails(EVENTS)}
    found: dict[Trail, Written] = {}
    for one in retimed:
        trail = rows.get(one.event)
        keys = _keys(now, trail, one) if trail is not None else None
        if trail is not None and keys is not None:
            found[trail] = keys
    return found


def _keys(now: Standing, trail: Trail, one: Retimed) -> Written | None:
    table = now.table(trail)
    if "at" in table:
        return {"at": written(Moment(one.at_ms), now.zone)}
    offset = table.get("offset")
    if not isinstance(table.get("after"), str) or not isinstance(offset, str | None):
        return None
    try:
        before_ms = parse_duration(offset) if offset else 0
    except TimeProblem:
        return None
    return {"offset": literal(write_duration(before_ms + one.by_ms))}
