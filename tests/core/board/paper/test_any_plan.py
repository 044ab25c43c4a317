"""Whatever a plan holds, it can be printed, as planned and as it stands."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.plan.model import Plan
from tests.core.board.boards import at_ms, seat_on
from tests.core.board.paper.sheets import events, stands, written
from tests.strategies import plans

DAY_MS = 86_400_000


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans(), st.integers(-400, 400))
def test_any_plan_has_all_its_events_on_paper_and_a_place_for_each_column(
    plan: Plan, days: int
) -> None:
    taken = seat_on(plan, at_ms("12:00") + days * DAY_MS)
    for sheet in (written(taken), stands(taken)):
        for each in sheet.sections:
            for grid in each.grids:
                assert all(line.day or len(line.places) == len(grid.heads) for line in grid.lines)
        told = [place.text for line in events(sheet).lines for place in line.places]
        for event in plan.events:
            assert told.count(event.name) >= 1
