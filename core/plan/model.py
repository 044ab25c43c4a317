"""The plan as written: immutable, with every reference by id. Instants are UTC milliseconds.

What a key means stands in the plan format's page; here are its shapes. A field that is None was
left out of the file. Nothing computed is kept here.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from core.plan.orbitdata.model import MeanElements, Trajectory


class Change(StrEnum):
    """What an edge of the signal is: acquisition (back) or loss (lost)."""

    BACK = "back"
    LOST = "lost"


@dataclass(frozen=True, slots=True)
class Tie:
    """'This long after that'. `offset_ms` None: no pull of its own, only the bounds.

    least and most are as they bind, after the format's defaults are applied: a tie without
    `least` has 0 when its offset is 0 or more; with a negative offset its most is 0 and it has no
    least; `fixed` makes least = most = offset.
    """

    event: str
    offset_ms: int | None
    least_ms: int | None
    most_ms: int | None


@dataclass(frozen=True, slots=True)
class EdgeRef:
    """An edge of the signal by description: the nth change of a lane at or after an event.

    One of `after` and `before` may be given; neither: the nth of the whole plan. `nth` counts
    from 1, away from the event. `row` names one edge of a course outright (automatic edges only;
    no plan file says it).
    """

    lane: str
    change: Change
    after: str | None = None
    before: str | None = None
    offset_ms: int = 0
    nth: int = 1
    row: str = ""


@dataclass(frozen=True, slots=True)
class Window:
    """Not before, not after; either may be open."""

    not_before_ms: int | None
    not_after_ms: int | None


@dataclass(frozen=True, slots=True)
class Fact:
    """Something worth saying about an event."""

    text: str
    after_confirmed: bool = False
    not_before_ms: int | None = None
    source: str = ""
    date: str = ""


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happens at one instant. `name` is the id where the file gives none."""

    id: str
    name: str
    at_ms: int | None = None
    happened_ms: int | None = None
    ties: tuple[Tie, ...] = ()
    edge: EdgeRef | None = None
    window: Window | None = None
    only_if: str | None = None
    pinned: bool = False
    give_ms: int = 0
    live: bool = False
    guard_ms: int = 0
    stay_ms: int = 0
    live_with: str | None = None
    """The lane that this live moment goes with: where it is lost shortly before the event, the
    moment begins at that loss."""
    at_craft: bool = False
    say: str = ""
    sounds: str = ""
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True)
class Limit:
    """A bound between two events that is no tie: least <= t(after) - t(before) <= most."""

    before: str
    after: str
    least_ms: int | None
    most_ms: int | None


@dataclass(frozen=True, slots=True)
class Outcome:
    """One of the ways the event `of` may turn out."""

    id: str
    of: str
    name: str


@dataclass(frozen=True, slots=True)
class Ground:
    """A ground station. Degrees, metres; position and mask are None where only tables are used."""

    id: str
    name: str
    lanes: tuple[str, ...]
    latitude_deg: float | None = None
    longitude_deg: float | None = None
    height_m: float = 0.0
    mask_deg: float | None = None
    geocentre: bool = False
    open: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Lane:
    """One kind of signal. `delay_ms`: from station to studio; `first_words_ms`: after AOS."""

    id: str
    name: str
    delay_ms: int = 0
    first_words_ms: int = 0


class CourseKind(StrEnum):
    """What a course is computed from."""

    PASSES = "passes"
    ORBIT = "orbit"
    ARRIVAL = "arrival"
    TRAJECTORY = "trajectory"
    ELEMENTS = "elements"


@dataclass(frozen=True, slots=True)
class Pass:
    """One printed contact of a lane through a ground station.

    Times are planned instants (clock and elapsed rows are resolved by the reader), or offsets in
    milliseconds from the followed event where the course's `times` is 'offset'.
    """

    lane: str
    ground: str | None
    back_ms: int
    lost_ms: int


