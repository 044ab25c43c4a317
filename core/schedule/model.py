"""What the schedule says: times, causes, moves and clashes, as plain data.

All instants are UTC milliseconds, all differences milliseconds.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from core.entries.edges import Edges as Edges  # noqa: PLC0414 - handed on to the schedule's users
from core.entries.edges import Found as Found  # noqa: PLC0414 - likewise


class State(StrEnum):
    """How an event stands, as far as the schedule can tell without a clock."""

    AHEAD = "ahead"
    HAPPENED = "happened"
    HELD = "held"
    SCRUBBED = "scrubbed"
    DROPPED = "dropped"
    """It belongs to an outcome that a source has ruled out."""
    UNKNOWN = "unknown"
    """It hangs on an edge or a course that is not there any more."""


class Kind(StrEnum):
    """What bears on a time; the words of `cause` and of a clash's set."""

    FACT = "fact"
    FIGURE = "figure"
    HOLD = "hold"
    RESUMED = "resumed"
    """A count that was held and goes on: when it began again, and what was left on it."""
    PIN = "pin"
    EDGE = "edge"
    LEAST = "least"
    MOST = "most"
    NOT_BEFORE = "not_before"
    NOT_AFTER = "not_after"
    PLANNED = "planned"
    TIE = "tie"
    """The offset of a tie, which pulls but does not bind."""


@dataclass(frozen=True, slots=True)
class Cause:
    """What binds a time: for ties and limits `of` is the event at the other end, else itself."""

    kind: Kind
    of: str


@dataclass(frozen=True, slots=True)
class Constraint:
    """One member of a clash: a bound on the event `of`, or from `of` to `to`."""

    kind: Kind
    of: str
    to: str | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One event as the schedule has it. Times are None where the event has none (see `state`).

    `planned_ms` is the plan alone, without facts and entries; earliest and latest are the bounds
    that the hard limits leave (None: open). `left_ms` is what stood on a held count, `held_ms`
    when it stopped. `slack_ms`: by how much what comes before it may still slip before it moves
    or clashes (pinned events), None where that means nothing.
    """

    event: str
    planned_ms: int | None
    expected_ms: int | None
    happened_ms: int | None
    earliest_ms: int | None
    latest_ms: int | None
    give_ms: int
    state: State
    cause: Cause | None
    left_ms: int | None = None
    held_ms: int | None = None
    slack_ms: int | None = None
    pinned: bool = False
    figure_ms: int | None = None
    """A revised time that still stands on the event."""
    edge: str = ""
    """The id of the signal's edge the event stands for now, if it hangs on one."""
    outcome: str | None = None
    """The outcome it depends on, its own or inherited through ties."""
    plan_ms: int | None = None
    """What the plan itself gave, before any new reference."""


@dataclass(frozen=True, slots=True)
class Brief:
    """What of an event's line takes no explaining; the fields are as in `Line`."""

    expected_ms: int | None
    planned_ms: int | None
    give_ms: int
    state: State
    left_ms: int | None
    outcome: str | None


@dataclass(frozen=True, slots=True)
class Floor:
    """What holds an event's time up (None: nothing, or it has no time), and how early it may be."""

    kind: Kind | None
    earliest_ms: int | None


class MoveKind(StrEnum):
    """How a moved event relates to what was typed."""

    TYPED = "typed"
    UPSTREAM = "upstream"
    FOLLOWS = "follows"


@dataclass(frozen=True, slots=True)
class Move:
    """An event that moved: old and new time (None: it had or has none), and what binds it now."""

    event: str
    old_ms: int | None
    new_ms: int | None
    kind: MoveKind
    cause: Cause | None


@dataclass(frozen=True, slots=True)
class Stay:
    """An event that stayed though something before it moved: why, and what slack is left."""

    event: str
    kind: Kind | None
    """PIN, FACT, FIGURE, PLANNED, ...; None: there was slack, or a later tie decides."""
    slack_ms: int | None


@dataclass(frozen=True, slots=True)
class Squeeze:
    """A tie now shorter than its offset: from `before` to `after`."""

    before: str
    after: str
    offset_ms: int
    gap_ms: int


@dataclass(frozen=True, slots=True)
class Broken:
    """A limit the desk has overruled: it falls short by so much at the present times."""

    limit: Constraint
    short_ms: int


@dataclass(frozen=True, slots=True)
class Clash:
    """Why an entry cannot hold: an irreducible set, the excess, and the figures that would fit."""

    event: str
    set: tuple[Constraint, ...]
    over_ms: int
    fits_from_ms: int | None
    fits_until_ms: int | None


@dataclass(frozen=True, slots=True)
class Effect:
    """What an entry does, or would do. With a clash and no force nothing is changed.

    `moves`, `stays` and `squeezed` may be worked out only when they are read.
    """

    moves: Sequence[Move] = ()
    stays: Sequence[Stay] = ()
    yielded: tuple[str, ...] = ()
    """Events whose older figure gave way, and is spent."""
    squeezed: Sequence[Squeeze] = ()
    broken: tuple[Broken, ...] = ()
    clash: Clash | None = None
    notes: tuple[str, ...] = ()
    """What else must be said, in words ('offset of X let go: it would chase itself')."""
    asks: str = ""
    """Why a second Enter is wanted though nothing clashes (the plan's own pin would go)."""
    chains: "Chains | None" = None
    """Why each event moved, link by link, back to what was typed."""


@dataclass(frozen=True, slots=True)
class Link:
    """One link of a chain of causes: the event, why it moved, and how far it moved."""

    event: str
    cause: Cause
    moved_ms: int


class Chains(Protocol):
    """Where an effect's chains of causes are asked for."""

    def chain(self, event_id: str) -> tuple[Link, ...]:
        """From what was typed to the event, each link moved by the one before it.

        Empty for an event that did not move. The last link's `moved_ms` is the event's.
        """
