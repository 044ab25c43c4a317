"""What a plan stands on: itself with its automatic edges as events, and its signal."""

from dataclasses import dataclass, replace

from core.entries.model import Entry
from core.plan.model import Plan
from core.schedule.model import Edges
from core.schedule.schedule import Schedule
from core.signal.automatic import automatic_events
from core.signal.tables import Tables


@dataclass(frozen=True, slots=True)
class Ground:
    """A plan made ready. `written` is the plan as it was read, `plan` has its automatic edges."""

    written: Plan
    plan: Plan
    tables: Tables

    def schedule(self, now_ms: int, entries: tuple[Entry, ...] = ()) -> Schedule:
        """A schedule built from scratch, with the entries that stand."""
        return Schedule(self.plan, self.tables, now_ms, entries, edges_for=_edges_for)


def make_ready(written: Plan) -> Ground:
    """The plan with its automatic edges, and its tables printed for its planned times."""
    plan = replace(written, events=(*written.events, *automatic_events(written)))
    return Ground(written, plan, _printed(plan))


def _printed(plan: Plan) -> Tables:
    """The plan's tables. Rows that follow an event are offsets from its time by the plan alone."""
    tables = Tables(plan)
    followed = {course.follows for course in plan.courses if course.follows is not None}
    known = {event.id for event in plan.events}
    if not followed & known:
        return tables
    bare = Schedule(plan, tables, 0)
    planned = {name: bare.line(name).planned_ms for name in followed & known}
    return tables.printed_for(planned.get)


def _edges_for(plan: Plan) -> Edges:
    return _printed(plan)
