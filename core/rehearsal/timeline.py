"""The hidden timeline of a rehearsal, as data. Instants are UTC milliseconds."""

from dataclasses import dataclass

from core.board.programme import LiveSpan
from core.plan.model import Change
from core.rehearsal.reports import Report


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that really happens at `at_ms` and is known at the desk at `heard_ms`.

    An event, or where `event` is empty a loss or return that no event of the plan stands for.
    """

    at_ms: int
    heard_ms: int
    event: str = ""
    lane: str = ""
    change: Change | None = None


@dataclass(frozen=True, slots=True)
class Truth:
    """The hidden timeline, in order of time, and what of it reaches the desk, in order of that.

    `live` are the stretches in which the presenter really must be on the air.
    """

    happenings: tuple[Happening, ...]
    reports: tuple[Report, ...]
    live: tuple[LiveSpan, ...]
    outcomes: tuple[str, ...]
    ignored: tuple[str, ...] = ()
    """Surprises that could not be brought into the flight."""
    sprung: tuple[tuple[str, int], ...] = ()
    """When each of the others is sprung; those inside an item are not among them."""

    def at_ms(self, event: str) -> int | None:
        """When an event really happens, None where it does not while the rehearsal runs."""
        return next((each.at_ms for each in self.happenings if each.event == event), None)
