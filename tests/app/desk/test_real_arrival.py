"""The board on a real arrival at the Moon: Apollo 16, from its published times (see the plan).

The flight goes out of contact, and the desk is told that ignition was late. The return without a
burn does not move: the approach goes on by itself. The return with it moves as its table does.
"""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.board.model import CardState
from core.signal.model import Fill
from core.times.clocks import SimClock
from tests.app.desk.place import Place, opened

APOLLO = Path(__file__).parents[2] / "plans" / "apollo16-arrival.toml"
LIFTOFF_MS = round(datetime(1972, 4, 16, 17, 54, tzinfo=UTC).timestamp() * 1000)  # from memory


def elapsed(text: str) -> int:
    """An instant by its ground elapsed time, as the flight journal has it."""
    hours, minutes, seconds = (int(part) for part in text.split(":"))
    return LIFTOFF_MS + (hours * 3600 + minutes * 60 + seconds) * 1000


# NASA Apollo Flight Journal, Apollo 16, Day 4 part 2: ignition, and the two returns.
IGNITION = elapsed("74:28:27")
RETURN_WITH = elapsed("74:50:05")
RETURN_WITHOUT = elapsed("74:42:08")
LATE_MS = 75_000
"""So late is the ignition that is typed here: our own figure."""


@pytest.fixture
def place(qtbot: QtBot) -> Iterator[Place]:
    with opened(qtbot, APOLLO, SimClock(elapsed("74:10:00"), paused=True)) as taken:
        yield taken


def test_before_the_loss_both_returns_are_on_the_board_as_published(place: Place) -> None:
    assert place.window.timeline.cards.big_id == "loss"
    assert place.card("return-none").at_ms == RETURN_WITHOUT
    assert place.card("return").at_ms == RETURN_WITH
    assert place.card("return").pair == place.card("return-none").pair != ""
    assert place.fill_at("voice", elapsed("74:30:00")) is Fill.GAP
    assert place.fill_at("voice", elapsed("74:45:00")) is Fill.EITHER
    assert place.fill_at("voice", elapsed("74:55:00")) is Fill.CONTACT


def test_a_late_ignition_moves_the_return_with_the_burn_and_not_the_other(place: Place) -> None:
    place.go_to_ms(elapsed("74:20:00"))
    place.type("ignition +1:15 per houston")
    ghosts = dict(place.desk.preview("ignition +1:15 per houston", "", elapsed("74:20:00")).ghosts)
    assert ghosts["return"] == RETURN_WITH + LATE_MS
    assert "return-none" not in ghosts
    place.press(Qt.Key.Key_Return)
    assert place.card("ignition").at_ms == IGNITION + LATE_MS
    assert place.card("cutoff").at_ms == elapsed("74:34:41") + LATE_MS
    assert place.card("return").at_ms == RETURN_WITH + LATE_MS
    assert place.card("return-none").at_ms == RETURN_WITHOUT


def test_cards_threads_and_strip_agree_on_every_instant(place: Place) -> None:
    place.go_to_ms(elapsed("74:20:00"))
    place.enter("ignition +1:15 per houston")
    for card_id in ("ignition", "return-none", "return"):
        at_ms = place.card(card_id).at_ms
        assert at_ms is not None
        assert place.thread_of(card_id) == pytest.approx(place.strip.y_of(at_ms), abs=1)
    between = (RETURN_WITH, RETURN_WITH + LATE_MS)
    assert place.fill_at("voice", between[0] + 1000) is Fill.EITHER
    assert place.fill_at("voice", between[1] + 1000) is Fill.CONTACT
    gap = place.colours_at(0, elapsed("74:25:00"), elapsed("74:40:00"))
    either = place.colours_at(0, RETURN_WITHOUT, between[0])
    assert gap != either


def test_what_moved_is_explained_and_who_said_it(place: Place) -> None:
    place.go_to_ms(elapsed("74:20:00"))
    place.enter("ignition +1:15 per houston")
    change = place.view.last_change
    assert change is not None
    assert change.source == "houston"
    assert "ignition" in change.headline
    assert "1 min 15 later" in change.headline
    assert [value.text for text, value in change.rows if "follow" in text] == ["1 min 15 later"]
    place.window.timeline.select("return")
    assert place.card("return").reason in place.written_on("return")
    assert "1 min 15 later" in place.view.summary.text


def test_behind_the_moon_the_burn_is_out_of_sight_until_a_return(place: Place) -> None:
    place.enter("ignition +1:15 per houston")
    place.go_to_ms(elapsed("74:36:30"))
    states = {card.id: card.state for card in place.view.cards}
    assert states["ignition"] is CardState.OUT_OF_SIGHT
    assert states["cutoff"] is CardState.OUT_OF_SIGHT
    place.go_to_ms(elapsed("74:51:40"))
    place.enter("burned per houston")
    assert "return-none" not in {card.id for card in place.view.cards}
