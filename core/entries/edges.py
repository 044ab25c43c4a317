"""How the schedule asks for edges of the signal: the question, and the answer.

It stands here because both the schedule and the signal know it, and neither knows the other.
All instants are UTC milliseconds.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from core.entries.model import Entry
from core.plan.model import EdgeRef


@dataclass(frozen=True, slots=True)
class Found:
    """An edge that was looked up: its instant, and its id (course, lane, row, change)."""

    time_ms: int
    edge: str
    give_ms: int = 0


class Edges(Protocol):
    """Where the schedule asks for edges of the signal. Immutable: `told` gives a new one."""

    def told(self, entries: Sequence[Entry]) -> "Edges":
        """The same signal, knowing these entries: observed and revised edges, outcomes named.

        The entries are those that stand and are not spent; closed lanes change no edge.
        """

    def needs(self, ref: EdgeRef) -> tuple[str, ...]:
        """The events whose times decide that edge, besides the one it is counted from."""

    def find(
        self, ref: EdgeRef, event: str, from_ms: int | None, expected: Callable[[str], int | None]
    ) -> Found | None:
        """The edge for `event`, counted from `from_ms` (ref's event plus its offset), or None."""
