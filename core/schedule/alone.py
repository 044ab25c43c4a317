"""The times by the plan alone, worked out once for each plan and only if they are asked for."""

from collections.abc import Mapping

from core.plan.model import Event, Plan
from core.schedule.giving import Voice
from core.schedule.model import Edges
from core.schedule.recall import Recall
from core.schedule.standing import Standing
from core.schedule.works import Works


class PlanAlone:
    """When a plan has its events while nothing is known but the plan.

    That never changes, so all schedules of the same plan may share one. `added` are events added
    at the desk: they stand by their ties. Beside it stands what they remember of the day.
    """

    def __init__(self, plan: Plan, edges: Edges, added: tuple[Event, ...] = ()) -> None:
        self._plan = plan
        self._edges = edges
        self._added = added
        self._times: Mapping[str, int | None] | None = None
        self.recall = Recall()

    def is_of(self, plan: Plan) -> bool:
        """Whether it is this plan's."""
        return self._plan is plan

    @property
    def times(self) -> Mapping[str, int | None]:
        """The time of each event, None where the plan gives it none."""
        if self._times is None:
            bare = Standing(self._plan, {}, self._added)
            self._times = Works(bare, self._edges, 0, Voice(0)).times()
        return self._times

    def take_from(self, works: Works) -> None:
        """Spare the work where the works stand for no more than the plan."""
        standing = works.standing
        if self._times is None and not (standing.facts or standing.entries):
            self._times = works.times()

    def with_added(self, added: tuple[Event, ...]) -> "PlanAlone":
        """The same plan with these events added at the desk."""
        return PlanAlone(self._plan, self._edges, added)
