"""The works as they were before each of the last entries: taking one back folds no day anew."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.entries.model import Entry
from core.schedule.model import Edges
from core.schedule.works import Works

MOST = 16
"""So many entries back are remembered."""


@dataclass(frozen=True, slots=True)
class Remembered:
    """Works that nobody changes any more, and the signal that no entry has told anything."""

    works: Works
    untold: Edges


class Recall:
    """Remembers works, and finds those that some of the day's first entries have led to."""

    def __init__(self) -> None:
        self._kept: list[Remembered] = []

    def keep(self, works: Works, untold: Edges) -> None:
        """Remember the works as they are; later ones on other entries are forgotten."""
        before = works.standing.entries
        earlier = (one for one in self._kept if len(one.works.standing.entries) < len(before))
        self._kept = [one for one in earlier if _leads_to(one, before)][1 - MOST :]
        self._kept.append(Remembered(works.copy(), untold))

    def find(self, entries: Sequence[Entry], untold: Edges) -> Works | None:
        """Works on as many of the first entries as are remembered; None where there are none.

        Not where the signal has been told better meanwhile: where edges lie elsewhere.
        """
        for one in reversed(self._kept):
            if one.untold is untold and _leads_to(one, entries):
                works = one.works.copy()
                return None if works.is_stale() else works
        return None


def _leads_to(one: Remembered, entries: Sequence[Entry]) -> bool:
    first = one.works.standing.entries
    return len(first) <= len(entries) and all(
        old is new for old, new in zip(first, entries, strict=False)
    )
