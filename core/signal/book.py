"""The plan's tables as they are printed: per lane its courses' rows, and what cuts them.

Every edge that may ever come out of them has its id here: `course.lane.row.change`. The row
counts from 1 within its lane and course. Where a station's hours cut a row it is `row` + `h` + the
number of the hours; a blackout's edges are `event.lane.blackout` + its number.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from core.plan.model import Blackout, Change, Course, CourseKind, Ground, Pass, Plan
from core.signal.worlds import Outcomes, World

NO_STATION = "no ground station in view"


@dataclass(frozen=True, slots=True)
class Row:
    """One printed contact, its edges' ids, and its station's hours (empty: always open)."""

    back_ms: int
    lost_ms: int
    ground: str | None
    back: str
    lost: str
    hours: tuple[tuple[int, int], ...]

    def hour_edge(self, number: int, change: Change) -> str:
        """The id of the edge that the station's hours of that number make in this row."""
        return f"{self.back.removesuffix(Change.BACK)[:-1]}h{number}.{change}"

    def edges(self) -> Iterator[str]:
        """The ids of all edges that may come out of the row."""
        yield self.back
        yield self.lost
        for number in range(1, len(self.hours) + 1):
            for change in Change:
                yield self.hour_edge(number, change)


@dataclass(frozen=True, slots=True)
class Part:
    """The rows of one course on one lane, sorted by their beginning."""

    course: Course
    condition: World
    cause: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Dark:
    """A blackout on one lane, with the ids of its edges."""

    blackout: Blackout
    condition: World
    lost: str
    back: str


@dataclass(frozen=True, slots=True)
class LaneBook:
    """All that is printed of one lane. `needs`: the events whose times decide its edges.

    `courses` tells the course of each edge that comes out of a row.
    """

    lane: str
    parts: tuple[Part, ...]
    darks: tuple[Dark, ...]
    needs: tuple[str, ...]
    relevant: World
    """The outcomes that tell its worlds apart."""
    courses: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Known:
    """What an edge's id stands for. No table prints the edges that hours or a blackout make."""

    lane: str
    change: Change
    condition: World
    course: str = ""
    printed_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Book:
    """All lanes, and every edge by id."""

    lanes: tuple[LaneBook, ...]
    edges: Mapping[str, Known]
    outcomes: Outcomes


def bind(plan: Plan) -> Book:
    """The tables of a plan."""
    outcomes = Outcomes(plan)
    lanes = tuple(_lane(plan, lane, outcomes) for lane in lane_ids(plan))
    edges: dict[str, Known] = {}
    for lane in lanes:
        for part in lane.parts:
            for row in part.rows:
                _know(lane.lane, part, row, edges)
        for dark in lane.darks:
            edges[dark.lost] = Known(lane.lane, Change.LOST, dark.condition)
            edges[dark.back] = Known(lane.lane, Change.BACK, dark.condition)
    return Book(lanes, edges, outcomes)


def lane_ids(plan: Plan) -> tuple[str, ...]:
    """Every lane that the plan names anywhere, those it describes first."""
    named = [lane.id for lane in plan.lanes]
    named += [lane for ground in plan.grounds for lane in ground.lanes]
    named += [row.lane for course in plan.courses for row in course.rows]
    return tuple(dict.fromkeys(named))


def _lane(plan: Plan, lane: str, outcomes: Outcomes) -> LaneBook:
    grounds = {ground.id: ground for ground in plan.grounds}
    parts = tuple(
        part
        for course in plan.courses
        if course.kind is CourseKind.PASSES
        if (part := _part(course, lane, grounds, outcomes)).rows
    )
    darks = tuple(
        Dark(
            blackout,
            outcomes.of_event(blackout.after),
            f"{blackout.after}.{lane}.blackout{number}.{Change.LOST}",
            f"{blackout.after}.{lane}.blackout{number}.{Change.BACK}",
        )
        for number, blackout in enumerate(plan.blackouts, 1)
        if lane in blackout.lanes
    )
    needs = [event for part in parts for event in _events_of(part.course)]
    needs += [dark.blackout.after for dark in darks]
    conditions = [part.condition for part in parts] + [dark.condition for dark in darks]
    relevant = outcomes.widened(frozenset[str]().union(*conditions))
    courses = {edge: part.course.id for part in parts for row in part.rows for edge in row.edges()}
    return LaneBook(lane, parts, darks, tuple(dict.fromkeys(needs)), relevant, courses)


def _part(course: Course, lane: str, grounds: Mapping[str, Ground], outcomes: Outcomes) -> Part:
    passes = sorted(
        enumerate((row for row in course.rows if row.lane == lane), 1),
        key=lambda numbered: numbered[1].back_ms,
    )
    return Part(
        course,
        outcomes.condition(course.only_if, course.follows),
        course.gap or NO_STATION,
        tuple(_row(course.id, number, row, grounds) for number, row in passes),
    )


def _row(course: str, number: int, row: Pass, grounds: Mapping[str, Ground]) -> Row:
    ground = grounds.get(row.ground or "")
    stem = f"{course}.{row.lane}.{number}"
    return Row(
        row.back_ms,
        row.lost_ms,
        row.ground,
        f"{stem}.{Change.BACK}",
        f"{stem}.{Change.LOST}",
        ground.open if ground is not None else (),
    )


def _events_of(course: Course) -> list[str]:
    bounds = [bound.event for bound in (course.begins, course.ends) if bound is not None]
    return [event for event in (course.follows, *bounds) if event is not None]


def _know(lane: str, part: Part, row: Row, edges: dict[str, Known]) -> None:
    course, condition = part.course.id, part.condition
    edges[row.back] = Known(lane, Change.BACK, condition, course, row.back_ms)
    edges[row.lost] = Known(lane, Change.LOST, condition, course, row.lost_ms)
    for number in range(1, len(row.hours) + 1):
        for change in Change:
            edges[row.hour_edge(number, change)] = Known(lane, change, condition, course)
