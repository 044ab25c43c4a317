"""Names for computed contacts that stay when their times move.

A contact's number is counted once, at the planned times, within its branch and ground station.
Worked out anew at other times, each contact takes the number of the planned one it has become:
that with which it overlaps most once the plan has been moved along with the branch's turn.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from core.signal.computing import Branch, Spell, Times
from core.signal.recent import Recent
from core.signal.seen import Sighting

MOST = 8
"""So many answers are kept named: those asked for last, for all lanes."""

NEAR_MS = 45 * 60_000
"""A contact that overlaps none of the plan's takes the number of one no further away than this."""


class Token(NamedTuple):
    """What to call the two ends of a contact, within course and lane."""

    back: str
    lost: str


Named = Mapping[str, tuple[tuple[Sighting, Token], ...]]
"""Contacts with their names, by ground station."""


@dataclass(frozen=True, slots=True)
class Numbered:
    """The contacts of a branch as planned, by ground station, with the planned time of its turn."""

    branch: Branch
    by_ground: dict[str, tuple[Sighting, ...]]
    turn_ms: int | None
    _named: Recent[tuple[int, Times], tuple[Spell, Named]] = field(
        default_factory=lambda: Recent(MOST), compare=False, repr=False
    )

    @classmethod
    def count(cls, branch: Branch, planned: Spell | None, times: Times) -> "Numbered":
        """The contacts at the planned times, counted."""
        found: dict[str, list[Sighting]] = {}
        for each in () if planned is None else planned.seen.sightings:
            found.setdefault(each.ground, []).append(each)
        by_ground = {ground: tuple(rows) for ground, rows in found.items()}
        return cls(branch, by_ground, times[-1] if times else None)

    def named(self, spell: Spell, times: Times) -> Named:
        """The contacts of an answer by ground station, in order of time, with their names."""
        key = (id(spell), times)
        found = self._named.get(key)
        if found is None or found[0] is not spell:
            own: dict[str, list[Sighting]] = {}
            for each in spell.seen.sightings:
                own.setdefault(each.ground, []).append(each)
            named = {
                ground: tuple(zip(rows, self.tokens(ground, rows, times), strict=True))
                for ground, rows in own.items()
            }
            found = self._named[key] = spell, named
        return found[1]

    def tokens(self, ground: str, now: Sequence[Sighting], times: Times) -> Iterator[Token]:
        """What to call each of a station's contacts as they lie now, in order of time."""
        planned = self.by_ground.get(ground, ())
        turn_ms = times[-1] if times else None
        slip_ms = self._slip_ms(turn_ms)
        last, extra = 0, 0
        for each in now:
            at = self._match(planned, last, each, slip_ms)
            if at is None:
                extra += 1
                yield self._token(f"{ground}{last}+{extra}", each, turn_ms)
            else:
                last, extra = at + 1, 0
                yield self._token(f"{ground}{last}", planned[at], self.turn_ms)

    def _slip_ms(self, turn_ms: int | None) -> int:
        if turn_ms is None or self.turn_ms is None or self.branch.steady:
            return 0
        return turn_ms - self.turn_ms

    def _match(
        self, planned: Sequence[Sighting], first: int, now: Sighting, slip_ms: int
    ) -> int | None:
        """The planned contact, from the `first` on, that this one has become."""
        best: tuple[int, int] | None = None
        for at in range(first, len(planned)):
            moved_ms = 0 if self._is_common(planned[at].from_ms, self.turn_ms) else slip_ms
            from_ms, to_ms = planned[at].from_ms + moved_ms, planned[at].to_ms + moved_ms
            overlap_ms = min(to_ms, now.to_ms) - max(from_ms, now.from_ms)
            if overlap_ms > -NEAR_MS and (best is None or overlap_ms > best[0]):
                best = (overlap_ms, at)
            elif from_ms > now.to_ms + NEAR_MS:
                break
        return None if best is None else best[1]

    def _token(self, number: str, each: Sighting, turn_ms: int | None) -> Token:
        return Token(*(self._end(number, ms, turn_ms) for ms in (each.from_ms, each.to_ms)))

    def _end(self, number: str, at_ms: int, turn_ms: int | None) -> str:
        if self.branch.outcome is None or self._is_common(at_ms, turn_ms):
            return number
        return f"{self.branch.outcome}.{number}"

    def _is_common(self, at_ms: int, turn_ms: int | None) -> bool:
        """Whether an instant lies before the branches of its course part."""
        return self.branch.forked and turn_ms is not None and at_ms < turn_ms
