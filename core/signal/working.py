"""Computed courses as rows of a lane, worked out anew when the events they hang on move."""

from collections.abc import Callable, Sequence

from core.plan.driving import has_place
from core.plan.model import Change, Course, Ground, Plan
from core.signal.computing import Branch, Skies, Spell, Times, end_of
from core.signal.cuts import Cut
from core.signal.numbering import Numbered, Token
from core.signal.recent import Recent
from core.signal.rows import Row, Rows
from core.signal.seen import Sighting

Expected = Callable[[str], int | None]

MOST = 32
"""So many states of a lane's branch are kept."""

NOTHING = Rows((), (), 0, 0)


class Working:
    """One branch of a computed course on one lane."""

    def __init__(
        self,
        lane: str,
        grounds: Sequence[Ground],
        skies: Skies,
        numbered: Numbered,
        end: str | None = None,
    ) -> None:
        self.end = end
        """The event with which its course ends, if it is asked for: see `rows`."""
        self._stem = f"{numbered.branch.course}.{lane}"
        self._grounds = {ground.id: ground for ground in grounds if lane in ground.lanes}
        self._skies = skies
        self._numbered = numbered
        self._kept = Recent[Times, tuple[Spell | None, Rows]](MOST)

    @property
    def branch(self) -> Branch:
        """What is flown."""
        return self._numbered.branch

    def rows(self, expected: Expected, *, whole: bool = True) -> Rows:
        """The lane's rows with the events at those times; none where a time is not known.

        Unless the whole is asked for, rows that begin after the end of the course may be left out.
        """
        times = asked_times(self.branch, expected, self.end if whole else None)
        spell = self._skies.spell(self.branch, times)
        kept = self._kept.get(times)
        if kept is not None and kept[0] is spell:
            return kept[1]
        found = NOTHING if spell is None else self._laid(spell, times)
        self._kept[times] = (spell, found)
        return found

    def _laid(self, spell: Spell, times: Times) -> Rows:
        named = self._numbered.named(spell, times)
        rows = [
            self._row(each, ground, token)
            for ground in self._grounds.values()
            for each, token in named.get(ground.id, ())
        ]
        hidden = sorted(
            Cut(each.from_ms, each.to_ms, each.cause)
            for each in spell.seen.hidden
            if each.ground in self._grounds
        )
        rows.sort(key=lambda row: row.back_ms)
        return Rows(tuple(rows), tuple(hidden), spell.from_ms, spell.to_ms)

    def _row(self, each: Sighting, ground: Ground, token: Token) -> Row:
        return Row(
            each.from_ms,
            each.to_ms,
            ground.id,
            f"{self._stem}.{token.back}.{Change.BACK}",
            f"{self._stem}.{token.lost}.{Change.LOST}",
            ground.open,
            each.to_cause,
            each.from_give_ms,
            each.to_give_ms,
        )


def asked_times(branch: Branch, expected: Expected, open_end: str | None) -> Times:
    """The times that decide a branch; that of `open_end` is left unknown."""
    return tuple(None if name == open_end else expected(name) for name in branch.events)


class Workings:
    """All branches of a plan's computed courses, their contacts counted as planned."""

    def __init__(self, plan: Plan, skies: Skies, planned: Expected) -> None:
        self._grounds = plan.grounds
        self._skies = skies
        self.planned = planned
        self._numbered: dict[Branch, Numbered] = {}

    def of(self, course: Course, lane: str) -> tuple[Working, ...]:
        """The branches of a course on a lane; none if no station with a place carries it."""
        if not any(lane in ground.lanes and has_place(ground) for ground in self._grounds):
            return ()
        return tuple(
            Working(lane, self._grounds, self._skies, self._count(branch, end), end)
            for branch in self._skies.branches(course)
            for end in (end_of(course, branch),)
        )

    def _count(self, branch: Branch, end: str | None) -> Numbered:
        """Its contacts as planned, also those after its course's planned end."""
        found = self._numbered.get(branch)
        if found is None:
            times = asked_times(branch, self.planned, end)
            spell = self._skies.spell(branch, times)
            found = self._numbered[branch] = Numbered.count(branch, spell, times)
        return found
