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
