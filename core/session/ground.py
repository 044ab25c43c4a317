"""What a plan stands on: itself with its automatic edges as events, and its signal."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from core.entries.model import Entry
from core.plan.model import Plan
from core.schedule.alone import PlanAlone
from core.schedule.model import Edges
from core.schedule.schedule import Schedule
from core.signal.automatic import automatic_events
from core.signal.computing import Skies
from core.signal.tables import Tables

SkiesFor = Callable[[Plan], Skies | None]
"""Who computes a plan's courses; None for a plan that has none to compute."""


def no_skies(_plan: Plan) -> None:
    """Nobody computes: a plan's tables are all there is."""
    return


@dataclass(frozen=True, slots=True)
class Ground:
    """A plan made ready. `written` is the plan as it was read, `plan` has its automatic edges."""

    written: Plan
    plan: Plan
    tables: Tables
    skies_for: SkiesFor
    alone: PlanAlone
    taken: dict[int, tuple[Plan, Tables]] = field(default_factory=dict)
    """The signal of plans taken over live, by identity: worked out once for every rebuilding."""

    def schedule(self, now_ms: int, entries: tuple[Entry, ...] = ()) -> Schedule:
        """A schedule built from scratch, with the entries that stand."""
        return Schedule(
            self.plan, self.tables, now_ms, entries, edges_for=self._edges_for, alone=self.alone
        )

    def _edges_for(self, plan: Plan) -> Edges:
        if id(plan) not in self.taken:
            self.taken[id(plan)] = (plan, _planned(plan, self.skies_for(plan)))
        return self.taken[id(plan)][1]


def make_ready(written: Plan, skies_for: SkiesFor = no_skies) -> Ground:
    """The plan with its automatic edges, and its signal laid out for its planned times."""
    skies = skies_for(written)
    plan = replace(written, events=(*written.events, *automatic_events(written, skies)))
    tables = _planned(plan, skies)
    return Ground(written, plan, tables, skies_for, PlanAlone(plan, tables))


def _planned(plan: Plan, skies: Skies | None) -> Tables:
    """The plan's signal. Rows that follow an event are offsets from its time by the plan alone."""
    tables = Tables(plan, skies)
    followed = {course.follows for course in plan.courses if course.follows is not None}
    known = {event.id for event in plan.events}
    if not followed & known:
        return tables
    bare = Schedule(plan, tables, 0)
    planned = {name: bare.line(name).planned_ms for name in followed & known}
    return tables.printed_for(planned.get)
