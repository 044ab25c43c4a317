"""What is said, noted or put on the air moves nothing: the schedule does not look at it twice."""

import pytest

from core.entries.airing import Begin, MarkSaid
from core.entries.model import Action, Hold, Note, Replan, Revise
from core.schedule.model import Effect
from core.schedule.schedule import Schedule
from tests.core.schedule.desk import Desk, at, event, plan, tie

OTHERS = (Note("quiet"), MarkSaid("Soon."), Begin("break-3", at("10:00")))


def desk() -> Desk:
    return Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10, 5))))


@pytest.mark.parametrize("action", OTHERS)
def test_it_does_nothing_and_no_revision_comes_of_it(action: Action) -> None:
    here = desk()
    here.type(Revise("A", at("10:04")))
    before = here.board.revision
    assert here.shown(action) == Effect()
    assert here.type(action) == Effect()
    assert here.board.revision == before
    assert here.times("A B") == "10:04 10:14"


@pytest.mark.parametrize("action", [Replan(), Hold("A", at("09:00"), at("01:00"))])
def test_what_shows_without_moving_anything_is_a_revision(action: Action) -> None:
    here = desk()
    before = here.board.revision
    here.type(action)
    assert here.board.revision == before + 1


def test_what_looks_on_while_it_is_tried_sees_the_schedule_as_it_stands() -> None:
    here = desk()
    here.type(Revise("A", at("10:04")))
    seen: list[dict[str, int | None]] = []
    here.type(OTHERS[0])
    here.board.preview(here.entries[-1], at("09:30"), lambda: seen.append(here.board.expected()))
    assert seen == [here.board.expected()]
    assert here.times("A B") == "10:04 10:14"


def test_between_others_it_is_as_if_it_had_not_been_typed() -> None:
    here, other = desk(), desk()
    for action in (Revise("A", at("10:04")), *OTHERS, Revise("B", at("10:20")), OTHERS[0]):
        here.type(action)
        if action not in OTHERS:
            other.type(action)
    assert here.board.expected() == other.board.expected()
    assert [here.board.line(name) for name in "AB"] == [other.board.line(name) for name in "AB"]
    anew = Schedule(here.plan, here.edges, here.now_ms, here.entries)
    assert anew.expected() == here.board.expected()
    assert here.board.spent == other.board.spent == frozenset()
