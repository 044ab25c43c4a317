"""Entries: what was typed, as data, in the order it was typed.

An entry keeps the instant its words were resolved to, so that taking an earlier one back never
changes what a later one meant. All instants are UTC milliseconds.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from core.entries.airing import Airing
from core.entries.signing import Signing
from core.plan.model import Change, Event, Plan
from core.times.trust import ClockTrust


class Way(StrEnum):
    """What becomes of those tied to an event that is called off."""

    WITH = "with"
    BRIDGE = "bridge"
    STAY = "stay"


class Shift(StrEnum):
    """Whether an observed edge moves its course's later rows: by the course's kind, or as said."""

    USUAL = "usual"
    ALONE = "alone"
    SHIFT = "shift"


@dataclass(frozen=True, slots=True)
class Revise:
    """The ground's new time for an event; `give_ms` None keeps the give it had.

    `edge` is the id of the signal's edge the event stood for when it was typed, else empty.
    """

    event: str
    time_ms: int
    give_ms: int | None = None
    edge: str = ""


@dataclass(frozen=True, slots=True)
class Give:
    """How uncertain an event's time is now."""

    event: str
    give_ms: int


@dataclass(frozen=True, slots=True)
class Happened:
    """A fact: the event happened at that instant. Typed again, it corrects the fact.

    `edge` is the id of the signal's edge the event stood for when it was typed, else empty.
    `heard_ms` is when it was heard at the desk, where that was later, and `heard_on` the lane.
    """

    event: str
    time_ms: int
    edge: str = ""
    heard_ms: int | None = None
    heard_on: str = ""


@dataclass(frozen=True, slots=True)
class Hold:
    """The count stops at `at_ms` with `left_ms` on it (0 if the event was due)."""

    event: str
    at_ms: int
    left_ms: int


@dataclass(frozen=True, slots=True)
class Resume:
    """The count goes on at that instant, with what was left."""

    event: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class Scrub:
    """The event is called off."""

    event: str
    way: Way


@dataclass(frozen=True, slots=True)
class Pin:
    """The event is held to a clock time."""

    event: str
    time_ms: int


@dataclass(frozen=True, slots=True)
class Free:
    """The event follows its ties again: the session's figure or pin goes.

    The plan's own pin goes only when the entry is forced (the second Enter).
    """

    event: str


@dataclass(frozen=True, slots=True)
class Choose:
    """A source has named the outcome."""

    outcome: str


@dataclass(frozen=True, slots=True)
class Undecide:
    """The outcomes of that outcome's event are open again."""

    outcome: str


@dataclass(frozen=True, slots=True)
class Observe:
    """An edge of the signal as seen or heard at the desk.

    `edge` is the id of the edge it was matched with when it was typed: the nearest unobserved one
    of its lane and kind within give + 2 min; empty is an unplanned loss or return. `heard_ms` is
    when it was seen or heard at the desk, where that was later by the lane's delay. `drop`, of an
    unplanned return, is the number of the entry of the loss before it, where that was matched with
    an edge that was due only after the return: it was a drop, and the edge is still to come.
    """

    lane: str
    change: Change
    time_ms: int
    shift: Shift = Shift.USUAL
    edge: str = ""
    heard_ms: int | None = None
    drop: int | None = None


@dataclass(frozen=True, slots=True)
class Shut:
    """A lane is closed by the ground (a private talk), or opened again. No loss of signal."""

    lane: str
    shut: bool
    at_ms: int


@dataclass(frozen=True, slots=True)
class Add:
    """An event added at the desk, at a clock time or tied to another."""

    event: Event


@dataclass(frozen=True, slots=True)
class Note:
    """Words for the record."""

    text: str


@dataclass(frozen=True, slots=True)
class Replan:
    """The present times become the new 'planned'; the old are kept."""


@dataclass(frozen=True, slots=True)
class TakePlan:
    """The plan as changed on disk is taken over; entries on vanished events are kept."""

    plan: Plan


@dataclass(frozen=True, slots=True)
class ClockStep:
    """The machine's clock jumped by so much, or the machine slept so long."""

    by_ms: int
    slept: bool


@dataclass(frozen=True, slots=True)
class ClockTold:
    """What the machine says of its own clock, where that is another thing than before."""

    clock: ClockTrust


@dataclass(frozen=True, slots=True)
class TakeBack:
    """The entry of that number is as if never typed."""

    number: int


@dataclass(frozen=True, slots=True)
class BringBack:
    """An entry taken back stands again."""

    number: int


Action = (
    Revise
    | Give
    | Happened
    | Hold
    | Resume
    | Scrub
    | Pin
    | Free
    | Choose
    | Undecide
    | Observe
    | Shut
    | Add
    | Note
    | Airing
    | Signing
    | Replan
    | TakePlan
    | ClockStep
    | ClockTold
    | TakeBack
    | BringBack
)


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing the desk has entered. `number` counts from 1 in the order of entry.

    `at_ms` is the board's time at the first Enter; `forced` says that a second Enter set it
    against a clash (or took the plan's own pin away). `by` are the initials of who typed it, ''
    where nobody was signed in.
    """

    number: int
    at_ms: int
    typed: str
    action: Action
    source: str = ""
    forced: bool = False
    rehearsal: bool = False
    by: str = ""


def standing(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that count, in order: neither those taken back, nor the undoing itself.

    A loss that a later return showed to have been a drop counts as one that is not in the plan.
    """
    kept: dict[int, Entry] = {}
    gone: set[int] = set()
    for entry in entries:
        match entry.action:
            case TakeBack(number):
                gone.add(number)
            case BringBack(number):
                gone.discard(number)
            case _:
                kept[entry.number] = entry
    counting = [entry for number, entry in kept.items() if number not in gone]
    drops = {each.action.drop for each in counting if isinstance(each.action, Observe)} - {None}
    return tuple(_unplanned(entry) if entry.number in drops else entry for entry in counting)


@lru_cache(maxsize=256)
def _unplanned(entry: Entry) -> Entry:
    """The same loss or return, matched with no edge; the same object each time it is asked for."""
    action = entry.action
    return replace(entry, action=replace(action, edge="")) if isinstance(action, Observe) else entry
