"""The ON AIR lane as arrays, made once for each new one: a frame looks up what is in sight."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar

import numpy as np

from app.strip.scale import Instants, Scale
from core.board.programme import AirBox, AirLane, ItemState, LiveSpan


class _Span(Protocol):
    """What lasts from one instant to another."""

    @property
    def from_ms(self) -> int:
        """Its beginning."""

    @property
    def to_ms(self) -> int:
        """Its end."""


S = TypeVar("S", bound=_Span)


@dataclass(frozen=True, slots=True)
class Spans(Generic[S]):
    """Stretches in the order of their beginnings; they may overlap."""

    spans: tuple[S, ...]
    _starts_ms: Instants
    _reach_ms: Instants
    """How far the stretches up to each one reach at most."""

    @classmethod
    def of(cls, spans: Sequence[S]) -> "Spans[S]":
        """Put stretches in order."""
        ordered = tuple(sorted(spans, key=lambda span: span.from_ms))
        ends_ms = np.asarray([span.to_ms for span in ordered], dtype=np.int64)
        starts_ms = np.asarray([span.from_ms for span in ordered], dtype=np.int64)
        return cls(ordered, starts_ms, np.maximum.accumulate(ends_ms))

    def between(self, from_ms: int, to_ms: int) -> Iterator[S]:
        """Those of which something lies between two instants."""
        first = int(np.searchsorted(self._reach_ms, from_ms, side="right"))
        end = int(np.searchsorted(self._starts_ms, to_ms, side="left"))
        return (span for span in self.spans[first:end] if span.to_ms > from_ms)


@dataclass(frozen=True, slots=True)
class AirColumn:
    """All that the ON AIR lane draws."""

    boxes: Spans[AirBox]
    live: Spans[LiveSpan]
    junctions: tuple[tuple[int, str], ...] = ()
    away: tuple[tuple[int, int], ...] = ()

    @classmethod
    def of(cls, lane: AirLane) -> "AirColumn":
        """Take over the lane of a view; what was dropped is not drawn."""
        boxes = [box for box in lane.boxes if box.state is not ItemState.DROPPED]
        return cls(Spans.of(boxes), Spans.of(lane.live), lane.junctions, lane.away)

    def __bool__(self) -> bool:
        """Whether there is anything to draw."""
        return bool(self.boxes.spans or self.live.spans or self.junctions or self.away)

    def box(self, item: str) -> AirBox | None:
        """The box of an item."""
        return next((box for box in self.boxes.spans if box.item == item), None)

    def look(self, scale: Scale) -> tuple[object, ...]:
        """What is seen of it, to the pixel: an item over its length grows by less a second."""

        def y(at_ms: int) -> int:
            return round(scale.y_of(at_ms))

        return (
            [
                (b.item, b.name, b.state, b.clash, y(b.from_ms), y(b.to_ms))
                for b in self.boxes.spans
            ],
            [(y(live.from_ms), y(live.to_ms)) for live in self.live.spans],
            [(y(at_ms), name) for at_ms, name in self.junctions],
            [(y(from_ms), y(to_ms)) for from_ms, to_ms in self.away],
        )


NO_AIR = AirColumn.of(AirLane())
"""The lane of a plan without a programme."""
