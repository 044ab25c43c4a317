"""Columns that many tables of a draft have."""

from core.plan.drafting.columns import Column, Kind
from core.plan.gather import Named

BOOKED = "14 May 2031 16:00 to 17:30"
"""How a stretch of time is typed."""

ID = Column("id", "Id", Kind.IDENTITY, "orbit", "The short name one types at the board")
ONLY_IF = Column("only_if", "Only if", Kind.ONE, "burned", "Only with this outcome", Named.OUTCOME)


def name(example: str, about: str = "As it is read on the screen") -> Column:
    """The name as it is read on the screen."""
    return Column("name", "Name", Kind.WORDS, example, about)


def event(key: str, heading: str, about: str = "") -> Column:
    """The id of an event."""
    return Column(key, heading, Kind.ONE, "liftoff", about or "The event it hangs on", Named.EVENT)


def clock(key: str, heading: str, about: str = "") -> Column:
    """A clock time."""
    return Column(key, heading, Kind.CLOCK, "14 May 2031 17:50:00", about)


def length(key: str, heading: str, like: str, about: str = "") -> Column:
    """A length of time."""
    return Column(key, heading, Kind.LENGTH, like, about)


def flag(key: str, heading: str, about: str, *, default: bool = False) -> Column:
    """A mark: yes or no."""
    return Column(key, heading, Kind.FLAG, "yes", about, default=default)


def lanes(about: str) -> Column:
    """The ids of several lanes."""
    return Column("lanes", "Lanes", Kind.SEVERAL, "voice, picture", about, Named.LANE)
