"""The record as data: all that the exports are written from. Instants are UTC milliseconds."""

from dataclasses import dataclass
from enum import StrEnum

from core.plan.model import Change
from core.signal.model import Stretch
from core.times.writing import Style


@dataclass(frozen=True, slots=True)
class Credit:
    """Where something comes from: the entry, when it was typed, who said so, who typed it.

    Number 0 is no entry: the plan itself.
    """

    number: int = 0
    at_ms: int | None = None
    source: str = ""
    by: str = ""


class How(StrEnum):
    """Why an event's time moved."""

    TYPED = "typed"
    FOLLOWS = "follows"
    HELD = "held"
    """A count that stood still: what is tied after it slid, a second each second."""
    TAKEN_BACK = "taken back"
    BROUGHT_BACK = "brought back"
    PLAN = "plan"
    """Another plan was taken over."""


@dataclass(frozen=True, slots=True)
class Move:
    """An event's time went from one to another; None: it had or has none."""

    event: str
    from_ms: int | None
    to_ms: int | None
    how: How
    credit: Credit


@dataclass(frozen=True, slots=True)
class Telling:
    """A time told to the audience for an event; None: that it has none. `stands`: not taken back.

    `credit` has the instant at which it was said.
    """

    event: str
    told_ms: int | None
    text: str
    credit: Credit
    stands: bool = True


class Stood(StrEnum):
    """How an event stood at the end of the record."""

    HAPPENED = "happened"
    AHEAD = "ahead"
    UNCONFIRMED = "unconfirmed"
    """Its time was over, and nobody had said that it happened."""
    COMPUTED = "by computation"
    """An edge of the signal that nobody named: over by its computed time, which needs no word."""
    HELD = "held"
    CALLED_OFF = "called off"
    OTHER_OUTCOME = "other outcome"
    """It belongs to an outcome that did not come."""
    UNKNOWN = "unknown"
    """What it hangs on was not there."""
    GONE = "gone"
    """A later plan no longer had it."""


@dataclass(frozen=True, slots=True)
class EventRow:
    """One event of the day.

    `expected_ms` is the last before it happened, else as it stood at the end; None for what had
    happened before the session. `planned_ms` is the plan's as it first had it, `replanned_ms` what
    it was at the end where that is another. `credit` is whose word the last column rests on.
    """

    id: str
    name: str
    planned_ms: int | None
    expected_ms: int | None
    happened_ms: int | None
    stood: Stood
    credit: Credit = Credit()
    replanned_ms: int | None = None
    give_ms: int = 0
    outcome: str = ""
    live: bool = False
    added: bool = False
    """It was added at the desk."""
    told: tuple[Telling, ...] = ()
    moves: tuple[Move, ...] = ()

    @property
    def last_ms(self) -> int | None:
        """When it happened, else when it was expected at the end."""
        return self.expected_ms if self.happened_ms is None else self.happened_ms

    @property
    def said_ms(self) -> int | None:
        """The time last told to the audience; None where none was, or that it has none."""
        standing = [telling for telling in self.told if telling.stands]
        return standing[-1].told_ms if standing else None


@dataclass(frozen=True, slots=True)
class EdgeRow:
    """A loss or return of one lane: as it was computed, as a source gave it, as it was observed.

    `computed_ms` of an observed edge is what the board had just before; None: it was in no plan.
    `given_ms` is the figure for it that stood then: beside one, the computed time is its course's.
    `heard_ms` is when it was noticed at the desk, where that was later.
    """

    id: str
    lane: str
    change: Change
    ground: str
    cause: str
    computed_ms: int | None
    observed_ms: int | None = None
    heard_ms: int | None = None
    outcome: str = ""
    credit: Credit = Credit()
    given_ms: int | None = None

    @property
    def at_ms(self) -> int:
        """When it was, by the best that is known of it."""
        known = (self.observed_ms, self.given_ms, self.computed_ms)
        return next((at_ms for at_ms in known if at_ms is not None), 0)

    @property
    def off_ms(self) -> int | None:
        """By how much it was observed later than computed."""
        if self.computed_ms is None or self.observed_ms is None:
            return None
        return self.observed_ms - self.computed_ms


@dataclass(frozen=True, slots=True)
class LaneDay:
    """One lane over the day, as it stood at the end."""

    id: str
    name: str
    stretches: tuple[Stretch, ...]


