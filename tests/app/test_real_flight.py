"""A desk producer's hour on a real arrival at the Moon: Apollo 16, from published times.

The plan beside the tests names each figure's source. Here the window runs on it through the loss,
a late ignition, the silence, both possible returns, and the outcome as it was named.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.board.model import CardState, Figure
from core.signal.model import Fill
from core.times.clocks import SimClock
from tests.app.desk.place import Place, opened
from tests.app.desk.test_real_arrival import (
    APOLLO,
    IGNITION,
    RETURN_WITH,
    RETURN_WITHOUT,
    elapsed,
)

MINUTE_MS = 60_000
LATE_MS = 2 * MINUTE_MS
"""So late is the ignition that is typed here: our own figure."""
SECOND_REVOLUTION = elapsed("76:59:11")
"""NASA Apollo Flight Journal, Apollo 16, Day 4 part 2: the return of the second revolution."""
HIGH_RETURN, LOW_RETURN = elapsed("79:06:46"), elapsed("79:10:25")
"""The same, Day 4 part 3: without and with the descent orbit burn."""


@pytest.fixture
def place(qtbot: QtBot) -> Iterator[Place]:
    assert Path(APOLLO).is_file()
    with opened(qtbot, APOLLO, SimClock(elapsed("74:10:00"), paused=True)) as taken:
        yield taken


def late(place: Place) -> None:
    """Behind the Moon, houston calls ignition two minutes late."""
    place.go_to_ms(elapsed("74:18:00"))
    place.enter("voice lost 2:11:41p per houston", "ignition +2m per houston")


def digits(figure: Figure | None) -> str:
    assert figure is not None
    return " ".join(f"{count} {unit}" for count, unit in figure.parts)


def at(place: Place, card_id: str) -> int | None:
    """Where a card's event is, in sight or not."""
    return next(card.at_ms for card in place.view.cards if card.id == card_id)


def test_ten_minutes_before_the_loss_the_desk_sees_what_comes(place: Place) -> None:
    loss = place.card("loss")
    assert loss.clock == "about 2:12 p.m."  # 74:17:30, give or take half a minute
    assert loss.note.text == "then out of contact 25 min or 33 min"
    assert place.card("ignition").clock == "2:22:27 p.m."
    voice = place.view.contact.lanes[0]
    assert (digits(voice.figure), voice.word) == ("7 min 30 s", "left")
    assert voice.then == "then behind the Moon for 25 min or 33 min"


def test_the_loss_is_typed_as_it_is_heard_and_happened_on_card_and_strip(place: Place) -> None:
    place.go_to_ms(elapsed("74:18:00"))
    place.enter("voice lost 2:11:41p per houston")
    loss = next(card for card in place.view.cards if card.id == "loss")
    assert (loss.state, loss.at_ms) == (CardState.HAPPENED, elapsed("74:17:41"))
    assert loss.note.text == "11 s later"
    assert place.fill_at("voice", elapsed("74:17:40")) is Fill.CONTACT
    assert place.fill_at("voice", elapsed("74:17:42")) is Fill.GAP


def test_while_the_late_ignition_is_typed_the_preview_says_what_would_move(place: Place) -> None:
    place.go_to_ms(elapsed("74:18:00"))
    place.enter("voice lost 2:11:41p per houston")
    place.type("ignition +2m per houston")
    shown = place.window.bar.answer.shown
    assert shown.headline == (
        "Lunar orbit insertion, ignition:  2:22:27 p.m. → 2:24:27 p.m.   2 min later"
    )
    text = place.window.bar.line.text()
    preview = place.desk.preview(text, "", place.clock.now_ms())
    (line,) = [line.text for line in preview.lines]
    assert line.startswith("Lunar orbit insertion, cutoff; Descent orbit burn, ignition;")
    assert line.endswith(" follow, 2 min later")
    ghosts = dict(preview.ghosts)
    assert ghosts["return"] == RETURN_WITH + LATE_MS
    assert "return-none" not in ghosts
    assert place.card("ignition").at_ms == IGNITION


