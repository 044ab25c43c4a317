"""The arrival sample after its last possible return, while nobody has heard the craft."""

import pytest

from core.board.model import CardState, View
from core.signal.model import Fill
from tests.plans.test_sample_boards import board, card

DAY = "2031-05-14T"


def words(view: View) -> dict[str, str]:
    return {lane.name: lane.word for lane in view.contact.lanes}


def drawn(view: View, lane: int = 0) -> Fill:
    """What the strip has at the middle of the lane's present second."""
    column = view.strip.lanes[lane]
    spans = zip(column.starts_ms, column.ends_ms, column.fills, strict=True)
    return next(fill for begin, end, fill in spans if begin <= view.now_ms + 999 < end)


@pytest.mark.parametrize("when", ["17:22:22", "17:22:24", "17:24:00", "17:45:00"])
def test_no_contact_is_claimed_after_the_last_return_that_nobody_has_reported(when: str) -> None:
    view = board("petrel-arrival", DAY + when)
    assert words(view)["Voice"] == "not heard yet"
    assert view.contact.lanes[0].figure is None
    assert view.contact.lanes[0].through == "depends on the outcome"
    assert view.presenter is not None
    lane = view.presenter.lanes[0]
    assert (lane.name, lane.word) == ("voice", "not heard yet")
    assert drawn(view) is Fill.EITHER


def test_a_lane_that_should_come_in_later_waits_for_the_same_word() -> None:
    view = board("petrel-arrival", DAY + "17:30:00")
    assert words(view)["Picture"] == "not heard yet"
    assert drawn(view, 1) is Fill.EITHER


@pytest.mark.parametrize("typed", ["burned per flight", "voice back 5:22:50p"])
def test_the_word_of_a_source_or_the_signal_heard_makes_it_contact(typed: str) -> None:
    view = board("petrel-arrival", DAY + "17:30:00", typed)
    assert words(view) == {"Voice": "left", "Picture": "left", "Data": "left"}
    assert drawn(view) is Fill.CONTACT


def test_ahead_of_it_the_strip_has_contact_by_computation() -> None:
    view = board("petrel-arrival", DAY + "17:22:20")
    assert Fill.CONTACT in view.strip.lanes[0].fills
    assert drawn(view) is Fill.EITHER


def test_a_return_is_not_called_unheard_before_its_give_is_over() -> None:
    within = card(board("petrel-arrival", DAY + "17:22:42"), "return")
    over = card(board("petrel-arrival", DAY + "17:22:43"), "return")
    assert (within.state, within.lead) == (CardState.DUE, "due")
    assert over.lead == "not heard by 5:22:22 p.m."


def test_an_ordinary_return_needs_nobody_to_report_it() -> None:
    view = board("petrel-arrival", DAY + "19:45:00", "burned per flight")
    assert words(view)["Voice"] == "left"
    assert drawn(view) is Fill.CONTACT
