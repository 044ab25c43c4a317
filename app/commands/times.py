"""`limbwatch times`: every event's planned and expected time, and what moved it."""

from collections.abc import Sequence

from app.commands.writing import as_json, clock_out, columns, seconds_out, shown_ms, time_out
from core.board.previewing import clash_words
from core.board.standing import is_automatic
from core.board.words import Names, bound_words, cause_words
from core.plan.model import Event
from core.schedule.model import Broken, Cause, Constraint, Kind, Line, State
from core.schedule.schedule import Schedule
from core.session.batch import Run
from core.session.desk import Desk
from core.times.spoken import spoken_zone
from core.times.writing import (
    DAY_MS,
    Style,
    apart_ms,
    clock_text,
    date_text,
    difference_words,
    short_duration_words,
)

Json = dict[str, object]

_HEAD = ("EVENT", "PLANNED", "EXPECTED", "CHANGE", "EARLIEST", "LATEST", "BY")

_STATES = {
    State.SCRUBBED: "called off",
    State.DROPPED: "belongs to an outcome that did not come",
    State.UNKNOWN: "unknown: what it hangs on is not there",
}


def times_json(desk: Desk, run: Run) -> str:
    """The schedule as JSON."""
    schedule = desk.schedule
    return as_json(
        {
            "events": [
                _event_json(schedule.event(name), schedule.line(name)) for name in _told(schedule)
            ],
            "yielded": list(run.yielded),
            "broken": [_broken_json(broken) for broken in schedule.broken],
            "clash": clash_json(run),
            "notes": list(run.notes),
        }
    )


def _told(schedule: Schedule) -> list[str]:
    """Every event of the plan and the desk, and edges that are events by themselves.

    Of these only such as there are now, and for which no other event stands.
    """
    by_itself = {n for n in schedule.events if is_automatic(schedule.event(n))}
    named = [name for name in schedule.events if name not in by_itself]
    stood_for = {schedule.line(name).edge for name in named} if by_itself else set()
    return [
        name
        for name in schedule.events
        if name not in by_itself
        or (name not in stood_for and schedule.expected_ms(name) is not None)
    ]


def _event_json(event: Event, line: Line) -> Json:
    return {
        "id": event.id,
        "name": event.name,
        "planned": time_out(line.planned_ms),
        "expected": time_out(line.expected_ms),
        "happened": time_out(line.happened_ms),
        "earliest": time_out(line.earliest_ms),
        "latest": time_out(line.latest_ms),
        "give_s": seconds_out(line.give_ms),
        "state": line.state.value,
        "pinned": line.pinned,
        "outcome": line.outcome,
        "cause": _cause_json(line.cause),
    }


def _cause_json(cause: Cause | None) -> Json | None:
    return None if cause is None else {"kind": cause.kind.value, "of": cause.of}


def _bound_json(bound: Constraint) -> Json:
    return {"kind": bound.kind.value, "of": bound.of, "to": bound.to}


def _broken_json(broken: Broken) -> Json:
    return {"limit": _bound_json(broken.limit), "short_s": seconds_out(broken.short_ms)}


def clash_json(run: Run) -> Json | None:
    """The clash that stopped the run, or stands at its end."""
    clash = run.clash
    if clash is None:
        return None
    return {
        "entry": run.stopped_at or None,
        "set": [_bound_json(bound) for bound in clash.set],
        "over_s": seconds_out(clash.over_ms),
        "fits_from": time_out(clash.fits_from_ms),
        "fits_until": time_out(clash.fits_until_ms),
    }


def times_text(desk: Desk, run: Run, style: Style, now_ms: int) -> str:
    """The schedule as a table, then what gave way and what clashes."""
    schedule = desk.schedule
    names = Names({name: schedule.event(name).name for name in schedule.events})
    shown = _in_order(schedule)
    day_ms = _day_ms(schedule, shown, now_ms)
    rows = [_row(schedule, name, names, style, day_ms) for name in shown]
    told = [_zone_line(style, day_ms, now_ms), columns(_with_outcomes(schedule, shown, rows))]
    told += [f"Gave way: the older figure for {names(name)}" for name in run.yielded]
    told += [
        f"Overruled: {bound_words(b.limit, names)}, {short_duration_words(b.short_ms)} short"
        for b in schedule.broken
    ]
    told += outcome_lines(run, names, style, now_ms)
    if run.clash is not None and run.clash not in desk.clashes:
        told.append("It is not set: --anyway sets it all the same")
    return "\n".join(told)


