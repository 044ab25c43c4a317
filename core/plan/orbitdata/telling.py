"""Words of a data file with their places, and the list of everything wrong with the file."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from core.errors import Place, PlanProblems, Problem
from core.plan.gather import clip

MOST_TOLD = 20
"""So many problems of one file are told; the rest is counted."""

_MOST_COUNTED = 2_000

Spot = tuple[int, int]
"""A line and a column, both from 1; (0, 0) is the file as a whole."""

ABSENT: Spot = (0, 0)

AGAIN = "Fetch the file again, whole"
"""The remedy for a file that was cut off on its way."""


@dataclass(frozen=True, slots=True)
class Word:
    """A value as it stands in a file, where it begins, and its unit where one is written."""

    text: str
    spot: Spot
    unit: str = ""


class Telling:
    """Collects what is wrong with one data file, whose name in problems is `shown`."""

    def __init__(self, shown: str) -> None:
        self.shown = shown
        self._problems: list[Problem] = []
        self._beyond = 0
        self._last = ABSENT

    def problem(self, spot: Spot, what: str, hint: str = "") -> None:
        """Note something wrong. Raises PlanProblems at last, where nothing much is right."""
        self._last = max(self._last, spot)
        if len(self._problems) < MOST_TOLD:
            self._problems.append(Problem(Place(self.shown, *spot), what, hint))
        else:
            self._beyond += 1
        if self._beyond == _MOST_COUNTED:
            raise self.raised()

    @property
    def any(self) -> bool:
        """Whether anything is wrong so far."""
        return bool(self._problems)

    def stopped(self, spot: Spot, what: str, hint: str = "") -> PlanProblems:
        """The error to raise where nothing further can be read: this, and all before it."""
        self.problem(spot, what, hint)
        return self.raised()

    def raised(self) -> PlanProblems:
        """The error with everything that was told, sorted by place."""
        told = sorted(set(self._problems))
        if self._beyond:
            last = Place(self.shown, *self._last)
            more = f"{self._beyond}{' or' if self._beyond == _MOST_COUNTED else ''}"
            told.append(Problem(last, f"and {more} more problems", "Mend these first"))
        return PlanProblems(tuple(told))


def nearest(name: str, known: Iterable[str]) -> str:
    """The remedy for a name that is not known: the nearest that is, or nothing."""
    close = get_close_matches(name.upper()[:60], list(known), n=1, cutoff=0.6)
    return f"Did you mean {close[0]}?" if close else ""


def quoted(text: str) -> str:
    """What stands in the file, as a problem shows it."""
    return f"'{clip(text)}'"
