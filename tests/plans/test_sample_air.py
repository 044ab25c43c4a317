"""The programme of the sample evening: nothing of ours lies over what goes out from the craft."""

import pytest

from app.resources import sample_plan
from app.skies import skies_for
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.zones import instant_to_ms


def desk_at(when: str, *typed: str) -> tuple[Desk, int]:
    """The sample's desk at a clock time of its own, once those lines were entered."""
    plan = read_plan(sample_plan("petrel-arrival"))
    now_ms = instant_to_ms(when, plan.zones[0])
    desk = Desk(plan, SimClock(now_ms, paused=True), skies_for=skies_for)
    for text in typed:
        desk.enter(text, "", now_ms)
    return desk, now_ms


@pytest.mark.parametrize("line", ["school 6:05p", "school 6:12p"])
@pytest.mark.parametrize("when", ["16:30:00", "17:30:00", "18:02:00", "18:06:00", "18:15:50"])
def test_no_item_is_placed_inside_the_school_call(when: str, line: str) -> None:
    desk, now_ms = desk_at(f"2031-05-14T{when}", line)
    begins_ms = desk.schedule.expected_ms("school")
    ends_ms = desk.schedule.expected_ms("school-end")
    assert begins_ms is not None
    assert ends_ms is not None
    places = desk.proposed(now_ms).places
    assert any(place.from_ms >= ends_ms for place in places)
    assert all(place.to_ms < begins_ms or place.from_ms >= ends_ms for place in places)


def test_after_the_last_break_was_missed_what_fits_if_others_move_says_so() -> None:
    desk, now_ms = desk_at("2031-05-14T16:43:40")
    panel = desk.on_air(now_ms).panel
    told = [said.text for said in panel.owed]
    assert told[0] == "break 3 and break 4 fit only if others move: place says how"
    assert not any("no place" in words for words in told)
    assert not desk.no_place_words(now_ms)
    assert not desk.proposed(now_ms).left
