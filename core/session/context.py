"""The board as the reading of a line asks for it."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.board.headers import elapsed_zero_ms
from core.board.roll import Roll
from core.board.scene import Scene
from core.entries.context import EventNow
from core.entries.things import Thing, event_thing, signal_things
from core.plan.model import Change, CheckOff, Item, Lane, Outcome, Plan
from core.schedule.model import Line, State
from core.signal.tables import Tables
from core.times.writing import Style


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
    )


class DeskContext:
    """One moment of the board, for reading one line (core.entries.context.Context)."""

    def __init__(
        self,
        scene: Scene,
        nameable: Nameable,
        tables: Tables,
        now_ms: int,
        selected: str,
        *,
        simulated: bool,
        waiting: Plan | None,
        trouble: str = "",
    ) -> None:
        self._scene = scene
        self._nameable = nameable
        self._tables = tables
        self._now_ms = now_ms
        self._selected = selected
        self._simulated = simulated
        self._waiting = waiting
        self._trouble = trouble

    @property
    def now_ms(self) -> int:
        """The board's time."""
        return self._now_ms

    @property
    def style(self) -> Style:
        """How the desk's window writes clock times."""
        return self._scene.style

    @property
    def zones(self) -> Sequence[str]:
        """The plan's zones."""
        return self._scene.plan.zones

    @property
    def selected(self) -> str:
        """The id of the event whose card is selected, or empty."""
        return self._selected

    @property
    def events(self) -> Sequence[EventNow]:
        """Every event that a line may name."""
        return self._nameable.events(self._selected)

    def event(self, event_id: str) -> EventNow | None:
        """The event of that id, if a line may name it."""
        return self._nameable.event(event_id, self._selected)

    @property
    def things(self) -> Sequence[Thing]:
        """All that a line may be about."""
        return self._nameable.things(self._selected)

    @property
    def lanes(self) -> Sequence[Lane]:
        """The lanes of the plan."""
        return self._scene.plan.lanes

    @property
    def outcomes(self) -> Sequence[Outcome]:
        """The outcomes of the plan."""
        return self._scene.plan.outcomes

    @property
    def sources(self) -> Sequence[str]:
        """Who may be named after 'per'."""
        return self._scene.plan.sources

    @property
    def elapsed_zero_ms(self) -> int | None:
        """The instant that mission elapsed time counts from."""
        return elapsed_zero_ms(self._scene)

    @property
    def simulated(self) -> bool:
        """Whether the board runs on a simulated clock."""
        return self._simulated

    @property
    def plan_waiting(self) -> Plan | None:
        """The plan as it was changed on disk, when it is offered."""
        return self._waiting

    @property
    def plan_trouble(self) -> str:
        """Why the plan as it was changed on disk cannot be taken over, or empty."""
        return self._trouble

    @property
    def kept(self) -> Sequence[Item | CheckOff]:
        """Items and check-offs of the plan."""
        plan = self._scene.plan
        return (*plan.items, *plan.checkoffs)

    def edge_near(self, lane: str, change: Change, time_ms: int) -> str:
        """The nearest unobserved edge of that lane and kind, else ''."""
        return self._tables.near(lane, change, time_ms, self._scene.schedule.expected_ms)

    def edge_of(self, event: str) -> str:
        """The id of the signal's edge that the event stands for now, or ''."""
        line: Line = self._scene.line(event)
        return line.edge
