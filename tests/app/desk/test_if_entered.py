"""What an entry would do stands beside the countdowns, in the right column, while one types."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.desk.clash_box import lay_clash
from app.desk.ink import wrapped
from app.theme import Text, Theme
from core.board.model import Preview, Said, Tone
from tests.app.desk.seat import Seat, seated
from tests.app.views import arrival_view, last_change

LINES = tuple(Said(f"Event {n} follows, 45 s later", Tone.CHANGE) for n in range(40))


@pytest.fixture(params=[(1280, 720), (1600, 1000)], ids=str)
def seat(qtbot: QtBot, request: pytest.FixtureRequest) -> Iterator[Seat]:
    view = replace(arrival_view(), last_change=last_change())
    with seated(qtbot, view, size=request.param) as sitting:
        sitting.desk.previews["x"] = Preview(headline="later", lines=LINES)
        yield sitting


def test_what_would_move_takes_the_place_of_the_last_change_while_one_types(seat: Seat) -> None:
    side = seat.window.side
    assert side.change.isVisible()
    seat.type("x")
    assert side.if_entered.isVisible()
    assert not side.change.isVisible()
    assert side.if_entered.shown == LINES
    assert seat.headline == "later"
    assert seat.lines == []
    seat.press(Qt.Key.Key_Backspace)
    assert side.change.isVisible()
    assert not side.if_entered.isVisible()


def test_it_stands_below_contact_and_moves_neither_cards_nor_strip(seat: Seat) -> None:
    window, strip = seat.window, seat.window.timeline.strip
    assert strip is not None
    before = (window.timeline.geometry(), window.timeline.cards.geometry(), strip.geometry())
    seat.type("x")
    panel, contact = window.side.if_entered.geometry(), window.side.contact.geometry()
    assert panel.top() > contact.bottom()
    assert panel.bottom() < window.side.height()
    assert contact.height() >= window.side.contact.least_px()
    after = (window.timeline.geometry(), window.timeline.cards.geometry(), strip.geometry())
    assert after == before


def test_while_help_is_open_the_bar_says_what_would_move(seat: Seat) -> None:
    seat.press(Qt.Key.Key_F1)
    seat.type("x")
    assert not seat.window.side.if_entered.isVisible()
    assert seat.lines == [line.text for line in LINES]


def test_of_a_long_clash_what_would_fit_is_shown_whole() -> None:
    cause = "; ".join(f"the pin of event number {n}" for n in range(30))
    box = lay_clash(f"clash by 2 min: {cause}. 4:40:40 p.m. or later would fit", Theme(), 400)
    assert " ".join(box.lines).endswith("4:40:40 p.m. or later would fit")
    assert any(line.endswith("…") for line in box.lines)


@pytest.mark.parametrize("room_px", range(60, 400, 17))
def test_no_line_ends_within_a_length_of_time_or_a_clock_time(qtbot: QtBot, room_px: int) -> None:
    del qtbot
    text = "it moves 1 min 18 later, 6 min 00 s ahead of 4:58:05 p.m. on the day"
    lines = wrapped(text, Theme().font(Text.BODY), room_px, 20)
    assert " ".join(lines) == text
    for kept in ("1 min 18", "6 min 00 s", "4:58:05 p.m."):
        assert any(kept in line for line in lines)
