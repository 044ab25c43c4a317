"""A plan as the plain values of its file; what the reader would have anyway is left out."""

from collections.abc import Callable, Sequence
from dataclasses import MISSING, dataclass, fields
from typing import Any

from core.plan.model import (
    Bound,
    Course,
    CourseKind,
    EdgeRef,
    Event,
    Fact,
    Limit,
    Pass,
    Plan,
    Tie,
    Window,
)
from core.plan.ties import bind
from core.plan.values import NONE
from core.times.durations import write_duration


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant in UTC milliseconds, to be written as a date and time."""

    at_ms: int


Value = str | bool | int | float | Moment | list[Any] | dict[str, Any]
Table = dict[str, Value]
_Column = tuple[str, str, Callable[[Any], Value]]
"""A key of the file, the attribute it holds, and how that is written."""


def plain_plan(plan: Plan, version: int) -> Table:
    """The values of the file that reads back as `plan`, in the order of the format's page."""
    table: Table = {"limbwatch": version, "title": plan.title, "zones": list(plan.zones)}
    table |= _table(plan, _TOP)
    base_ms = _elapsed_base_ms(plan)
    lists: tuple[tuple[str, list[Table]], ...] = (
        ("event", [_event(event) for event in plan.events]),
        ("limit", [_limit(limit) for limit in plan.limits]),
        ("outcome", [_named(outcome, _OUTCOME) for outcome in plan.outcomes]),
        ("ground", [_named(ground, _GROUND) for ground in plan.grounds]),
    )
    table |= {key: tables for key, tables in lists if tables}
    if plan.lanes:
        table["lane"] = {lane.id: {"name": lane.name} | _table(lane, _LANE) for lane in plan.lanes}
    lists = (
        ("course", [_course(course, base_ms) for course in plan.courses]),
        ("blackout", [_table(blackout, _BLACKOUT) for blackout in plan.blackouts]),
        ("junction", [_table(junction, _JUNCTION) for junction in plan.junctions]),
        ("item", [_named(item, _ITEM) for item in plan.items]),
        ("checkoff", [_named(checkoff, _CHECKOFF) for checkoff in plan.checkoffs]),
        ("grave", [_table(line, _GRAVE) for line in plan.grave]),
    )
    if plan.air is not None:
        table["air"] = _table(plan.air, _AIR)
    if not plan.light_time:
        table["signal"] = {"light_time": False}
    return table | {key: tables for key, tables in lists if tables}


def _elapsed_base_ms(plan: Plan) -> int:
    """Where elapsed rows count from; 0 where no course has any."""
    event = next((event for event in plan.events if event.id == plan.elapsed_from), None)
    if event is None:
        return 0
    return event.at_ms if event.at_ms is not None else event.happened_ms or 0


def _table(thing: Any, columns: Sequence[_Column]) -> Table:
    """The keys of one thing whose attributes differ from their defaults."""
    defaults = {one.name: one.default for one in fields(thing) if one.default is not MISSING}
    table: Table = {}
    for key, attribute, written in columns:
        value = getattr(thing, attribute)
        if value is not None and (attribute not in defaults or value != defaults[attribute]):
            table[key] = written(value)
    return table


def _named(thing: Any, columns: Sequence[_Column]) -> Table:
    """As `_table`, with the id first, and the name where it is not the id."""
    name = {} if thing.name == thing.id else {"name": thing.name}
    return {"id": thing.id} | name | _table(thing, columns)


def _same(value: Any) -> Value:
    kept: Value = value
    return kept


def _text(value: object) -> Value:
    return str(value)


def _listed(values: Sequence[Any]) -> Value:
    return list(values)


def _stretches(values: Sequence[tuple[int, int]]) -> Value:
    return [[Moment(first), Moment(last)] for first, last in values]


def _stretch(value: tuple[int, int]) -> Value:
    return [Moment(value[0]), Moment(value[1])]


def _bound(length_ms: int | None) -> str:
    return NONE if length_ms is None else write_duration(length_ms)


def _event(event: Event) -> Table:
    name: Table = {} if event.name == event.id else {"name": event.name}
    return {"id": event.id} | name | _after(event.ties) | _table(event, _EVENT)


def _after(ties: tuple[Tie, ...]) -> Table:
    """One tie stands beside its event, several in a list."""
    if not ties:
        return {}
    if len(ties) == 1:
        return {"after": ties[0].event} | _tie(ties[0])
    return {"after": [{"event": tie.event} | _tie(tie) for tie in ties]}


def _tie(tie: Tie) -> Table:
    """The offset and bounds of a tie, as few as read back the same."""
    table: Table = {} if tie.offset_ms is None else {"offset": write_duration(tie.offset_ms)}
    if tie.offset_ms is not None and tie.least_ms == tie.most_ms == tie.offset_ms:
        return table | {"fixed": True}
    bounds = {"least": tie.least_ms, "most": tie.most_ms}
    ways: tuple[frozenset[str], ...] = (
        frozenset(),
        frozenset({"least"}),
        frozenset({"most"}),
        frozenset(bounds),
    )
    said = next(
        way
        for way in ways
        if bind(tie.offset_ms, *_given(bounds, way), way) == (tie.least_ms, tie.most_ms)
    )
    return table | {key: _bound(bounds[key]) for key in bounds if key in said}


def _given(bounds: dict[str, int | None], way: frozenset[str]) -> tuple[int | None, int | None]:
    least, most = (bounds[key] if key in way else None for key in ("least", "most"))
    return least, most


def _edge(edge: EdgeRef) -> Value:
    return _table(edge, _EDGE)