def test_after_it_only_the_return_of_the_burn_has_moved_and_its_later_rows_with_it(
    place: Place,
) -> None:
    late(place)
    assert place.card("return-none").at_ms == RETURN_WITHOUT
    assert place.card("return").at_ms == RETURN_WITH + LATE_MS
    assert at(place, "rev-2-return") == SECOND_REVOLUTION + LATE_MS
    assert at(place, "high-return") == HIGH_RETURN + LATE_MS
    assert at(place, "low-return") == LOW_RETURN + LATE_MS
    for card_id in ("ignition", "return-none", "return"):
        at_ms = place.card(card_id).at_ms
        assert at_ms is not None
        assert place.thread_of(card_id) == pytest.approx(place.strip.y_of(at_ms), abs=1)
    assert place.fill_at("voice", RETURN_WITHOUT - 1) is Fill.GAP
    assert place.fill_at("voice", RETURN_WITHOUT) is Fill.EITHER
    assert place.fill_at("voice", RETURN_WITH + LATE_MS - 1) is Fill.EITHER
    assert place.fill_at("voice", RETURN_WITH + LATE_MS) is Fill.CONTACT


def test_cards_say_what_binds_them_and_how_they_run_against_the_flight_plan(place: Place) -> None:
    late(place)
    assert place.card("ignition").reason == "the time that was typed"
    assert place.card("cutoff").reason == "tied to Lunar orbit insertion, ignition"
    assert place.card("return-none").change.text == "as planned"
    assert place.card("return").change.text == ""  # it is as said for all
    assert "run 2 min later than the flight plan." in place.view.summary.text


def test_in_the_silence_the_burn_is_out_of_sight_with_both_first_words(place: Place) -> None:
    late(place)
    place.go_to_ms(elapsed("74:37:00"))
    for card_id in ("ignition", "cutoff"):
        card = place.card(card_id)
        assert (card.state, card.lead) == (CardState.OUT_OF_SIGHT, "out of sight")
        assert card.note.text == "first word 2:37 or 2:47 p.m."
    assert place.view.due is None
    assert place.window.timeline.cards.big_id == "return-none"
    voice = place.view.contact.lanes[0]
    assert (digits(voice.figure), voice.word) == ("5 min 08 s", "until back, or 15 min 05 s")


def test_at_the_early_return_nothing_is_declared_only_not_heard(place: Place) -> None:
    late(place)
    place.go_to_ms(elapsed("74:43:00"))
    none = next(card for card in place.view.cards if card.id == "return-none")
    assert (none.state, none.lead) == (CardState.DUE, "not heard by 2:36:08 p.m.")
    assert place.view.due is None  # nobody can confirm it by the one key
    assert place.card("ignition").note.text == "first word 2:37 or 2:47 p.m."
    assert place.window.timeline.cards.big_id == "return-none"  # one stays on the air for it
    place.go_to_ms(elapsed("74:44:00"))
    assert place.window.timeline.cards.big_id == "return"


def test_the_outcome_named_drops_the_other_return_and_undo_brings_it_back(place: Place) -> None:
    late(place)
    place.go_to_ms(elapsed("74:52:20"))
    place.enter("voice back now", "burned per houston")
    view = place.view
    assert "return-none" not in {card.id for card in view.cards}
    assert view.last_change is not None
    assert view.last_change.source == "houston"
    back = next(card for card in view.cards if card.id == "return")
    assert (back.state, back.at_ms) == (CardState.HAPPENED, elapsed("74:52:20"))
    assert at(place, "rev-2-return") == SECOND_REVOLUTION + LATE_MS + 15_000
    assert place.fill_at("voice", RETURN_WITHOUT + MINUTE_MS) is Fill.GAP
    assert place.view.due is not None
    assert place.view.due.ids == ("ignition", "cutoff")
    place.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert "return-none" in {card.id for card in place.view.cards}
    assert place.fill_at("voice", RETURN_WITHOUT + MINUTE_MS) is Fill.EITHER
