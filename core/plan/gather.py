"""What is found while a plan is read: problems, warnings, names that stand and names in use."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum

from core.errors import Place, Problem
from core.plan.positions import Positions, Trail

MOST_PROBLEMS = 1_000
_MOST_COMPARED = 60_000
_LONGEST_NAME = 60
_MOST_NAMED = 30


class Named(StrEnum):
    """The kinds of things a plan names by an id; the value is how a problem calls one."""

    EVENT = "event"
    OUTCOME = "outcome"
    GROUND = "ground station"
    LANE = "lane"
    COURSE = "course"
    ITEM = "item"
    CHECKOFF = "check-off"


@dataclass(frozen=True, slots=True)
class _Found:
    where: Trail | Place
    what: str
    hint: str
    key: bool


@dataclass(frozen=True, slots=True)
class _Use:
    where: Trail | Place
    kind: Named
    name: str


class Gather:
    """Collects everything wrong with one plan; nothing is raised until all of it was read."""

    def __init__(self) -> None:
        self._problems: list[_Found] = []
        self._warnings: list[_Found] = []
        self._beyond = 0
        self._uses: list[_Use] = []
        self._known: dict[Named, dict[str, Trail | Place]] = {kind: {} for kind in Named}
        self._compared = 0

    def problem(
        self, where: Trail | Place, what: str, hint: str = "", *, key: bool = False
    ) -> None:
        """Note something wrong at a trail of the plan, or at a place in another file."""
        if len(self._problems) < MOST_PROBLEMS:
            self._problems.append(_Found(where, what, hint, key))
        else:
            self._beyond += 1

    def warning(self, where: Trail | Place, what: str, hint: str = "") -> None:
        """Note something that may be meant, but will be awkward at the desk."""
        if len(self._warnings) < MOST_PROBLEMS:
            self._warnings.append(_Found(where, what, hint, key=False))

    def define(self, kind: Named, name: str, where: Trail) -> None:
        """Note that `name` stands for something; the same twice is a problem, told at the end."""
        known = self._known[kind]
        if name in known:
            self.problem(
                where,
                f"'{name}' is already the id of another {kind}",
                "Give one of them another id",
            )
        else:
            known[name] = where

    def carry(self, lane: str, where: Trail | Place) -> None:
        """Note that a ground station or a table carries this lane."""
        self._known[Named.LANE].setdefault(lane, where)

    def use(self, kind: Named, name: str, where: Trail | Place) -> None:
        """Note that `name` is referred to; whether it stands is told at the end."""
        self._uses.append(_Use(where, kind, name))

    def stands(self, kind: Named, name: str) -> bool:
        """Whether the plan names such a thing."""
        return name in self._known[kind]

    def where(self, kind: Named, name: str) -> Trail:
        """The trail of the table that a name stands for; of the whole plan if there is none."""
        found = self._known[kind].get(name, ())
        return () if isinstance(found, Place) else found[:-1]

    def names(self, kind: Named) -> tuple[str, ...]:
        """All names of a kind, in the order in which they were found."""
        return tuple(self._known[kind])

    def settle_uses(self) -> None:
        """Turn each name in use that stands for nothing into a problem."""
        for use in self._uses:
            if use.name in self._known[use.kind]:
                continue
            what = f"there is no {use.kind} '{clip(use.name)}'"
            if use.kind is Named.LANE:
                what = f"no ground station and no table carries a lane '{clip(use.name)}'"
            self.problem(use.where, what, self.nearest(use.name, self._known[use.kind]))
        self._uses.clear()

    def nearest(self, name: str, among: Iterable[str]) -> str:
        """The remedy for a name nobody knows: the nearest known one, or the few there are."""
        if len(self._problems) >= MOST_PROBLEMS:
            return ""
        known = list(among)
        if len(name) <= _LONGEST_NAME and self._compared + len(known) <= _MOST_COMPARED:
            self._compared += len(known)
            if close := _close(name, known):
                return f"Did you mean '{close}'?"
        if 0 < len(known) <= _MOST_NAMED:
            return "Known: " + ", ".join(known)
        return "None is like it" if known else "There are none in this plan"

    def problems(self, positions: Positions) -> tuple[Problem, ...]:
        """Every problem, placed and sorted; the same one is told once."""
        told = set(_placed(self._problems, positions))
        if self._beyond:
            last = max(told).where
            told.add(Problem(last, f"and {self._beyond} more problems", "Mend these first"))
        return tuple(sorted(told))

    def warnings(self, positions: Positions) -> tuple[Problem, ...]:
        """Every warning, placed and sorted."""
        return tuple(sorted(set(_placed(self._warnings, positions))))

    @property
    def has_problems(self) -> bool:
        """Whether anything is wrong so far."""
        return bool(self._problems)

    @property
    def has_warnings(self) -> bool:
        """Whether anything was warned of."""
        return bool(self._warnings)


def clip(text: str) -> str:
    """A name as a problem shows it: short, and on one line."""
    short = text if len(text) <= _LONGEST_NAME else f"{text[: _LONGEST_NAME - 3]}..."
    return "".join(letter if letter.isprintable() else "?" for letter in short)


def _close(name: str, known: list[str]) -> str:
    folded = {one.casefold(): one for one in known if len(one) <= _LONGEST_NAME}
    if name.casefold() in folded:
        return folded[name.casefold()]
    by_letters = {
        one: other for one, other in folded.items() if Counter(one) == Counter(name.casefold())
    }
    found = next(iter(by_letters), "") or next(
        iter(get_close_matches(name.casefold(), folded, n=1, cutoff=0.6)), ""
    )
    return folded.get(found, "")


def _placed(found: list[_Found], positions: Positions) -> list[Problem]:
    return [
        Problem(
            one.where if isinstance(one.where, Place) else positions.place(one.where, key=one.key),
            one.what,
            one.hint,
        )
        for one in found
    ]
