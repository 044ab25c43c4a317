"""The board as the reading of a line asks for it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from operator import itemgetter

from core.board.headers import elapsed_zero_ms
from core.board.scene import Scene
from core.entries.aired import Aired, aired
from core.entries.context import EventNow, Proposal, Spoken
from core.entries.model import Entry, Observe
from core.entries.things import Thing, programme_things
from core.plan.model import Change, CheckOff, Item, Lane, Outcome, Plan
from core.schedule.model import Line
from core.session.nameable import Nameable
from core.signal.model import Fill
from core.signal.tables import Tables
from core.times.writing import Style


def _nothing_to_place() -> Proposal:
    return "There is nothing to place"


def _nothing_to_say() -> Spoken | None:
    return None


def _nothing_owed() -> tuple[str, ...]:
    return ()


@dataclass(frozen=True, slots=True)
class Asked:
    """What only some lines want to know of the programme: worked out when they ask."""

    proposal: Callable[[], Proposal] = _nothing_to_place
    to_say: Callable[[], Spoken | None] = _nothing_to_say
    owed: Callable[[], tuple[str, ...]] = _nothing_owed


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
        standing: Sequence[Entry] = (),
        asked: Asked = Asked(),
    ) -> None:
        self._scene = scene
        self._nameable = nameable
        self._tables = tables
        self._now_ms = now_ms
        self._selected = selected
        self._simulated = simulated
        self._waiting = waiting
        self._trouble = trouble
        self._standing = standing
        self._asked = asked

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
        plan = self._scene.plan
        programme = programme_things(plan.items, plan.checkoffs, self.aired)
        return (*self._nameable.things(self._selected), *programme)

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
    def items(self) -> Sequence[Item]:
        """The items of the plan."""
        return self._scene.plan.items

    @property
    def checkoffs(self) -> Sequence[CheckOff]:
        """The check-offs of the plan."""
        return self._scene.plan.checkoffs

    @cached_property
    def aired(self) -> Aired:
        """What the entries that stand say of the programme."""
        return aired(self._standing)

    def lane_up(self) -> str:
        """The first lane of the plan that is in contact now, or ''."""
        seen = {lane.lane: lane.stretch(self._now_ms) for lane in self._scene.sight.lanes}
        here = ((lane.id, seen.get(lane.id)) for lane in self.lanes)
        up = (lane for lane, now in here if now is not None and now.fill is Fill.CONTACT)
        return next(up, "")

    def name_of(self, event: str) -> str:
        """The name of an event."""
        return self._scene.roll.names(event)

    def proposal(self) -> Proposal:
        """The best way to place all that is owed."""
        return self._asked.proposal()

    def to_say(self) -> Spoken | None:
        """The sentence that is shown to be said, or None."""
        return self._asked.to_say()

    def owed(self) -> tuple[str, ...]:
        """The events for which a correction is owed to the audience now."""
        return self._asked.owed()

    def edge_near(self, lane: str, change: Change, time_ms: int) -> str:
        """The nearest unobserved edge of that lane and kind, else ''."""
        return self._tables.near(lane, change, time_ms, self._scene.schedule.expected_ms)

    def dropped(self, lane: str, back_ms: int) -> int | None:
        """The number of the entry of the lane's last loss, if its edge was due after `back_ms`."""
        seen = [
            (entry.action.time_ms, entry.number, entry.action)
            for entry in self._standing
            if isinstance(entry.action, Observe) and entry.action.lane == lane
        ]
        before = [each for each in seen if each[0] <= back_ms]
        _, number, last = max(before, key=itemgetter(0, 1), default=(0, 0, None))
        if last is None or last.change is not Change.LOST or not last.edge:
            return None
        edges = next(each.edges for each in self._scene.lanes if each.lane == lane)
        due_ms = next((each.table_ms for each in edges if each.id == last.edge), None)
        return number if due_ms is not None and due_ms > back_ms else None

    def edge_of(self, event: str) -> str:
        """The id of the signal's edge that the event stands for now, or ''."""
        line: Line = self._scene.line(event)
        return line.edge
