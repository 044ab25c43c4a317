"""The signal as arrays, made once for each new strip: a frame only looks up what is in sight."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from app.strip.scale import Instants
from core.board.model import EdgeLabel, GroundSpan, LaneColumn, Strip
from core.signal.model import Fill


@dataclass(frozen=True, slots=True)
class Column:
    """One lane: stretch `i` lasts from `starts_ms[i]` until `ends_ms[i]`."""

    lane: str
    name: str
    role: str
    starts_ms: Instants
    ends_ms: Instants
    fills: tuple[Fill, ...]
    words: tuple[str, ...]
    edges: tuple[EdgeLabel, ...]
    edges_ms: Instants

    def between(self, from_ms: int, to_ms: int) -> range:
        """The stretches of which something lies between two instants."""
        first = int(self.ends_ms.searchsorted(from_ms, side="right"))
        return range(first, int(self.starts_ms.searchsorted(to_ms, side="left")))

    def edges_between(self, from_ms: int, to_ms: int) -> Sequence[EdgeLabel]:
        """The labels of the edges between two instants, in order of time."""
        first, end = self.edges_ms.searchsorted((from_ms, to_ms))
        return self.edges[int(first) : int(end)]


@dataclass(frozen=True, slots=True)
class Columns:
    """All that a strip draws."""

    lanes: tuple[Column, ...]
    grounds: tuple[GroundSpan, ...]
    events_ms: Instants

    @classmethod
    def of(cls, strip: Strip) -> "Columns":
        """Take over a strip of the view."""
        lanes = tuple(_column(lane, strip.edges) for lane in strip.lanes)
        return cls(lanes, strip.grounds, np.sort(_array(strip.events_ms)))

    def events_between(self, from_ms: int, to_ms: int) -> Instants:
        """The instants of the events between two."""
        first, end = self.events_ms.searchsorted((from_ms, to_ms))
        return self.events_ms[first:end]

    def grounds_between(self, from_ms: int, to_ms: int) -> Iterator[GroundSpan]:
        """The ground stations' stretches of which something lies between two instants."""
        return (g for g in self.grounds if g.to_ms > from_ms and g.from_ms < to_ms)


def _column(lane: LaneColumn, edges: Sequence[EdgeLabel]) -> Column:
    own = tuple(sorted((e for e in edges if e.lane == lane.lane), key=lambda e: e.at_ms))
    return Column(
        lane=lane.lane,
        name=lane.name,
        role=lane.colour,
        starts_ms=_array(lane.starts_ms),
        ends_ms=_array(lane.ends_ms),
        fills=lane.fills,
        words=lane.words,
        edges=own,
        edges_ms=_array(tuple(e.at_ms for e in own)),
    )


def _array(instants_ms: Sequence[int]) -> Instants:
    return np.asarray(instants_ms, dtype=np.int64)
