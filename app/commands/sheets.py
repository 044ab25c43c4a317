"""All that is on the picture of the signal, as words and instants; what draws it knows only Qt."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app import EDITORIAL
from app.commands.signals import Part
from app.commands.times import open_outcome
from core.board.model import Strip
from core.board.standing import is_automatic
from core.board.strips import strip
from core.plan.model import Plan
from core.session.desk import Desk
from core.signal.model import Fill, LaneSignal
from core.times.spoken import spoken_zone
from core.times.writing import (
    MONTHS,
    Style,
    clock_text,
    date_text,
    local_time,
    weekday_text,
)

_MINUTE_MS = 60_000
_AROUND_MS = 15 * _MINUTE_MS
"""So much is drawn before the first event or edge, and after the last."""

_LEGEND = (
    (Fill.CONTACT, "signal"),
    (Fill.GAP, "no signal"),
    (Fill.EITHER, "either: it depends on an outcome that is open"),
)


@dataclass(frozen=True, slots=True)
class Note:
    """Something beside the lanes at an instant."""

    at_ms: int
    text: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """The picture's contents. `hours` are whole hours of the desk's zone, `days` its midnights."""

    title: str
    lines: tuple[str, ...]
    strip: Strip
    from_ms: int
    to_ms: int
    notes: tuple[Note, ...]
    hours: tuple[Note, ...]
    days: tuple[Note, ...]
    legend: tuple[tuple[Fill, str], ...]
    foot: str = EDITORIAL


def sheet(
    desk: Desk, part: Part, entered: Sequence[str], style: Style, now_ms: int
) -> Sheet | None:
    """The sheet of that part of the signal; None where nothing is known of it."""
    plan = desk.schedule.plan
    lanes = part.lanes(desk.signal())
    if not any(lane.contacts or lane.edges for lane in lanes):
        return None
    events = sorted(_events(desk, style), key=lambda note: note.at_ms)
    begin_ms, end_ms = _extent(part, lanes, [note.at_ms for note in events])
    notes = [*events, *_hand_overs(plan, lanes, style)]
    marks = tuple(_marks(begin_ms, end_ms, style))
    shut = any(s.fill is Fill.CLOSED for lane in lanes for s in lane.stretches)
    begin, end = (
        f"{weekday_text(ms, style.zone)}, {date_text(ms, style.zone)}, "
        f"{clock_text(ms, style, seconds=False)}"
        for ms in (begin_ms, end_ms)
    )
    lines = [f"{begin} to {end}; clock times: {spoken_zone(style.zone)}"]
    made = f"{date_text(now_ms, style.zone)}, {clock_text(now_ms, style, seconds=False)}"
    lines.append(f"As expected on {made}" + ("; entered: " if entered else ""))
    lines[-1] += "; ".join(entered)
    return Sheet(
        ", ".join(each for each in (plan.title, plan.subtitle) if each),
        tuple(lines),
        strip(plan, lanes, [note.at_ms for note in events], style),
        begin_ms,
        end_ms,
        tuple(n for n in sorted(notes, key=lambda n: n.at_ms) if begin_ms <= n.at_ms <= end_ms),
        tuple(note for note, midnight in marks if not midnight),
        tuple(note for note, midnight in marks if midnight),
        (*_LEGEND, (Fill.CLOSED, "closed by the ground")) if shut else _LEGEND,
    )


def _extent(part: Part, lanes: Sequence[LaneSignal], events_ms: Sequence[int]) -> tuple[int, int]:
    """As asked; else all edges, or all events where those span less."""
    edges_ms = [edge.time_ms for lane in lanes for edge in lane.edges]
    spans = [(min(known), max(known)) for known in (edges_ms, events_ms) if len(set(known)) > 1]
    first, last = min(spans, key=lambda span: span[1] - span[0], default=(0, 0))
    if not spans:
        ends_ms = [ms for lane in lanes for c in lane.contacts for ms in (c.from_ms, c.to_ms)]
        first = last = next((ms for ms in [*edges_ms, *events_ms, *ends_ms] if ms is not None), 0)
    begin_ms = first - _AROUND_MS if part.from_ms is None else part.from_ms
    end_ms = last + _AROUND_MS if part.to_ms is None else part.to_ms
    if end_ms <= begin_ms:  # one end was asked for, beyond the other
        hour_ms = 4 * _AROUND_MS
        return (begin_ms, begin_ms + hour_ms) if part.to_ms is None else (end_ms - hour_ms, end_ms)
    return begin_ms, end_ms


def _events(desk: Desk, style: Style) -> Iterator[Note]:
    for event in desk.schedule.plan.events:
        at_ms = desk.schedule.expected_ms(event.id)
        if at_ms is not None and not is_automatic(event):
            condition = open_outcome(desk.schedule, event.id)
            only = f", {condition}" if condition and condition not in event.name else ""
            yield Note(at_ms, f"{_minute(at_ms, style)} {event.name}{only}")


def _hand_overs(plan: Plan, lanes: Sequence[LaneSignal], style: Style) -> Iterator[Note]:
    """One for all the lanes that go to a station at an instant."""
    names = {ground.id: ground.name for ground in plan.grounds}
    going: dict[tuple[int, str], list[str]] = {}
    for lane in lanes:
        for hand in lane.hand_overs:
            going.setdefault((hand.time_ms, hand.to_ground), []).append(lane.lane)
    for (at_ms, ground), who in going.items():
        to = names.get(ground, ground)
        yield Note(at_ms, f"{_minute(at_ms, style)} to {to} ({', '.join(who)})")


def _minute(at_ms: int, style: Style) -> str:
    """The minute in which it is, as on the strip."""
    return clock_text(at_ms, style, seconds=False)


def _marks(begin_ms: int, end_ms: int, style: Style) -> Iterator[tuple[Note, bool]]:
    """Whole hours there; zones may be a quarter of an hour off those of UTC."""
    step_ms = 15 * _MINUTE_MS
    for at_ms in range(-(-begin_ms // step_ms) * step_ms, end_ms, step_ms):
        there = local_time(at_ms, style.zone)
        if there.minute:
            continue
        if there.hour:
            yield Note(at_ms, clock_text(at_ms, style, seconds=False)), False
        else:
            day = f"{weekday_text(at_ms, style.zone)[:3]} {there.day} {MONTHS[there.month - 1][:3]}"
            yield Note(at_ms, day), True