def _window(window: Window) -> Value:
    ends = (window.not_before_ms, window.not_after_ms)
    return [NONE if end is None else Moment(end) for end in ends]


def _facts(facts: tuple[Fact, ...]) -> Value:
    return [_table(fact, _FACT) for fact in facts]


def _limit(limit: Limit) -> Table:
    table: Table = {"from": limit.before, "to": limit.after}
    bounds = (("least", limit.least_ms), ("most", limit.most_ms))
    return table | {key: write_duration(ms) for key, ms in bounds if ms is not None}


def _course(course: Course, base_ms: int) -> Table:
    table: Table = {"id": course.id, "kind": str(course.kind)}
    table |= _table(course, _COURSE)
    if course.kind is CourseKind.PASSES and course.file is None:
        table["rows"] = [_row(row, course.times, base_ms) for row in course.rows]
    return table | {key: _setting(value) for key, value in course.settings}


def _row(row: Pass, times: str, base_ms: int) -> Table:
    table: Table = {"lane": row.lane}
    if row.ground is not None:
        table["ground"] = row.ground
    for key, time_ms in (("back", row.back_ms), ("lost", row.lost_ms)):
        from_ms = base_ms if times == "elapsed" else 0
        table[key] = Moment(time_ms) if times == "clock" else write_duration(time_ms - from_ms)
    return table


def _ends(bound: Bound) -> Value:
    return Moment(bound.at_ms) if bound.at_ms is not None else bound.event or ""


def _setting(value: object) -> Value:
    """A kept setting; a tuple of (key, value) pairs is a table, any other tuple a list."""
    if not isinstance(value, tuple):
        return _same(value)
    if all(isinstance(one, tuple) and len(one) == 2 and isinstance(one[0], str) for one in value):
        return {key: _setting(one) for key, one in value}
    return [_setting(one) for one in value]


_TOP: Sequence[_Column] = (
    ("subtitle", "subtitle", _same),
    ("elapsed_from", "elapsed_from", _same),
    ("auto_edges", "auto_edges", _listed),
    ("sources", "sources", _listed),
    ("usage", "usage", _text),
)
_EVENT: Sequence[_Column] = (
    ("at", "at_ms", Moment),
    ("happened", "happened_ms", Moment),
    ("edge", "edge", _edge),
    ("window", "window", _window),
    ("only_if", "only_if", _same),
    ("pinned", "pinned", _same),
    ("give", "give_ms", write_duration),
    ("live", "live", _same),
    ("guard", "guard_ms", write_duration),
    ("stay", "stay_ms", write_duration),
    ("live_with", "live_with", _same),
    ("at_craft", "at_craft", _same),
    ("say", "say", _same),
    ("sounds", "sounds", _same),
    ("facts", "facts", _facts),
)
_EDGE: Sequence[_Column] = (
    ("lane", "lane", _same),
    ("change", "change", _text),
    ("after", "after", _same),
    ("before", "before", _same),
    ("offset", "offset_ms", write_duration),
    ("nth", "nth", _same),
)
_FACT: Sequence[_Column] = (
    ("text", "text", _same),
    ("after_confirmed", "after_confirmed", _same),
    ("not_before", "not_before_ms", Moment),
    ("source", "source", _same),
    ("date", "date", _same),
)
_OUTCOME: Sequence[_Column] = (("of", "of", _same),)
_GROUND: Sequence[_Column] = (
    ("latitude", "latitude_deg", _same),
    ("longitude", "longitude_deg", _same),
    ("height", "height_m", _same),
    ("mask", "mask_deg", _same),
    ("geocentre", "geocentre", _same),
    ("lanes", "lanes", _listed),
    ("open", "open", _stretches),
)
_LANE: Sequence[_Column] = (
    ("delay", "delay_ms", write_duration),
    ("first_words", "first_words_ms", write_duration),
)
_COURSE: Sequence[_Column] = (
    ("follows", "follows", _same),
    ("only_if", "only_if", _same),
    ("times", "times", _same),
    ("gap", "gap", _same),
    ("file", "file", _same),
    ("from", "begins", _ends),
    ("until", "ends", _ends),
)
_BLACKOUT: Sequence[_Column] = (
    ("after", "after", _same),
    ("from", "from_ms", write_duration),
    ("to", "to_ms", write_duration),
    ("lanes", "lanes", _listed),
    ("cause", "cause", _same),
)
_AIR: Sequence[_Column] = (
    ("on", "on_ms", Moment),
    ("off", "off_ms", Moment),
    ("item_gap", "item_gap_ms", write_duration),
    ("break_gap", "break_gap_ms", write_duration),
    ("delay", "delay_ms", write_duration),
)
_JUNCTION: Sequence[_Column] = (("at", "at_ms", Moment), ("name", "name", _same))
_ITEM: Sequence[_Column] = (
    ("kind", "kind", _same),
    ("length", "length_ms", write_duration),
    ("turnaround", "turnaround_ms", write_duration),
    ("owed", "owed", _same),
    ("sponsor", "sponsor", _same),
    ("can_cut", "can_cut", _same),
    ("earliest", "earliest_ms", Moment),
    ("latest", "latest_ms", Moment),
    ("at", "at_ms", Moment),
    ("needs", "needs", _same),
    ("prefers", "prefers", _same),
    ("booked", "booked", _stretches),
    ("weight", "weight", _same),
    ("ran", "ran", _stretch),
)
_GRAVE: Sequence[_Column] = (("after", "after_ms", write_duration), ("text", "text", _same))
_CHECKOFF: Sequence[_Column] = (
    ("of", "of", _same),
    ("count", "count", _same),
    ("enough", "enough", _same),
    ("spaced", "spaced", _same),
)