class Ended(StrEnum):
    """How an item stood at the end of the record."""

    RAN = "ran"
    ON_AIR = "on the air"
    LOST = "lost"
    """Owed, dropped or too late: to be made good."""
    OWED = "still owed"
    DROPPED = "dropped"
    NOT_RUN = "not run"


@dataclass(frozen=True, slots=True)
class ItemRow:
    """One item of the programme as it ran.

    `over_ms` is by how much it ran over its length, below nought under it. `make_good_ms` is what
    of an owed one did not run.
    """

    id: str
    kind: str
    name: str
    length_ms: int
    ended: Ended
    sponsor: str = ""
    owed: bool = False
    placed_ms: int | None = None
    from_ms: int | None = None
    to_ms: int | None = None
    over_ms: int | None = None
    make_good_ms: int = 0
    credit: Credit = Credit()


@dataclass(frozen=True, slots=True)
class Absence:
    """A stretch in which the network had the air; None: nobody said until when."""

    from_ms: int
    until_ms: int | None


class Closed(StrEnum):
    """What became of a correction that was owed to the audience."""

    SAID = "said"
    WAIVED = "waived"
    LAPSED = "no longer needed"
    """The time that had been told was right again, or another was told."""
    OWED = "still owed"


@dataclass(frozen=True, slots=True)
class CorrectionRow:
    """A time once told that became false: from which entry on, and what became of it."""

    event: str
    name: str
    told_ms: int
    now_ms: int | None
    why: str
    owed: Credit
    closed: Closed
    closing: Credit | None = None


@dataclass(frozen=True, slots=True)
class OutcomeRow:
    """An outcome that a source named, or that was open again."""

    outcome: str
    of: str
    open_again: bool
    stands: bool
    credit: Credit


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A check-off as it was heard last, in words with the plan's rule."""

    id: str
    name: str
    heard: int
    count: int
    enough: int
    words: str
    credit: Credit


@dataclass(frozen=True, slots=True)
class PromiseRow:
    """Something promised to the audience; `kept_ms` None: it was not kept."""

    text: str
    kept_ms: int | None
    credit: Credit


@dataclass(frozen=True, slots=True)
class ClockRow:
    """What the machine's clock did: a step, or a sleep."""

    by_ms: int
    slept: bool
    credit: Credit


@dataclass(frozen=True, slots=True)
class TurnedRow:
    """An entry taken back or brought back: which, and what it said."""

    number: int
    words: str
    back_again: bool
    credit: Credit


@dataclass(frozen=True, slots=True)
class LogRow:
    """One entry: as typed, and as it was read. `note`: words for the record, nothing else."""

    typed: str
    words: str
    stands: bool
    forced: bool
    note: bool
    credit: Credit


@dataclass(frozen=True, slots=True)
class Sitting:
    """Who was at the desk, by initials; `until_ms` None: to the end."""

    who: str
    from_ms: int
    until_ms: int | None


@dataclass(frozen=True, slots=True)
class DayRecord:
    """The whole day, from `begin_ms` to `end_ms`, in the words of one style."""

    title: str
    subtitle: str
    session: str
    style: Style
    zones: tuple[str, ...]
    begin_ms: int
    end_ms: int
    rehearsal: bool
    events: tuple[EventRow, ...] = ()
    edges: tuple[EdgeRow, ...] = ()
    lanes: tuple[LaneDay, ...] = ()
    items: tuple[ItemRow, ...] = ()
    away: tuple[Absence, ...] = ()
    corrections: tuple[CorrectionRow, ...] = ()
    outcomes: tuple[OutcomeRow, ...] = ()
    checks: tuple[CheckRow, ...] = ()
    promises: tuple[PromiseRow, ...] = ()
    clock: tuple[ClockRow, ...] = ()
    turned: tuple[TurnedRow, ...] = ()
    sittings: tuple[Sitting, ...] = ()
    log: tuple[LogRow, ...] = ()

    @property
    def moves(self) -> tuple[Move, ...]:
        """Every move of the day, in the order it came about."""
        found = [move for row in self.events for move in row.moves]
        found.sort(key=lambda move: (move.credit.at_ms or 0, move.credit.number))
        return tuple(found)

    @property
    def notes(self) -> tuple[LogRow, ...]:
        """The words typed for the record."""
        return tuple(row for row in self.log if row.note)

    def name(self, event: str) -> str:
        """An event's name, or its id where the record has none."""
        return next((row.name for row in self.events if row.id == event), event)
