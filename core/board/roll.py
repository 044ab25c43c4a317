"""The events there are, with all of them that is the same from one scene to the next."""

import re
from collections.abc import Mapping
from functools import cached_property

from core.board.sounding import Sounding, soundings
from core.board.standing import is_automatic
from core.board.words import Names
from core.plan.model import Event
from core.schedule.schedule import Schedule
from core.times.writing import floor_second_ms

_WORD = re.compile(r"[^\W\d_][\w'’-]*")


class Roll:
    """What the plan says of the events. Made anew only if an event or a planned time changes."""

    def __init__(self, schedule: Schedule) -> None:
        self.events: Mapping[str, Event] = schedule.roll
        self._schedule = schedule
        self._plan = schedule.plan
        self._replanned = schedule.replanned

    def is_of(self, schedule: Schedule) -> bool:
        """Whether all it says of that schedule still stands."""
        return (
            self.events is schedule.roll
            and self._plan is schedule.plan
            and self._replanned is schedule.replanned
        )

    @cached_property
    def automatic(self) -> frozenset[str]:
        """The edges of the signal that the plan did not name."""
        return frozenset(name for name, event in self.events.items() if is_automatic(event))

    @cached_property
    def live(self) -> tuple[Event, ...]:
        """The events for which the presenter must be on the air."""
        return tuple(event for event in self.events.values() if event.live)

    @cached_property
    def named_edges(self) -> tuple[str, ...]:
        """The events of the plan that stand for an edge of the signal without giving its row."""
        named = (event for event in self._plan.events if event.edge and not event.edge.row)
        return tuple(event.id for event in named if event.id in self.events)

    @cached_property
    def own_outcomes(self) -> dict[str, str]:
        """The events that are there under one outcome only, with that outcome."""
        return {name: e.only_if for name, e in self.events.items() if e.only_if is not None}

    @cached_property
    def names(self) -> Names:
        """Every id of the plan to its name, events added at the desk too; events go first."""
        events = {name: event.name for name, event in self.events.items()}
        told = {o.id: f"{o.name} ({events.get(o.of, o.of)})" for o in self._plan.outcomes}
        plan = self._plan
        kept = {
            **{each.id: each.name for each in plan.lanes},
            **{each.id: each.name for each in plan.items},
            **{each.id: each.name for each in plan.checkoffs},
        }
        return Names({**kept, **told, **events})

    @cached_property
    def soundings(self) -> tuple[Sounding, ...]:
        """How the names sound of which the plan says so."""
        return soundings(self._plan)

    @cached_property
    def planned_ms(self) -> dict[str, int]:
        """When each event was planned, floored to the second as it is shown."""
        timed = ((name, self._schedule.planned_ms(name)) for name in self.events)
        return {name: floor_second_ms(at_ms) for name, at_ms in timed if at_ms is not None}

    @cached_property
    def proper(self) -> frozenset[str]:
        """Words that keep their capital within a line: those that have it there in the plan."""
        within = [self._plan.title, *(event.say for event in self.events.values())]
        within += [event.name.partition(" ")[2] for event in self.events.values()]
        words = (word for text in within for word in _WORD.findall(text))
        return frozenset(word for word in words if word[0].isupper())

    def small(self, name: str) -> str:
        """A name as it stands within a line: 'signal back', but 'Petrel docks' and 'EVA ends'."""
        first = _WORD.match(name)
        if first is None or first[0] in self.proper or first[0][1:2].isupper():
            return name
        return name[0].lower() + name[1:]
