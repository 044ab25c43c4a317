"""What reading a line of the entry bar has to know of the board: asked for, never kept."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from core.entries.aired import Aired
from core.entries.things import Thing
from core.plan.model import Change, CheckOff, Item, Lane, Outcome, Plan
from core.times.writing import Style


@dataclass(frozen=True, slots=True)
class EventNow:
    """An event as it stands while one types; all instants UTC milliseconds.

    `expected_ms` is None where it has no time now (called off, dropped, unknown), and the instant
    it happened where it has. `left_ms` is what stands on its count while it is held, else None.
    `plan_give_ms` is the give the plan has for it, `give_ms` the one in force. `lane` is the lane
    whose edge it stands for, or empty.
    """

    id: str
    name: str
    expected_ms: int | None
    planned_ms: int | None = None
    happened: bool = False
    left_ms: int | None = None
    give_ms: int = 0
    plan_give_ms: int = 0
    lane: str = ""


Proposal = tuple[tuple[str, int], ...] | str
"""Items with their starts (UTC ms); or why they cannot all be placed, and on a second line the
most that can."""

Spoken = tuple[str, tuple[tuple[str, int], ...]]
"""A sentence, and the events and instants that it tells the audience."""


class Context(Protocol):
    """The board's side of reading a line. Its answers are those of one moment."""

    @property
    def now_ms(self) -> int:
        """The board's time: of the keystroke for a preview, of the first Enter for an entry."""

    @property
    def style(self) -> Style:
        """How the desk's window writes clock times; its zone is the desk's."""

    @property
    def zones(self) -> Sequence[str]:
        """The plan's zones, IANA names, the desk's first."""

    @property
    def selected(self) -> str:
        """The id of the event whose card is selected, or empty."""

    @property
    def events(self) -> Sequence[EventNow]:
        """Every event that a line may name, in the plan's order, those added at the desk last."""

    def event(self, event_id: str) -> EventNow | None:
        """The event of that id, if a line may name it."""

    @property
    def things(self) -> Sequence[Thing]:
        """All that a line may be about: events, lanes, outcomes, items, check-offs."""

    @property
    def lanes(self) -> Sequence[Lane]:
        """The lanes of the plan."""

    @property
    def outcomes(self) -> Sequence[Outcome]:
        """The outcomes of the plan."""

    @property
    def sources(self) -> Sequence[str]:
        """Who may be named after 'per'; empty: the plan lists none, and any one word is taken."""

    @property
    def elapsed_zero_ms(self) -> int | None:
        """The instant that mission elapsed time counts from at present, where the plan has one."""

    @property
    def simulated(self) -> bool:
        """Whether the board runs on a simulated clock, which the bar may steer."""

    @property
    def plan_waiting(self) -> Plan | None:
        """The plan as it was changed on disk, when it is offered to be taken over."""

    @property
    def plan_trouble(self) -> str:
        """Why the plan as it was changed on disk cannot be taken over, or empty."""

    @property
    def items(self) -> Sequence[Item]:
        """The items of the plan."""

    @property
    def checkoffs(self) -> Sequence[CheckOff]:
        """The check-offs of the plan."""

    @property
    def aired(self) -> Aired:
        """What the entries that stand say of the programme."""

    def lane_up(self) -> str:
        """The first lane of the plan that is in contact now, or ''."""

    def name_of(self, event: str) -> str:
        """The name of an event, also of an edge that no line may name."""

    def proposal(self) -> Proposal:
        """The best way to place all that is owed."""

    def to_say(self) -> Spoken | None:
        """The sentence that is shown to be said, or None."""

    def owed(self) -> tuple[str, ...]:
        """The events for which a correction is owed to the audience now."""

    def edge_near(self, lane: str, change: Change, time_ms: int) -> str:
        """The nearest unobserved edge of that lane and kind within give + 2 min, else ''."""

    def dropped(self, lane: str, back_ms: int) -> int | None:
        """The number of the entry of the lane's last loss, if its edge was due after `back_ms`."""

    def edge_of(self, event: str) -> str:
        """The id of the signal's edge that the event stands for now, or ''."""
