"""What a line may name in one scene of the board."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.board.roll import Roll
from core.board.scene import Scene
from core.entries.context import EventNow
from core.entries.things import Thing, event_thing, signal_things
from core.schedule.model import State


@dataclass(frozen=True, slots=True)
class Named:
    """What a line may be about by name, as long as no event comes, goes or happens."""

    roll: Roll
    happened: frozenset[str]
    events: tuple[Thing, ...]
    signals: tuple[Thing, ...]

    @classmethod
    def of(cls, scene: Scene) -> "Named":
        """Everything that has a name in the scene."""
        happened, automatic = scene.schedule.happened, scene.roll.automatic
        events = tuple(
            event_thing(name, event.name, past=name in happened)
            for name, event in scene.roll.events.items()
            if name not in automatic
        )
        signals = signal_things(scene.plan.lanes, scene.plan.outcomes)
        return cls(scene.roll, happened, events, signals)

    def is_of(self, scene: Scene) -> bool:
        """Whether it stands in that scene too."""
        return self.roll is scene.roll and self.happened == scene.schedule.happened


class Nameable:
    """What a line may name in one scene, for every keystroke while that lasts.

    Edges that are events by themselves have no name to type: 'voice back' is about the lane. Only
    the one whose card is selected can be meant.
    """

    def __init__(self, scene: Scene, named: Named | None = None) -> None:
        self._scene = scene
        self._named = named if named is not None and named.is_of(scene) else Named.of(scene)
        self._events: dict[str, EventNow] = {}

    def of(self, scene: Scene) -> "Nameable":
        """What may be named in that scene: the same while it is the same one."""
        return self if scene is self._scene else Nameable(scene, self._named)

    def events(self, selected: str) -> Sequence[EventNow]:
        """Those that the plan or the desk named, and the selected one."""
        names = (thing.id for thing in self._named.events)
        return tuple(self._now(name) for name in (*names, *self._only_selected(selected)))

    def event(self, event_id: str, selected: str) -> EventNow | None:
        """One of those."""
        roll = self._scene.roll
        if event_id in roll.automatic and event_id not in self._only_selected(selected):
            return None
        return self._now(event_id) if event_id in roll.events else None

    def things(self, selected: str) -> Sequence[Thing]:
        """Those by their names, then lanes and outcomes."""
        more = (
            event_thing(name, self._scene.event(name).name, past=name in self._named.happened)
            for name in self._only_selected(selected)
        )
        return (*self._named.events, *more, *self._named.signals)

    def _only_selected(self, selected: str) -> tuple[str, ...]:
        """The selected event, where only its card can name it."""
        scene = self._scene
        only = selected in scene.roll.automatic and selected in scene.order
        return (selected,) if only else ()

    def _now(self, event_id: str) -> EventNow:
        found = self._events.get(event_id)
        if found is None:
            found = self._events[event_id] = _now(self._scene, event_id)
        return found


def _now(scene: Scene, event_id: str) -> EventNow:
    event, line = scene.event(event_id), scene.brief(event_id)
    return EventNow(
        id=event_id,
        name=event.name,
        expected_ms=line.expected_ms,
        planned_ms=line.planned_ms,
        happened=line.state is State.HAPPENED,
        left_ms=line.left_ms,
        give_ms=line.give_ms,
        plan_give_ms=event.give_ms,
        lane="" if event.edge is None else event.edge.lane,
    )
