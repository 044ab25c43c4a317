"""The ways a day may turn out: which outcomes can be true together, and what to call a set of them.

A world names one outcome of each event that has outcomes and that happens in it. The first world
is the nominal one: it takes the outcome that the plan names first, everywhere.
"""

from collections.abc import Iterable, Mapping

from core.plan.conditions import conditions
from core.plan.model import Plan

World = frozenset[str]

MOST_WORLDS = 64
"""Beyond so many, each further event with outcomes is varied alone, the others nominal."""


class Outcomes:
    """The outcomes of a plan, and what each depends on."""

    def __init__(self, plan: Plan) -> None:
        self._depends = conditions(plan)
        self._of = {outcome.id: outcome.of for outcome in plan.outcomes}
        self._rank = {outcome.id: place for place, outcome in enumerate(plan.outcomes)}
        groups: dict[str, list[str]] = {}
        for outcome in plan.outcomes:
            groups.setdefault(outcome.of, []).append(outcome.id)
        self._groups = {of: tuple(ids) for of, ids in groups.items()}

    def parent(self, outcome: str) -> str | None:
        """The event that outcome is one of; None if the plan has no such outcome."""
        return self._of.get(outcome)

    def condition(self, only_if: str | None, event: str | None) -> World:
        """All outcomes that must be true for something, by its own word and by its event."""
        own = self._chain(only_if)
        return own if event is None else own | self._chain(self._depends.get(event))

    def label(self, only_if: str | None, event: str | None) -> str | None:
        """The one outcome that stands for that condition: its own word, else its event's."""
        if only_if is not None or event is None:
            return only_if
        return self._depends.get(event)

    def of_event(self, event: str) -> World:
        """All outcomes that must be true for an event to happen."""
        return self._chain(self._depends.get(event))

    def worlds(self, relevant: World, chosen: Mapping[str, str]) -> tuple[World, ...]:
        """The worlds that still can be, as far as the `relevant` outcomes tell them apart.

        `chosen` holds the outcome a source has named, by the event it is of.
        """
        found: list[World] = [frozenset()]
        for of in self._in_order(relevant):
            named = chosen.get(of)
            options = self._groups[of] if named is None else (named,)
            needed = self._chain(options[0]) - {options[0]}
            if len(found) * len(options) <= MOST_WORLDS:
                found = [w for world in found for w in _grown(world, options, needed)]
            else:
                nominal = next((world for world in found if needed <= world), found[0])
                alone = _grown(nominal, options, needed)[1:]
                found = [_grown(world, options[:1], needed)[0] for world in found] + alone
        return tuple(found)

    def widened(self, outcomes: World) -> World:
        """Those outcomes with all others of the same events."""
        of = {self._of[outcome] for outcome in outcomes if outcome in self._of}
        return frozenset(outcome for event in of for outcome in self._groups[event])

    def open_ends(self, worlds: tuple[World, ...]) -> tuple[tuple[str | None, World], ...]:
        """Each outcome that is still open and on which no other hangs, with its nominal world.

        (None, the only world) where nothing is open.
        """
        found: list[tuple[str | None, World]] = []
        every = frozenset[str]().union(*worlds)
        inner = {o for outcome in every for o in self._chain(outcome) - {outcome}}
        for outcome in sorted(every - inner, key=lambda o: self._rank[o]):
            own = [world for world in worlds if outcome in world]
            if len(own) < len(worlds):
                found.append((outcome, own[0]))
        return tuple(found) or ((None, worlds[0]),)

    def names(self, worlds: tuple[World, ...], which: int) -> tuple[str | None, ...]:
        """What to call a set of worlds (bit n of `which` is the nth): outcomes that cover it.

        None alone means all of them. What no outcome covers exactly is called by the outcome
        that the plan names last.
        """
        if which == (1 << len(worlds)) - 1:
            return (None,)
        masks = _masks(worlds)
        rest = which
        said: list[str] = []
        for outcome in sorted(masks, key=lambda o: (-masks[o].bit_count(), self._rank[o])):
            if not masks[outcome] & ~which and masks[outcome] & rest:
                said.append(outcome)
                rest &= ~masks[outcome]
        while rest:
            world = worlds[(rest & -rest).bit_length() - 1]
            last = max(world, key=lambda o: self._rank[o])
            said.append(last)
            rest &= ~masks[last]
        return tuple(said)

    def _chain(self, outcome: str | None) -> World:
        """An outcome with those its event depends on, and so on."""
        found: set[str] = set()
        while outcome is not None and outcome not in found and outcome in self._of:
            found.add(outcome)
            outcome = self._depends.get(self._of[outcome])
        return frozenset(found)

    def _in_order(self, relevant: World) -> list[str]:
        """The events whose outcomes matter: each after those it depends on."""
        wanted = {self._of[outcome] for outcome in relevant if outcome in self._of}
        return sorted(
            (of for of in self._groups if of in wanted),
            key=lambda of: len(self._chain(self._groups[of][0])),
        )


def _grown(world: World, options: Iterable[str], needed: World) -> list[World]:
    """The world with each of the options added, or as it is where their event does not happen."""
    if not needed <= world:
        return [world]
    return [world | {option} for option in options]


def _masks(worlds: tuple[World, ...]) -> dict[str, int]:
    masks: dict[str, int] = {}
    for place, world in enumerate(worlds):
        for outcome in world:
            masks[outcome] = masks.get(outcome, 0) | 1 << place
    return masks
