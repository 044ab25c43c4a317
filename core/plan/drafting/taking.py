"""What was imported, into a draft: events as tables, tied to another event where one wants that."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.plan.drafting.draft import Draft
from core.plan.drafting.event_tables import EVENTS
from core.plan.drafting.fresh import slug, unique
from core.plan.drafting.references import names
from core.plan.drafting.retiming import Retimed, retimings
from core.plan.drafting.signal_tables import COURSES
from core.plan.gather import Named
from core.plan.imports.events import Made
from core.plan.imports.orbits import OrbitFile
from core.plan.model import Event, Plan, Tie
from core.plan.plain import Moment, Table, plain_plan
from core.plan.reader import FORMAT


@dataclass(frozen=True, slots=True)
class Ties:
    """What clock times are tied to, and when that is planned."""

    event: str
    at_ms: int


def tied(events: Sequence[Event], ties: Ties) -> tuple[Event, ...]:
    """The events with a tie in place of their clock time, so that they move with another."""
    return tuple(_tied(event, ties) for event in events)


def _tied(event: Event, ties: Ties) -> Event:
    if event.at_ms is None or event.ties or event.id == ties.event:
        return event
    offset_ms = event.at_ms - ties.at_ms
    least_ms, most_ms = (0, None) if offset_ms >= 0 else (None, 0)
    return replace(event, at_ms=None, ties=(Tie(ties.event, offset_ms, least_ms, most_ms),))


@dataclass(frozen=True, slots=True)
class Taken:
    """What is taken of an import: new events, and new times of events that stand."""

    events: tuple[Event, ...]
    retimed: tuple[Retimed, ...] = ()

    @property
    def words(self) -> str:
        """How many: '3 events and 1 new time'."""
        counts = ((len(self.events), "event"), (len(self.retimed), "new time"))
        said = [f"{count} {what}" + "s" * (count != 1) for count, what in counts if count]
        return " and ".join(said)


def take_events(draft: Draft, taken: Taken, made: Made, source: str) -> None:
    """Put events into a draft as one change, and say there what elapsed times count from."""
    before, said = draft.steps, f"{taken.words} from {source}"
    draft.set_rows(retimings(draft.now, taken.retimed), said)
    if taken.events:
        draft.add(EVENTS, _tables(taken.events), said)
    if made.zero and "elapsed_from" not in draft.now.raw:
        draft.set_top("elapsed_from", made.zero, said)
    draft.gather(before, said)


def _tables(events: Sequence[Event]) -> list[Table]:
    plan = plain_plan(Plan("", ("UTC",), events=tuple(events)), FORMAT)
    found = plan.get("event", [])
    return found if isinstance(found, list) else []


def take_course(draft: Draft, orbit: OrbitFile) -> str:
    """Put a course that follows a file beside the plan into a draft; gives its id."""
    name = unique(slug(orbit.name) or "course", names(draft.now.raw, Named.COURSE))
    row: Table = {"id": name, "kind": str(orbit.kind), "file": orbit.file}
    if orbit.until_ms > orbit.from_ms:
        row["until"] = Moment(orbit.until_ms)
    draft.add(COURSES, [row], f"a course from {orbit.file}")
    return name