@dataclass(frozen=True, slots=True)
class Bound:
    """Where a course begins or ends: an event, or an instant. One of the two is given."""

    event: str | None = None
    at_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Course:
    """Where the craft is, as far as the plan knows it. `gap` is why there is none between rows."""

    id: str
    kind: CourseKind
    follows: str | None = None
    only_if: str | None = None
    times: str = "clock"
    gap: str = ""
    rows: tuple[Pass, ...] = ()
    file: str | None = None
    begins: Bound | None = None
    ends: Bound | None = None
    settings: tuple[tuple[str, object], ...] = ()
    """The keys of a computed course (orbit, arrival, elements) as written, in file order."""
    trajectory: Trajectory | None = None
    """What its trajectory file says."""
    elements: MeanElements | None = None
    """What its element file, or its two lines, say."""


@dataclass(frozen=True, slots=True)
class Blackout:
    """A stretch after an event in which lanes carry nothing, whatever the geometry."""

    after: str
    from_ms: int
    to_ms: int
    lanes: tuple[str, ...]
    cause: str


@dataclass(frozen=True, slots=True)
class Air:
    """The programme's hours and its rules between items. `off_ms` is hard."""

    on_ms: int | None
    off_ms: int | None
    item_gap_ms: int = 0
    break_gap_ms: int = 0
    delay_ms: int = 0


@dataclass(frozen=True, slots=True)
class Junction:
    """A clock time at which the network, or part of the audience, joins or leaves."""

    at_ms: int
    name: str


@dataclass(frozen=True, slots=True)
class Item:
    """Something on the air: break, remote, tape or studio."""

    id: str
    kind: str
    name: str
    length_ms: int
    turnaround_ms: int = 0
    owed: bool = False
    sponsor: str = ""
    can_cut: bool = True
    earliest_ms: int | None = None
    latest_ms: int | None = None
    at_ms: int | None = None
    needs: str | None = None
    prefers: str | None = None
    booked: tuple[tuple[int, int], ...] = ()
    weight: int = 1
    ran: tuple[int, int] | None = None
    """From when till when it has run already, before anything was typed."""


@dataclass(frozen=True, slots=True)
class CheckOff:
    """A count with a rule for enough.

    `spaced`: those that count must be evenly spread around the ring of positions.
    """

    id: str
    name: str
    of: str
    count: int
    enough: int
    spaced: bool = False


@dataclass(frozen=True, slots=True)
class GraveLine:
    """Words the editor passed beforehand for a grave board.

    `after_ms` counts from the last possible return of the signal.
    """

    after_ms: int
    text: str


class Usage(StrEnum):
    """How the audience is told clock times: 4:46 p.m., 4.46pm, or 16:46."""

    AMERICAN = "american"
    BRITISH = "british"
    HOURS_24 = "24h"


@dataclass(frozen=True, slots=True)
class Texts:
    """The texts that a plan was read from: its own, and by name those of its courses' files."""

    plan: str
    beside: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan, as written. `zones` holds IANA names, the first is the desk's."""

    title: str
    zones: tuple[str, ...]
    subtitle: str = ""
    elapsed_from: str | None = None
    auto_edges: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    events: tuple[Event, ...] = ()
    limits: tuple[Limit, ...] = ()
    outcomes: tuple[Outcome, ...] = ()
    grounds: tuple[Ground, ...] = ()
    lanes: tuple[Lane, ...] = ()
    courses: tuple[Course, ...] = ()
    blackouts: tuple[Blackout, ...] = ()
    air: Air | None = None
    junctions: tuple[Junction, ...] = ()
    items: tuple[Item, ...] = ()
    checkoffs: tuple[CheckOff, ...] = ()
    grave: tuple[GraveLine, ...] = ()
    usage: Usage = Usage.AMERICAN
    light_time: bool = True
    folder: Path = field(default=Path(), compare=False)
    """Where the plan's own files stand."""
    texts: Texts | None = field(default=None, compare=False, repr=False)
    """What it was read from."""
