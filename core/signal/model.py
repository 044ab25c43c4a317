"""The signal as data: contacts, gaps, edges, and the stretches a strip draws.

Instants are UTC milliseconds. An open end (before the first row, after the last) is None.
`outcome` None: whatever the outcome; else it is so only if that outcome is named.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import Protocol

from core.plan.model import Change


@dataclass(frozen=True, slots=True)
class Contact:
    """A stretch in which one lane reaches the ground through one station."""

    lane: str
    ground: str | None
    from_ms: int | None
    to_ms: int | None
    course: str
    outcome: str | None = None


@dataclass(frozen=True, slots=True)
class Gap:
    """A stretch without signal on a lane, merged over all stations, with its cause."""

    lane: str
    from_ms: int | None
    to_ms: int | None
    cause: str
    outcome: str | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """An acquisition or loss on a lane, merged over all stations (a hand-over is none).

    `id` is made of course, lane, row and change. `table_ms` is what the course itself gives,
    before anything was observed or revised; `observed` says that `time_ms` was seen or heard.
    `cause` of a loss is the cause of the gap after it, of a return that of the gap before it.
    `course` is empty where no row makes it: a blackout, or a loss or return not in the plan.
    """

    id: str
    time_ms: int
    lane: str
    change: Change
    ground: str | None
    cause: str
    course: str
    outcome: str | None = None
    give_ms: int = 0
    table_ms: int | None = None
    observed: bool = False


@dataclass(frozen=True, slots=True)
class Computed:
    """An edge as its course alone has it, whatever was observed: when, and how uncertain."""

    lane: str
    change: Change
    time_ms: int
    give_ms: int


@dataclass(frozen=True, slots=True)
class HandOver:
    """The signal goes from one station to another without a loss."""

    lane: str
    time_ms: int
    from_ground: str
    to_ground: str
    outcome: str | None = None


class Fill(StrEnum):
    """What a stretch of a lane is: the strip has one pattern for each."""

    CONTACT = "contact"
    GAP = "gap"
    EITHER = "either"
    CLOSED = "closed"
    """Shut by the ground: no loss of signal, but nothing for the audience."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a lane that is all one thing; stretches of a lane meet without a gap."""

    lane: str
    from_ms: int | None
    to_ms: int | None
    fill: Fill
    ground: str | None = None
    cause: str = ""


@dataclass(frozen=True, slots=True)
class Total:
    """How often and how long a lane is out of contact, over a stretch of time."""

    lane: str
    outcome: str | None
    gaps: int
    longest_ms: int
    out_ms: int
    unknown_ms: int = 0
    """How much of the stretch no course says anything of; it counts in no gap."""


@dataclass(frozen=True, slots=True)
class Shifted:
    """A flown path of a file that was moved as a whole with its event, and not computed anew."""

    course: str
    event: str
    by_ms: int


class Work(Protocol):
    """Who works a lane's signal out, each part of it when it is asked for."""

    def contacts(self) -> tuple[Contact, ...]:
        """All contacts."""

    def gaps(self) -> tuple[Gap, ...]:
        """All gaps."""

    def edges(self) -> tuple[Edge, ...]:
        """All edges."""

    def hand_overs(self) -> tuple[HandOver, ...]:
        """All hand-overs."""

    def stretches(self) -> tuple[Stretch, ...]:
        """All stretches."""


class LaneSignal:
    """All that is known of one lane, each tuple in order of time.

    Each is worked out when it is first read: what a preview does not look at costs it nothing.
    """

    def __init__(self, lane: str, work: Work) -> None:
        self.lane = lane
        self._work = work

    @cached_property
    def contacts(self) -> tuple[Contact, ...]:
        """All contacts."""
        return self._work.contacts()

    @cached_property
    def gaps(self) -> tuple[Gap, ...]:
        """All gaps; one under two causes is two that meet."""
        return self._work.gaps()

    @cached_property
    def edges(self) -> tuple[Edge, ...]:
        """All edges."""
        return self._work.edges()

    @cached_property
    def hand_overs(self) -> tuple[HandOver, ...]:
        """All hand-overs between two named stations."""
        return self._work.hand_overs()

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        """What the strip draws, over all of time."""
        return self._work.stretches()

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        return isinstance(other, LaneSignal) and self._all() == other._all()

    def __hash__(self) -> int:
        return hash(self.lane)

    def __repr__(self) -> str:
        return f"LaneSignal{self._all()!r}"

    def _all(self) -> tuple[object, ...]:
        parts = (self.contacts, self.gaps, self.edges, self.hand_overs, self.stretches)
        return (self.lane, *parts)
