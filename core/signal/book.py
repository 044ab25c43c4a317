"""The plan's contacts as they are planned: per lane its courses' rows, and what cuts them.

Every edge that may ever come out of them has its id here: `course.lane.row.change`. A table's row
counts from 1 within its lane and course; a computed one is its station and its number there, after
the outcome under which alone there is such an edge. Where a station's hours cut a row it is `row` +
`h` + the number of the hours; a blackout's edges are `event.lane.blackout` + its number.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from core.plan.driving import drivers
from core.plan.model import Blackout, Change, Course, CourseKind, Ground, Pass, Plan
from core.signal.cuts import NO_STATION
from core.signal.rows import Row, Rows
from core.signal.working import Expected, Working, Workings
from core.signal.worlds import Outcomes, World


@dataclass(frozen=True, slots=True)
class Part:
    """The rows of one course, or of one branch of it, on one lane, sorted by their beginning.

    `planned` are the rows as planned. `working` gives those of a computed course at other times.
    """

    course: Course
    condition: World
    cause: str
    planned: Rows
    working: Working | None = None

    @property
    def rows(self) -> tuple[Row, ...]:
        """Its rows as planned."""
        return self.planned.rows

    @property
    def hangs_on(self) -> tuple[str, ...]:
        """The events whose times decide its rows, if it is computed."""
        return () if self.working is None else self.working.branch.events

    @property
    def is_ended(self) -> bool:
        """Whether its rows may be left out that begin after an event."""
        return self.working is not None and self.working.end is not None

    def now(self, expected: Expected, *, whole: bool = True) -> Rows:
        """The rows with the events of a computed course at those times, else as printed.

        Unless the whole is asked for, rows that begin after the end of the course may be left out.
        """
        return self.planned if self.working is None else self.working.rows(expected, whole=whole)


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

    @property
    def bounds(self) -> frozenset[str]:
        """The events at which its courses begin or end, and its blackouts hang."""
        courses = (part.course for part in self.parts)
        named = [each.event for course in courses for each in (course.begins, course.ends) if each]
        named += [dark.blackout.after for dark in self.darks]
        return frozenset(name for name in named if name is not None)


@dataclass(frozen=True, slots=True)
class Known:
    """What an edge's id stands for. No table prints the edges that hours or a blackout make.

    `computed`: its course is worked out, so that an edge observed elsewhere moves no later one.
    """

    lane: str
    change: Change
    condition: World
    course: str = ""
    printed_ms: int | None = None
    computed: bool = False
    ground: str | None = None


@dataclass(frozen=True, slots=True)
class Book:
    """All lanes, and every edge by id."""

    lanes: tuple[LaneBook, ...]
    edges: Mapping[str, Known]
    outcomes: Outcomes


def bind(plan: Plan, workings: Workings | None = None) -> Book:
    """The contacts of a plan; of its computed courses only with `workings`."""
    outcomes = Outcomes(plan)
    lanes = tuple(_lane(plan, lane, outcomes, workings) for lane in lane_ids(plan))
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


def _lane(plan: Plan, lane: str, outcomes: Outcomes, workings: Workings | None) -> LaneBook:
    grounds = {ground.id: ground for ground in plan.grounds}
    parts: list[Part] = []
    for course in plan.courses:
        if course.kind is CourseKind.PASSES:
            printed = _part(course, lane, grounds, outcomes)
            parts += [printed] if printed.rows else []
        elif workings is not None:
            parts += _computed(course, lane, outcomes, workings)
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
    needs = [event for part in parts for event in (*drivers(part.course), *part.hangs_on)]
    needs += [dark.blackout.after for dark in darks]
    conditions = [part.condition for part in parts] + [dark.condition for dark in darks]
    relevant = outcomes.widened(frozenset[str]().union(*conditions))
    courses = {edge: part.course.id for part in parts for row in part.rows for edge in row.edges()}
    return LaneBook(lane, tuple(parts), darks, tuple(dict.fromkeys(needs)), relevant, courses)


def _part(course: Course, lane: str, grounds: Mapping[str, Ground], outcomes: Outcomes) -> Part:
    passes = sorted(
        enumerate((row for row in course.rows if row.lane == lane), 1),
        key=lambda numbered: numbered[1].back_ms,
    )
    return Part(
        course,
        outcomes.condition(course.only_if, course.follows),
        course.gap or NO_STATION,
        Rows(tuple(_row(course.id, number, row, grounds) for number, row in passes)),
    )


def _computed(course: Course, lane: str, outcomes: Outcomes, workings: Workings) -> Iterator[Part]:
    own = outcomes.condition(course.only_if, course.follows)
    for working in workings.of(course, lane):
        condition = own | outcomes.condition(working.branch.outcome, None)
        rows = working.rows(workings.planned)
        yield Part(course, condition, course.gap or NO_STATION, rows, working)


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


def _know(lane: str, part: Part, row: Row, edges: dict[str, Known]) -> None:
    """Note the edges of a row. One that several branches share is there under either."""

    def note(edge: str, change: Change, printed_ms: int | None = None) -> None:
        known = edges.get(edge)
        shared = part.condition if known is None else part.condition & known.condition
        computed = part.working is not None
        edges[edge] = Known(lane, change, shared, part.course.id, printed_ms, computed, row.ground)

    note(row.back, Change.BACK, row.back_ms)
    note(row.lost, Change.LOST, row.lost_ms)
    for number in range(1, len(row.hours) + 1):
        for change in Change:
            note(row.hour_edge(number, change), change)
