from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.desk.closing import closing_words
from tests.app.desk.seat import Seat, seated

ASKS = "Closing forgets 2 entries; close again within 5 seconds to do it"


@pytest.fixture
def seat(qtbot: QtBot) -> Iterator[Seat]:
    with seated(qtbot) as taken:
        taken.desk.shown = replace(taken.desk.shown, unsaved=2)
        taken.pass_time(1)
        yield taken


def test_a_window_without_entries_closes_at_once(seat: Seat) -> None:
    seat.desk.shown = replace(seat.desk.shown, unsaved=0)
    seat.pass_time(1)
    assert seat.window.close()


def test_a_window_whose_entries_are_kept_closes_at_once(seat: Seat) -> None:
    seat.desk.shown = replace(seat.desk.shown, saved="writing …", unsaved=0)
    seat.pass_time(1)
    assert seat.window.close()


def test_closing_says_what_it_would_forget_and_what_is_typed_stands(seat: Seat) -> None:
    seat.type("loss")
    assert not seat.window.close()
    assert seat.window.isVisible()
    assert seat.headline == ASKS
    assert seat.text == "loss"


def test_closing_again_in_time_closes(seat: Seat, qtbot: QtBot) -> None:
    assert not seat.window.close()
    seat.pass_time(600)  # the board's time may race
    with qtbot.waitSignal(seat.window.closed):
        assert seat.window.close()


def test_closing_again_too_late_asks_again(seat: Seat) -> None:
    assert not seat.window.close()
    _five_seconds_pass(seat)
    assert seat.headline == ""
    assert not seat.window.close()
    assert seat.headline == ASKS


def test_what_was_answered_meanwhile_stands(seat: Seat) -> None:
    assert not seat.window.close()
    seat.type("loss +1m")
    seat.press(Qt.Key.Key_Return)
    _five_seconds_pass(seat)
    assert seat.headline == "taken: loss +1m"


def test_the_end_of_the_session_is_not_held_up(seat: Seat) -> None:
    seat.window.closing.end_session()
    assert seat.window.close()


def test_one_entry_is_one_entry() -> None:
    assert closing_words(1).startswith("Closing forgets 1 entry;")


def _five_seconds_pass(seat: Seat) -> None:
    """As the timer does it, without the wait."""
    assert seat.window.closing.asked.interval() == 5000
    seat.window.closing.asked.stop()
    seat.window.closing.fell.emit()
