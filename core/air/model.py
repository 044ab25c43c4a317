"""What the air is reckoned with, and what comes of it. Instants are UTC milliseconds."""

from dataclasses import dataclass, field
from enum import StrEnum

from core.air.spans import EVER_MS, Spans


@dataclass(frozen=True, slots=True)
class Moment:
    """A stretch in which the presenter must be on the air, or an instant that nothing may cross.

    It lasts from `back_by_ms` to `until_ms` about `at_ms`. The early ones are the same should it
    come as early as it may. A junction has no length.
    """

    id: str
    name: str
    at_ms: int
    back_by_ms: int
    until_ms: int
    early_back_by_ms: int
    junction: bool = False


@dataclass(frozen=True, slots=True)
class Day:
    """All that items must keep clear of, and the rules between them.

    `away` are the stretches in which the network has the air. `contact` holds for each lane that
    an item may need where it is in contact; `quiet` is where the first lane is in a gap.
    """

    on_ms: int = -EVER_MS
    off_ms: int = EVER_MS
    item_gap_ms: int = 0
    break_gap_ms: int = 0
    moments: tuple[Moment, ...] = ()
    away: Spans = ()
    contact: tuple[tuple[str, Spans], ...] = ()
    quiet: Spans = ()

    def lane(self, lane: str) -> Spans:
        """Where that lane is in contact."""
        return next((spans for name, spans in self.contact if name == lane), ())


@dataclass(frozen=True, slots=True)
class Demand:
    """An item still to run, with the instants at which it may start already cut.

    `safe` are the starts at which it fits even should the live moments come as early as they may,
    `quiet` those at which it lies wholly in a gap.
    """

    id: str
    length_ms: int
    starts: Spans
    safe: Spans
    is_break: bool = False
    sponsor: str = ""
    owed: bool = False
    weight: int = 1
    quiet: Spans = ()


@dataclass(frozen=True, slots=True)
class Fixed:
    """A break whose place is a fact, and whose it is."""

    id: str
    at_ms: int
    to_ms: int
    sponsor: str


@dataclass(frozen=True, slots=True)
class Since:
    """From when on anything may start, a break may, and who sponsored the last break.

    `ours` says that the last break is no fact, but one that is just being placed.
    """

    item_ms: int
    break_ms: int = -EVER_MS
    sponsor: str = ""
    ours: bool = False


@dataclass(frozen=True, slots=True)
class Fits:
    """How one item fits.

    `latest_start_ms` is the latest start as the next item with the rest of the owed still
    placeable. `how` is 'safe' or 'tight' where it fits now. `first_start_ms` is its first possible
    start, alone; `leave_by_ms` the last one of the same stretch, and
    `safe_until_ms` the same should the live moments come as early as they may; `owed_by_ms` the
    last of that stretch that leaves place for all that is owed, or for as much of it as has any.
    """

    item: str
    fits_now: bool
    fits_with_owed: bool
    latest_start_ms: int | None
    how: str
    first_start_ms: int | None
    leave_by_ms: int | None = None
    owed_by_ms: int | None = None
    safe_until_ms: int | None = None


@dataclass(frozen=True, slots=True)
class Placement:
    """One item with its place."""

    item: str
    from_ms: int
    to_ms: int


class Way(StrEnum):
    """What can be done about something lost."""

    END = "end"
    """End it by that instant."""
    REJOIN = "rejoin"
    """It cannot be cut: the presenter is back at that instant."""
    RETURN = "return"
    """Take the air back by that instant."""
    MOVE = "move"
    """Move it to that instant."""
    NONE = "none"
    """There is no place for it."""


class Against(StrEnum):
    """What an item loses, or what stands in its way."""

    MOMENT = "moment"
    JUNCTION = "junction"
    OFF = "off"
    AWAY = "away"
    CONTACT = "contact"
    BOOKED = "booked"
    WINDOW = "window"
    """The times before and after which it may not run; of something lost, which of them."""
    EARLY = "early"
    LATE = "late"
    ITEM = "item"
    SPONSOR = "sponsor"
    PAST = "past"
    """Its place has gone by, and it has not begun."""


@dataclass(frozen=True, slots=True)
class Loss:
    """What an item on the air or placed loses as things stand, by how much, and the ways out.

    `item` is empty where it is the network that has the air during a live moment. `end_by_ms` is
    when the item would have to be over not to lose it. `after` says that it begins too early after
    the live moment, not that it ends too late before it.
    """

    item: str
    against: Against
    of: str
    by_ms: int
    ways: tuple[tuple[Way, int | None], ...] = ()
    end_by_ms: int | None = field(default=None, compare=False)
    after: bool = field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class Obstacle:
    """What stands in an item's way: without it there would be place."""

    against: Against
    of: str = ""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Why there is no place for the first item: together with the others it does not fit.

    Where there are no others, it fits nowhere, and the obstacles say why.
    """

    items: tuple[str, ...]
    obstacles: tuple[Obstacle, ...] = ()
