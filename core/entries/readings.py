"""What a line of the entry bar was read as, before anything is done with it."""

from dataclasses import dataclass
from enum import StrEnum

from core.entries.model import Action


class TargetKind(StrEnum):
    """What sort of thing a line is about."""

    EVENT = "event"
    LANE = "lane"
    OUTCOME = "outcome"
    ITEM = "item"
    CHECKOFF = "check-off"


@dataclass(frozen=True, slots=True)
class Target:
    """What a line is about. `words` are those that named it, empty for the selected card."""

    kind: TargetKind
    id: str
    name: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class ClockPause:
    """The simulated clock stands still."""


@dataclass(frozen=True, slots=True)
class ClockGo:
    """The simulated clock runs on."""


@dataclass(frozen=True, slots=True)
class ClockRate:
    """The simulated clock runs at so many board seconds a real one (1/10 to 600)."""

    rate: float


@dataclass(frozen=True, slots=True)
class ClockMove:
    """The simulated clock is put forward, or back where it is negative."""

    by_ms: int


@dataclass(frozen=True, slots=True)
class ClockJump:
    """The simulated clock is set to an instant."""

    to_ms: int


ClockCommand = ClockPause | ClockGo | ClockRate | ClockMove | ClockJump
"""What the bar may ask of a simulated clock. It is no entry: it changes no plan and no time."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One sensible reading of a line.

    `how` says in words how it was read: of what, which half of the day, which day, which zone.
    `asks` are the reasons, decidable from the line alone, for which Enter is wanted once more; a
    clash is the schedule's to say. `target` is None for what concerns the whole board.
    """

    action: Action | ClockCommand
    how: str
    target: Target | None = None
    source: str = ""
    asks: tuple[str, ...] = ()
