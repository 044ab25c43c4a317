"""Surprises as written: when each is sprung, what the flight then does, and what a desk should do.

Instants are UTC milliseconds.
"""

from dataclasses import dataclass

from core.entries.model import Way
from core.plan.model import Change


@dataclass(frozen=True, slots=True)
class When:
    """When a surprise reaches the desk; one of the four ways is given.

    At an instant; at an elapsed time; `by_ms` after an event by the truth (negative: before it);
    or `by_ms` after an item has begun, whenever the desk begins it.
    """

    at_ms: int | None = None
    elapsed_ms: int | None = None
    event: str = ""
    item: str = ""
    by_ms: int = 0


@dataclass(frozen=True, slots=True)
class Moves:
    """An event comes later or earlier by so much, or at an instant."""

    event: str
    by_ms: int = 0
    to_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Edges:
    """The lane's next loss or return comes later or earlier, at an instant, or never.

    `for_ms`: no edge of the plan, but a drop at that moment, for so long.
    """

    lane: str
    change: Change
    by_ms: int = 0
    to_ms: int | None = None
    never: bool = False
    for_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Turns:
    """How an event turns out; `without` are events that then do not happen."""

    outcome: str
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CalledOff:
    """An event is called off; `way` is what becomes of those tied to it."""

    event: str
    way: Way


@dataclass(frozen=True, slots=True)
class LineFails:
    """A remote's line fails: the item cannot run."""

    item: str


@dataclass(frozen=True, slots=True)
class Steps:
    """The machine's clock is put right by so much at once."""

    by_ms: int


@dataclass(frozen=True, slots=True)
class Closes:
    """The ground closes a lane for a private talk, for so long."""

    lane: str
    for_ms: int


@dataclass(frozen=True, slots=True)
class NetworkTakes:
    """The network takes the air for another story, for so long."""

    for_ms: int


@dataclass(frozen=True, slots=True)
class CameraOn:
    """The crew turn their camera on: worth being on the air for, for so long."""

    for_ms: int


@dataclass(frozen=True, slots=True)
class Words:
    """Words that change nothing in the flight."""


What = (
    Moves | Edges | Turns | CalledOff | LineFails | Steps | Closes | NetworkTakes | CameraOn | Words
)


@dataclass(frozen=True, slots=True)
class Misheard:
    """What was heard first: the line a desk would make of it, and when the right word follows.

    With neither words nor line it is the same report with a wrong figure in it.
    """

    text: str
    line: str
    corrected_ms: int


@dataclass(frozen=True, slots=True)
class Surprise:
    """One thing sprung on the desk.

    `text` is what the desk hears; empty: the ground's words for it are made. `desk` are the lines a
    good desk enters; None: those that follow from what it is. `quiet`: the flight does it, and
    nobody says so beforehand. `again_ms`: the same is heard once more so long after.
    """

    id: str
    when: When
    what: What
    text: str = ""
    source: str = ""
    desk: tuple[str, ...] | None = None
    within_ms: int = 30_000
    quiet: bool = False
    misheard: Misheard | None = None
    again_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Surprises:
    """A rehearsal: from when till when it runs, and what is sprung in it."""

    title: str
    begin_ms: int
    end_ms: int
    surprises: tuple[Surprise, ...] = ()
