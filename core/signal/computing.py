"""What the signal asks of whoever computes where the craft is: branches, and when each is seen.

A course that is computed flies one branch for each way it may turn out: an arrival has one with
its burn and one without. The answer is free of arrays; who gives it stands in `core.signal.sky`.
"""

from dataclasses import dataclass
from typing import Protocol

from core.plan.model import Course
from core.signal.seen import Light, Seen

Times = tuple[int | None, ...]
"""When the events that decide a branch are, in their order; None: not known."""


@dataclass(frozen=True, slots=True)
class Branch:
    """One way a computed course may go.

    `outcome` is what must be true for it beside its course's own condition. `events` are those
    whose times decide it; the last of them is its turn. A `forked` branch shares what comes before
    the turn with the other branches of its course. What comes after moves with the turn, unless
    the branch is `steady`. The event with which its course ends may be among them: see `end_of`.
    """

    course: str
    outcome: str | None = None
    events: tuple[str, ...] = ()
    forked: bool = False
    steady: bool = False


@dataclass(frozen=True, slots=True)
class Spell:
    """When a branch is seen, and from when to when that is known at all."""

    seen: Seen
    from_ms: int
    to_ms: int


def end_of(course: Course, branch: Branch) -> str | None:
    """The event with which a course ends, if the branch is asked for by its time as well.

    None where its motion hangs on that event anyway.
    """
    event = None if course.ends is None else course.ends.event
    tables = (value for _, value in course.settings if isinstance(value, tuple))
    if event not in branch.events or any(("event", event) in table for table in tables):
        return None
    return event


class Skies(Protocol):
    """Who computes."""

    def branches(self, course: Course) -> tuple[Branch, ...]:
        """The branches of a computed course."""

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        """When a branch is seen if its events are at those times; None where one is not known.

        Contacts that begin after the end of its course may be left out, and what is known may end
        there. Where just that time is not known, it is all of the branch.

        Equal questions get the same object, as long as nothing better is known.
        """

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        """How far away the craft of a branch is; None where the branch says nothing of then."""
