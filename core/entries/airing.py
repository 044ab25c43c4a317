"""Entries about the programme: items, the air itself, check-offs, what was said and promised on it.

They change no event's time. All instants are UTC milliseconds.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Begin:
    """An item of the programme goes on the air at that instant. Said again, it corrects it."""

    item: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class Place:
    """Items are given their starts, one or many at once: (item, start) pairs in order of time."""

    places: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Unplace:
    """The start that the desk gave an item goes; one that was dropped may run again."""

    item: str


@dataclass(frozen=True, slots=True)
class Finish:
    """The item on the air is over at that instant. Said again, it corrects the instant."""

    item: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class Drop:
    """The item will not run; one that was owed is lost, to be made good.

    A later Begin, Place or Unplace takes that word back.
    """

    item: str


@dataclass(frozen=True, slots=True)
class LeaveAir:
    """The network takes the air for another story; `until_ms` None: nobody has said until when."""

    at_ms: int
    until_ms: int | None = None


@dataclass(frozen=True, slots=True)
class TakeAir:
    """The programme has the air again."""

    at_ms: int


@dataclass(frozen=True, slots=True)
class Count:
    """A check-off as last heard: how many, and which where they were named (1 to its count).

    Fewer positions than the count: of some it was only heard that they are one more.
    """

    checkoff: str
    count: int
    positions: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class MarkSaid:
    """A sentence was said on the air, and with it these times: (event, instant) pairs."""

    text: str
    times: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Waive:
    """Corrections owed to the audience for these events need not be said."""

    events: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grave:
    """The board is grave, or no longer. Nothing is inferred from it."""

    on: bool


@dataclass(frozen=True, slots=True)
class PictureClock:
    """A clock seen in a lane's picture, and the board's time when it was seen."""

    lane: str
    shown_ms: int
    at_ms: int


@dataclass(frozen=True, slots=True)
class LaneDelay:
    """A lane comes so much later to the studio than it reaches the ground, as found at the desk."""

    lane: str
    delay_ms: int


@dataclass(frozen=True, slots=True)
class Promise:
    """Something was promised to the audience."""

    text: str


@dataclass(frozen=True, slots=True)
class KeepPromise:
    """The promise of the entry of that number was kept; `text` is what it was."""

    promise: int
    text: str


Airing = (
    Begin
    | Place
    | Unplace
    | Finish
    | Drop
    | LeaveAir
    | TakeAir
    | Count
    | MarkSaid
    | Waive
    | Grave
    | PictureClock
    | LaneDelay
    | Promise
    | KeepPromise
)
"""What may be entered about the programme."""
