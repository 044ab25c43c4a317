"""A lane's signal out of its worlds, each part of it made when it is asked for."""

from functools import cached_property

from core.signal import joining
from core.signal.book import LaneBook
from core.signal.lane import InWorld, LaneNow
from core.signal.model import Contact, Edge, Gap, HandOver, Stretch
from core.signal.stretches import stretches
from core.signal.worlds import Outcomes, World


class Joined:
    """What is told of a lane at one state of the day; `closed` is when the ground has shut it."""

    def __init__(
        self,
        lane: LaneBook,
        now: LaneNow,
        worlds: tuple[World, ...],
        outcomes: Outcomes,
        closed: tuple[tuple[int, int], ...],
    ) -> None:
        self._lane = lane
        self._now = now
        self._worlds = worlds
        self._outcomes = outcomes
        self._closed = closed
        self._named: dict[int, tuple[str | None, ...]] = {}

    @cached_property
    def _each(self) -> list[InWorld]:
        return [self._now.world(world) for world in self._worlds]

    def _names(self, which: int) -> tuple[str | None, ...]:
        if which not in self._named:
            self._named[which] = self._outcomes.names(self._worlds, which)
        return self._named[which]

    def contacts(self) -> tuple[Contact, ...]:
        """All contacts, in order of time."""
        return joining.contacts(self._lane.lane, self._each, self._names)

    def gaps(self) -> tuple[Gap, ...]:
        """All gaps, in order of time."""
        return joining.gaps(self._lane.lane, self._each, self._names)

    def edges(self) -> tuple[Edge, ...]:
        """All edges, in order of time."""
        return joining.edges(self._lane, self._each, self._names, self._now.told)

    def hand_overs(self) -> tuple[HandOver, ...]:
        """All hand-overs, in order of time."""
        return joining.hand_overs(self._lane.lane, self._each, self._names)

    def stretches(self) -> tuple[Stretch, ...]:
        """What the strip draws."""
        return stretches(self._lane.lane, self._each, self._closed)
