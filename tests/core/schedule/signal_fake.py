"""A signal for tests: series of edges, each rigid to an anchor event."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from core.entries.model import Entry
from core.plan.model import EdgeRef
from core.schedule.model import Edges, Found


@dataclass(frozen=True)
class Series:
    """Edges at anchor + first + k * period."""

    anchor: str
    first_ms: int
    period_ms: int
    count: int

    def times(self, expected: Callable[[str], int | None]) -> list[int]:
        """Where they lie now."""
        at_ms = expected(self.anchor)
        if at_ms is None:
            return []
        return [at_ms + self.first_ms + k * self.period_ms for k in range(self.count)]


@dataclass(frozen=True)
class FakeEdges:
    """Series by lane. It hears of nothing but remembers what it was told."""

    series: dict[str, Series] = field(default_factory=dict)
    heard: tuple[Entry, ...] = ()

    def told(self, entries: Sequence[Entry]) -> Edges:
        """The same, having heard."""
        return FakeEdges(self.series, tuple(entries))

    def needs(self, ref: EdgeRef) -> tuple[str, ...]:
        """The anchor of the lane's series."""
        return (self.series[ref.lane].anchor,) if ref.lane in self.series else ()

    def find(
        self,
        ref: EdgeRef,
        event: str,  # noqa: ARG002 - the protocol's
        from_ms: int | None,
        expected: Callable[[str], int | None],
    ) -> Found | None:
        """The nth at or after (or before) the instant."""
        times = self.series[ref.lane].times(expected) if ref.lane in self.series else []
        numbered = list(enumerate(times))
        if from_ms is not None and ref.before is None:
            numbered = [(k, t) for k, t in numbered if t >= from_ms]
        if from_ms is not None and ref.before is not None:
            numbered = [(k, t) for k, t in reversed(numbered) if t <= from_ms]
        if len(numbered) < ref.nth:
            return None
        row, time_ms = numbered[ref.nth - 1]
        return Found(time_ms, f"{ref.lane}.{row}.{ref.change}")