def _with_outcomes(
    schedule: Schedule, shown: Sequence[str], rows: Sequence[tuple[str, ...]]
) -> list[tuple[str, ...]]:
    """The table with its head; with a column IF where some of it belongs to one outcome only."""
    table = [_HEAD, *rows]
    only = ["IF", *(open_outcome(schedule, name) for name in shown)]
    if not any(only[1:]):
        return table
    return [(*row[:-1], outcome, row[-1]) for row, outcome in zip(table, only, strict=True)]


def open_outcome(schedule: Schedule, event: str) -> str:
    """What the plan calls the outcome that an event needs, unless a source has named it."""
    needed = schedule.brief(event).outcome
    if needed is None or needed in schedule.chosen.values():
        return ""
    return next((each.name for each in schedule.plan.outcomes if each.id == needed), needed)


def board_time_line(desk: Desk, style: Style, now_ms: int) -> str:
    """For which time words are given that nobody asked for; empty on the plan's days."""
    schedule = desk.schedule
    day_ms = _day_ms(schedule, _told(schedule), now_ms)
    if day_ms == now_ms:
        return ""
    now = f"{date_text(now_ms, style.zone)}, {clock_text(now_ms, style)} {spoken_zone(style.zone)}"
    return f"As of {now}; the plan begins on {date_text(day_ms, style.zone)}: see --now"


def _in_order(schedule: Schedule) -> list[str]:
    """All that is told, in order of time; what has no time stands last."""
    timed = [(schedule.expected_ms(name), name) for name in _told(schedule)]
    timed.sort(key=lambda each: (each[0] is None, each[0] or 0))
    return [name for _, name in timed]


def _day_ms(schedule: Schedule, told: Sequence[str], now_ms: int) -> int:
    """An instant of the day that needs no date: today, or for another time's plan its first day."""
    planned = [at_ms for name in told if (at_ms := shown_ms(schedule.planned_ms(name))) is not None]
    if not planned or min(planned) - DAY_MS <= now_ms <= max(planned) + DAY_MS:
        return now_ms
    return min(planned)


def _zone_line(style: Style, day_ms: int, now_ms: int) -> str:
    line = f"Clock times: {spoken_zone(style.zone)}"
    return line if day_ms == now_ms else f"{line}; without a date: {date_text(day_ms, style.zone)}"


def outcome_lines(run: Run, names: Names, style: Style, now_ms: int) -> list[str]:
    """What became of the entries, as far as it must be said: the clash, and what was asked."""
    told = []
    if run.clash is not None:
        said = clash_words(run.clash, names, style, now_ms)
        told.append(f"{run.stopped_at or 'The plan'}: {said}")
    return [*told, *run.notes]


def _row(schedule: Schedule, name: str, names: Names, style: Style, day_ms: int) -> tuple[str, ...]:
    line = schedule.line(name)
    known = (line.planned_ms, line.expected_ms, line.earliest_ms, line.latest_ms)
    planned, expected, earliest, latest = (clock_out(at, style, day_ms) for at in known)
    if expected and line.give_ms:
        expected += f" ± {short_duration_words(line.give_ms)}"
    return (names(name), planned, expected, _change(line), earliest, latest, _by(line, names))


def _by(line: Line, names: Names) -> str:
    """What binds the time, or how the event stands where it is not simply ahead."""
    if line.state in _STATES:
        return _STATES[line.state]
    by = cause_words(line.cause, names)
    if line.state is not State.HELD:
        return by
    by_hold = line.cause is not None and line.cause.kind is Kind.HOLD
    held = f"held with {short_duration_words(line.left_ms or 0)} left"
    return held if by_hold or not by else f"{held}; {by}"


def _change(line: Line) -> str:
    if line.planned_ms is None or line.expected_ms is None:
        return ""
    return difference_words(apart_ms(line.expected_ms, line.planned_ms))
