"""The big card while nobody knows how the burn went, and towards the end of a programme."""

import pytest

from app.resources import sample_plan
from app.skies import skies_for
from core.board.model import View
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.zones import instant_to_ms

ARRIVAL = read_plan(sample_plan("petrel-arrival"))


def at_ms(clock: str) -> int:
    """A clock time of the evening of the arrival."""
    return instant_to_ms(f"2031-05-14T{clock}", ARRIVAL.zones[0])


def board(clock: str, *typed: str) -> View:
    """The board of the arrival then, once those lines were entered."""
    now_ms = at_ms(clock)
    desk = Desk(ARRIVAL, SimClock(now_ms, paused=True), skies_for=skies_for)
    for text in typed:
        desk.enter(text, "", now_ms)
    return desk.view(now_ms)


@pytest.fixture(scope="module")
def untold() -> Desk:
    """A desk at which nothing was typed: it can be looked at at any time."""
    return Desk(ARRIVAL, SimClock(at_ms("17:00:00"), paused=True), skies_for=skies_for)


def big(view: View) -> str:
    return "" if view.big_index is None else view.cards[view.big_index].id


def headline(view: View) -> tuple[str, str]:
    assert view.presenter is not None
    return view.presenter.name, view.presenter.at


@pytest.mark.parametrize(
    ("clock", "event"),
    [
        ("17:12:33", "return-none"),
        ("17:12:45", "return-none"),
        ("17:13:43", "return-none"),
        ("17:13:44", "return"),
        ("17:22:21", "return"),
        ("17:22:23", "return"),
        ("17:29:00", "return"),
        ("18:02:59", "return"),
        ("18:03:00", "school"),
    ],
)
def test_nothing_takes_the_place_of_a_return_that_nobody_has_heard(
    untold: Desk, clock: str, event: str
) -> None:
    view = untold.view(at_ms(clock))
    assert big(view) == event
    assert headline(view)[0] == next(each.name for each in view.cards if each.id == event)


def test_a_return_is_late_only_once_its_give_is_past(untold: Desk) -> None:
    first, late = untold.view(at_ms("17:22:42")), untold.view(at_ms("17:22:43"))
    assert headline(first)[1] == "5:22 p.m. Atlantic"
    assert headline(late)[1] == "not heard by 5:22 p.m. Atlantic"
    assert [view.cards[view.big_index or 0].lead for view in (first, late)] == [
        "due",
        "not heard by 5:22:22 p.m.",
    ]


def test_once_they_are_heard_the_next_live_moment_is_the_big_card() -> None:
    assert big(board("17:22:40", "voice back now")) == "photo"


def test_once_a_source_has_said_the_other_return_waits_for_nobody() -> None:
    assert big(board("17:12:45", "burned per flight")) == "return"
    assert big(board("17:22:40", "no burn per flight")) == "school"


@pytest.fixture(scope="module")
def heard() -> Desk:
    """A desk that was told of a good burn and a voice at twenty past five."""
    clock = SimClock(at_ms("17:22:40"), paused=True)
    desk = Desk(ARRIVAL, clock, skies_for=skies_for)
    for text in ("burned per flight", "voice back now"):
        desk.enter(text, "", at_ms("17:22:40"))
    return desk


def test_what_lies_after_the_programme_is_no_headline_of_it(heard: Desk) -> None:
    for clock in ("18:30:00", "19:00:00", "19:20:00"):
        view = heard.view(at_ms(clock))
        card = view.cards[view.big_index or 0]
        assert card.at_ms is not None
        assert card.at_ms < at_ms("19:45:00")
        assert headline(view)[0] == card.name
        assert view.presenter is not None
        assert all("second burn" not in then.name for then in view.presenter.then)


def test_towards_its_end_the_presenter_counts_down_to_it(heard: Desk) -> None:
    view = heard.view(at_ms("19:42:00"))
    assert view.presenter is not None
    assert view.clear is not None
    assert headline(view) == ("Off the air in", "7:45 p.m. Atlantic")
    assert view.presenter.figure == view.clear.figure
    assert view.clear.lead == "off the air in"
    assert view.big_index is None


def test_a_live_moment_before_the_end_goes_first(heard: Desk) -> None:
    assert headline(heard.view(at_ms("18:03:00")))[0] == "School call with the crew"


def test_after_the_programme_the_next_live_moment_is_the_big_card_again(heard: Desk) -> None:
    assert big(heard.view(at_ms("19:45:00"))) == "second-loss"


@pytest.mark.parametrize("clock", ["17:12:40", "17:22:23", "17:25:00"])
def test_desk_and_presenter_say_alike_until_when_one_is_live(untold: Desk, clock: str) -> None:
    view = untold.view(at_ms(clock))
    assert view.presenter is not None
    assert view.clear is not None
    assert (view.presenter.back_word, view.presenter.back) == ("live", view.clear.back_by)
    assert view.clear.back_by == "until there is word"
