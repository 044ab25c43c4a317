"""Small plans for the signal's tests, with every time in seconds from the same start."""

from collections.abc import Callable, Iterable, Mapping

from core.entries.model import Action, Entry
from core.plan.model import (
    Blackout,
    Course,
    CourseKind,
    EdgeRef,
    Event,
    Ground,
    Lane,
    Outcome,
    Pass,
    Plan,
)
from core.signal.model import Contact, Edge, Gap, LaneSignal, Stretch

S = 1000


def event(name: str, at_s: int | None = None, edge: EdgeRef | None = None) -> Event:
    return Event(name, name, at_ms=None if at_s is None else at_s * S, edge=edge)


def row(lane: str, ground: str | None, back_s: int, lost_s: int) -> Pass:
    return Pass(lane, ground, back_s * S, lost_s * S)


def course(
    name: str,
    *rows: Pass,
    follows: str | None = None,
    only_if: str | None = None,
    times: str = "clock",
    gap: str = "behind the Moon",
) -> Course:
    return Course(name, CourseKind.PASSES, follows, only_if, times, gap, rows)


def ground(name: str, *hours: tuple[int, int]) -> Ground:
    opens = tuple((begin_s * S, end_s * S) for begin_s, end_s in hours)
    return Ground(name, name.title(), ("voice", "picture"), open=opens)


def blackout(after: str, from_s: int, to_s: int, cause: str, *lanes: str) -> Blackout:
    return Blackout(after, from_s * S, to_s * S, lanes or ("voice",), cause)


def plan(
    *courses: Course,
    events: Iterable[Event] = (),
    outcomes: Iterable[Outcome] = (),
    grounds: Iterable[Ground] = (),
    blackouts: Iterable[Blackout] = (),
    auto_edges: tuple[str, ...] = (),
) -> Plan:
    return Plan(
        "A day",
        ("UTC",),
        auto_edges=auto_edges,
        events=tuple(events),
        outcomes=tuple(outcomes),
        grounds=tuple(grounds),
        lanes=(Lane("voice", "VOICE"),),
        courses=courses,
        blackouts=tuple(blackouts),
    )


def at(**times_s: int | None) -> Callable[[str], int | None]:
    """Expected times of events, in seconds; an event not named has none."""
    times: Mapping[str, int | None] = times_s

    def expected(name: str) -> int | None:
        time_s = times.get(name.replace("-", "_"))
        return None if time_s is None else time_s * S

    return expected


def typed(*actions: Action) -> tuple[Entry, ...]:
    return tuple(Entry(number, 0, "", action) for number, action in enumerate(actions, 1))


def seconds(ms: int | None) -> int | None:
    return None if ms is None else ms // S


def lane_of(signal: tuple[LaneSignal, ...], lane: str = "voice") -> LaneSignal:
    return next(one for one in signal if one.lane == lane)


def contact_rows(contacts: Iterable[Contact]) -> list[tuple[object, ...]]:
    return [(seconds(c.from_ms), seconds(c.to_ms), c.ground, c.outcome) for c in contacts]


def gap_rows(gaps: Iterable[Gap]) -> list[tuple[object, ...]]:
    return [(seconds(g.from_ms), seconds(g.to_ms), g.cause, g.outcome) for g in gaps]


def edge_rows(edges: Iterable[Edge]) -> list[tuple[object, ...]]:
    return [(seconds(e.time_ms), e.id, e.ground, e.cause, e.outcome) for e in edges]


def stretch_rows(stretches: Iterable[Stretch]) -> list[tuple[object, ...]]:
    return [
        (seconds(s.from_ms), seconds(s.to_ms), str(s.fill), s.ground, s.cause) for s in stretches
    ]
