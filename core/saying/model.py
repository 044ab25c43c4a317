"""Situations as data, and what is told of them.

The board makes the situations from what it shows; here nothing is reckoned but the rounding.
Instants are UTC milliseconds, floored to the second as they are shown.
"""

from dataclasses import dataclass
from enum import StrEnum

from core.times.writing import SECOND_MS

WORDS_PER_SECOND = 2.7
"""How fast one reads aloud; from memory."""
TWENTY_MS = 20_000
NO_TIME_MS = 0
"""Among the times told: the audience knows that the event has none, for now or for good."""


class Subject(StrEnum):
    """What a sentence is about."""

    NEXT = "next"
    MOMENT = "moment"
    LOSS = "loss"
    GAP = "gap"
    SILENCE = "silence"
    RETURNS = "returns"
    WATCH = "watch"
    MISSED = "missed"
    WAITING = "waiting"
    HEARD = "heard"
    OUTCOME = "outcome"
    LATE = "late"
    HOLD = "hold"
    SCRUB = "scrub"
    FAR = "far"
    CORRECTION = "correction"
    AWAY = "away"
    QUIET = "quiet"
    LAST_WORD = "last word"
    PASSED = "passed"
    """A line the editor passed beforehand."""


class Reach(StrEnum):
    """What the audience will have of an event."""

    SEEN = "seen"
    HEARD = "heard"
    OUT = "out"
    OPEN = "open"
    """Nobody can say: it hangs on an outcome, or there are no lanes."""


class Kind(StrEnum):
    """What a claim is about."""

    WAIT = "wait"
    """From the moment it is said to the event it is between low and high, in milliseconds."""
    CLOCK = "clock"
    """The event's instant is between low and high."""
    AGE = "age"
    """From the event (or what it names) to the moment it is said it is between low and high."""
    LENGTH = "length"
    """A length that does not change while it is told is between low and high."""


@dataclass(frozen=True, slots=True)
class Claim:
    """What a sentence says in figures. Both ends are included.

    `event` is an event's id, for a lane's loss that of the event that stands for it, or 'lane:…'.
    """

    kind: Kind
    event: str
    low_ms: int
    high_ms: int


@dataclass(frozen=True, slots=True)
class Named:
    """An event as it is told: `words` fits in a sentence ('the firing meant to ...')."""

    event: str
    words: str
    name: str = ""
    described: bool = True
    """Whether the plan has words of its own for saying it; else they are its bare name."""


@dataclass(frozen=True, slots=True)
class Told:
    """A sentence in three lengths, with what it claims.

    `until_ms`: up to then one may begin to read it. `times`: what the audience is told, for the
    entry that marks it as said.
    """

    subject: Subject
    line: str
    twenty: str
    long: str
    until_ms: int
    claims: tuple[Claim, ...] = ()
    times: tuple[tuple[str, int], ...] = ()


def speaking_ms(text: str) -> int:
    """How long it takes to read the text aloud, in whole seconds up."""
    words = len(text.replace("-", " ").split())
    return -int(-words // WORDS_PER_SECOND) * SECOND_MS
