"""Any drawn plan, and anything typed on it: the desk can always be looked at, and goes back."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.plan.model import Plan
from core.session.model import Answer
from core.times.clocks import SimClock
from tests.core.board.boards import seat_on
from tests.strategies import instants_ms, plans

LINES = (
    *("item-0 now", "item-0 over", "item-0 in 4m", "item-0 +2m", "item-0 off", "item-0 free"),
    *("item-1 now", "item-1 over now-1s", "item-1 in 30m", "item-1 -10m", "place"),
    *("air off", "air off 11m", "air on", "air on in 20m", "said", "waive", "grave", "grave over"),
    *("clamps 3", "clamps +1", "clamps 1 3 5", "picture clock 4:40p"),
    *("start now", "start +20m", "start in 1h", "start hold", "start resume", "event-1 now"),
    *("event-1 in 5m", "event-1 scrub stay", "event-2 scrub with", "burned", "no-burn"),
    *("voice lost now", "voice back now", "voice closed", "voice open", "voice delay 9s"),
    *("sign in AB", "sign in CD", "sign out", "promise back to the hall", "kept"),
)
typed = st.lists(st.tuples(st.sampled_from(LINES), st.integers(0, 900_000)), max_size=6)


@given(plans(), instants_ms, st.booleans(), typed)
@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
def test_whatever_is_typed_the_board_can_be_looked_at(
    plan: Plan,
    now_ms: int,
    near: bool,
    lines: list[tuple[str, int]],
) -> None:
    starts_ms = [item.earliest_ms or item.at_ms for item in plan.items] if near else []
    desk = seat_on(plan, next((at_ms for at_ms in starts_ms if at_ms is not None), now_ms))
    began = dict(desk.desk.schedule.expected())
    clock = desk.clock
    assert isinstance(clock, SimClock)
    assert desk.view.header.clock
    for line, wait_ms in lines:
        clock.step(wait_ms)
        assert desk.preview(line).headline or desk.preview(line).error
        if desk.enter(line).answer is Answer.ASKS:
            assert desk.enter(line, again=True).answer is Answer.DONE
        assert desk.view.header.clock
        assert desk.desk.hand_page(desk.now_ms).parts
    while desk.desk.undo(desk.now_ms).answer is Answer.DONE:
        pass
    assert dict(desk.desk.schedule.expected()) == began
