"""One contact of a course on a lane, as a row: printed in a table, or computed."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.plan.model import Change
from core.signal.cuts import EVER_MS, Cut


@dataclass(frozen=True, slots=True)
class Row:
    """One contact, its edges' ids, and its station's hours (empty: always open).

    `gone` is why there is none after it; empty where its course says that for all its rows. The
    gives are those of a computed edge.
    """

    back_ms: int
    lost_ms: int
    ground: str | None
    back: str
    lost: str
    hours: tuple[tuple[int, int], ...] = ()
    gone: str = ""
    back_give_ms: int = 0
    lost_give_ms: int = 0

    def ends(self) -> tuple[tuple[str, int], tuple[str, int]]:
        """Its two edges by id, with their instants."""
        return (self.back, self.back_ms), (self.lost, self.lost_ms)

    def hour_edge(self, number: int, change: Change) -> str:
        """The id of the edge that the station's hours of that number make in this row."""
        return f"{self.back.removesuffix(Change.BACK)[:-1]}h{number}.{change}"

    def edges(self) -> Iterator[str]:
        """The ids of all edges that may come out of the row."""
        yield self.back
        yield self.lost
        for number in range(1, len(self.hours) + 1):
            for change in Change:
                yield self.hour_edge(number, change)


@dataclass(frozen=True, slots=True, eq=False)
class Rows:
    """The rows of a course on a lane, sorted by their beginning; the same only as itself.

    `hidden` are the stretches in which a station would hear if nothing stood before the craft.
    Nothing is known of the lane, by this course, before `from_ms` and after `to_ms`.
    """

    rows: tuple[Row, ...]
    hidden: tuple[Cut, ...] = ()
    from_ms: int = -EVER_MS
    to_ms: int = EVER_MS
