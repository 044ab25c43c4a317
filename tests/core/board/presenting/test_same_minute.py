"""One instant is one minute: on the strip, before the presenter, and as it is said."""

from pathlib import Path

import pytest

from core.board.model import View
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat

SAID = FLIGHT.replace('name = "Loss of signal"', 'name = "Loss of signal"\nsay = "the loss"')


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path, clock="16:35", text=SAID)


def strip(view: View, at: str) -> str:
    """What stands on the strip at that edge of the voice."""
    return next(e.text for e in view.strip.edges if (e.lane, e.at_ms) == ("voice", at_ms(at)))


def at(view: View) -> str:
    assert view.presenter is not None
    return view.presenter.at


def said(view: View) -> str:
    assert view.to_say is not None
    return " ".join(each.twenty for each in view.to_say.sentences)


def test_a_loss_has_the_minute_it_is_in(desk: Seat) -> None:
    desk.take("loss 4:50:40p per flight")
    desk.go_to("16:35:20")
    assert strip(desk.view, "16:50:40") == "4:50 p.m."
    assert at(desk.view) == "4:50 p.m. Atlantic"
    assert "at four-fifty Atlantic" in said(desk.view)


def test_the_earlier_of_two_returns_has_the_minute_it_is_in(desk: Seat) -> None:
    desk.go_to("17:05")
    desk.take("return-none 5:12:40p")
    assert strip(desk.view, "17:12:40") == "5:12 p.m."
    assert at(desk.view) == "5:12 p.m. Atlantic"
    desk.go_to("17:09")
    assert "about five-twelve; after a full one, about five twenty-three" in said(desk.view)


def test_the_later_is_written_before_the_presenter_as_it_is_said(desk: Seat) -> None:
    desk.go_to("17:15")
    assert strip(desk.view, "17:22:50") == "5:23 p.m."
    assert "The next time to watch is about five twenty-three" in said(desk.view)
    assert at(desk.view) == "5:23 p.m. Atlantic"
    desk.go_to("17:26")
    assert "Five twenty-three has come and gone" in said(desk.view)


def test_once_an_outcome_is_named_it_is_one_return_like_any_other(desk: Seat) -> None:
    desk.take("burned per flight")
    desk.go_to("17:15")
    assert at(desk.view) == "5:22 p.m. Atlantic"
    assert "five twenty-two" in said(desk.view)


def test_a_correction_quotes_the_minute_that_was_said_and_gives_the_new_one_alike(
    desk: Seat,
) -> None:
    desk.go_to("17:07")
    desk.take("said")
    desk.take("return 5:25:40p")
    view = desk.view
    assert view.to_say is not None
    assert [each.line for each in view.to_say.owed] == [
        (
            "A moment ago we said five twenty-three for signal back, after the burn. It is now "
            "expected at five twenty-six."
        )
    ]
