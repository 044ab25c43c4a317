"""The board as the reading of a line asks for it."""

from collections.abc import Sequence

from core.board.headers import elapsed_zero_ms
from core.board.scene import Scene
from core.board.standing import is_automatic
from core.entries.context import EventNow
from core.plan.model import Change, CheckOff, Item, Lane, Outcome, Plan
from core.schedule.model import Line, State
from core.signal.tables import Tables
from core.times.writing import Style


class Nameable:
    """What a line may name in one scene; worked out once, for every keystroke that follows.

    Edges that are events by themselves have no name to type: 'voice back' is about the lane. Only
    the one whose card is selected can be meant.
    """

    def __init__(self, scene: Scene) -> None:
        self._scene = scene
        self._named = tuple(
            _now(scene, name)
            for name in scene.schedule.events
            if not is_automatic(scene.event(name))
        )

    def events(self, selected: str) -> tuple[EventNow, ...]:
        """Those that the plan or the desk named, and the selected one."""
        scene = self._scene
        if selected in scene.order and is_automatic(scene.event(selected)):
            return (*self._named, _now(scene, selected))
        return self._named


def _now(scene: Scene, event_id: str) -> EventNow:
    event, line = scene.event(event_id), scene.schedule.brief(event_id)
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
