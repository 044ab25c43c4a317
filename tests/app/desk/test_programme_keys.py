"""Items of the air and what is said, by keys and mouse, typed into the real window."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.desk.keys import KEYS, Part
from app.strip.widget import StripView
from core.board.model import Preview
from core.board.programme import FactLine, ToSay
from core.session.model import Answer, Taken
from tests.app.air_views import (
    CORRECTION,
    LINE,
    LONG,
    TWENTY,
    ahead_ms,
    correction,
    programme_view,
)
from tests.app.desk.seat import CTRL, SHIFT, Seat, seated
from tests.app.views import arrival_view

Key = Qt.Key
TEN_S_MS, MINUTE_MS = 10_000, 60_000


@pytest.fixture
def seat(qtbot: QtBot) -> Iterator[Seat]:
    with seated(qtbot, programme_view()) as taken:
        yield taken


def strip_of(seat: Seat) -> StripView:
    assert seat.window.timeline.strip is not None
    return seat.window.timeline.strip


def selected(seat: Seat) -> str:
    return seat.window.programme.airing.selected


# The keys themselves


@pytest.mark.usefixtures("qapp")
def test_no_key_of_the_programme_is_one_that_edits_a_line() -> None:
    edits = {
        binding.toString(QKeySequence.SequenceFormat.PortableText)
        for name, standard in QKeySequence.StandardKey.__members__.items()
        if name.startswith(("Move", "Select", "Delete", "Copy", "Cut", "Paste", "Insert"))
        and not any(word in name for word in ("Page", "Document", "Line", "Block"))
        for binding in QKeySequence.keyBindings(standard)
    }
    on_air = {text for key in KEYS if key.part is Part.AIR for text in key.keys}
    assert on_air
    assert not on_air & edits


def test_the_help_sheet_lists_the_keys_of_the_programme(seat: Seat) -> None:
    rows = [" ".join(row.what) for row in seat.window.side.help.rows]
    assert "Keys: On the air" in rows
    assert {"Ctrl+S", "Ctrl+P", "Shift+Up", "Ctrl+Shift+C"} <= set(rows)


# Items


def test_keys_go_through_the_items_still_to_come(seat: Seat) -> None:
    seen = []
    for _ in range(6):
        seat.press(Key.Key_Down, CTRL)
        seen.append(selected(seat))
    assert seen == ["break-3", "tape-1", "remote-1", "break-4", "break-5", "break-5"]
    seat.press(Key.Key_Up, CTRL)
    assert selected(seat) == "break-4"


def test_an_item_that_is_selected_comes_onto_the_strip(seat: Seat) -> None:
    seat.press(Key.Key_F3)  # two hours
    seat.press(Key.Key_Down, CTRL, times=5)
    strip = strip_of(seat)
    top_px, bottom_px = strip.span_px
    assert selected(seat) == "break-5"
    assert top_px <= strip.y_of(ahead_ms(140)) <= bottom_px


def test_a_nudge_writes_where_the_item_goes_and_shows_what_it_would_do(seat: Seat) -> None:
    seat.press(Key.Key_Down, CTRL)
    seat.press(Key.Key_Down, SHIFT)
    line = f"break-3 at {ahead_ms(1.5) + TEN_S_MS}"
    assert seat.text == line
    assert seat.headline == f"read: {line}"
    assert not seat.desk.of("enter")


def test_nudges_add_up_and_enter_takes_them(seat: Seat) -> None:
    seat.press(Key.Key_Down, CTRL)
    seat.press(Key.Key_Down, SHIFT, times=2)
    seat.press(Key.Key_PageDown, SHIFT)
    seat.press(Key.Key_Up, SHIFT)
    seat.press(Key.Key_PageUp, SHIFT)
    line = f"break-3 at {ahead_ms(1.5) + TEN_S_MS}"
    assert seat.text == line
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter")[-1][1] == line
    assert seat.text == ""


def test_a_held_key_nudges_on(seat: Seat) -> None:
    seat.press(Key.Key_Down, CTRL)
    seat.hold_down(Key.Key_Down, SHIFT)
    assert seat.text == f"break-3 at {ahead_ms(1.5) + 3 * TEN_S_MS}"


def test_escape_leaves_the_item_where_it_was(seat: Seat) -> None:
    seat.press(Key.Key_Down, CTRL)
    seat.press(Key.Key_Down, SHIFT, times=3)
    seat.press(Key.Key_Escape)
    assert seat.text == ""
    assert selected(seat) == "break-3"
    seat.press(Key.Key_Down, SHIFT)
    assert seat.text == f"break-3 at {ahead_ms(1.5) + TEN_S_MS}"
    seat.press(Key.Key_Escape, times=2)
    assert selected(seat) == ""


def test_what_was_being_typed_comes_back_with_ctrl_z(seat: Seat) -> None:
    seat.press(Key.Key_Down, CTRL)
    seat.type("ign +45")
    seat.press(Key.Key_Down, SHIFT)
    assert seat.text.startswith("break-3 at")
    seat.press(Key.Key_Z, CTRL)
    assert seat.text == "ign +45"


def test_an_item_that_has_begun_is_not_nudged(seat: Seat) -> None:
    lane = seat.desk.shown.air
    boxes = tuple(
        replace(box, state=box.state.ON_AIR) if box.item == "break-3" else box for box in lane.boxes
    )
    seat.desk.shown = replace(seat.desk.shown, air=replace(lane, boxes=boxes))
    seat.pass_time(1)
    seat.press(Key.Key_Down, CTRL)
    assert selected(seat) == "break-3"
    seat.press(Key.Key_Down, SHIFT)
    assert seat.text == ""


def test_an_item_that_is_gone_is_let_go_of(seat: Seat) -> None:
    seat.press(Key.Key_Down, CTRL)
    lane = seat.desk.shown.air
    left = tuple(box for box in lane.boxes if box.item != "break-3")
    seat.desk.shown = replace(seat.desk.shown, air=replace(lane, boxes=left))
    seat.pass_time(1)
    assert selected(seat) == ""


def test_place_stands_in_the_line_with_its_preview_and_waits_for_enter(seat: Seat) -> None:
    seat.desk.previews["place"] = Preview(headline="Break 3 at 4:43, break 4 at 5:44")
    seat.press(Key.Key_P, CTRL)
    assert (seat.text, seat.headline) == ("place", "Break 3 at 4:43, break 4 at 5:44")
    assert not seat.desk.of("enter")
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter")[-1][1] == "place"


# The mouse


def _at(seat: Seat, minutes: float) -> QPoint:
    strip = strip_of(seat)
    assert strip.frame is not None
    assert strip.frame.across.air is not None
    left_px, width_px = strip.frame.across.air
    return QPoint(round(left_px + width_px / 2), round(strip.y_of(ahead_ms(minutes))))


def _drag(seat: Seat, from_min: float, to_min: float, *, let_go: bool = True) -> None:
    view = strip_of(seat).viewport()
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=_at(seat, from_min))
    QTest.mouseMove(view, _at(seat, (from_min + to_min) / 2))
    QTest.mouseMove(view, _at(seat, to_min))
    if let_go:
        QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=_at(seat, to_min))


def _written_ms(text: str) -> int:
    return int(text.rpartition(" ")[2])


def test_a_box_is_carried_along_the_strip_and_entered_where_it_is_let_go(seat: Seat) -> None:
    _drag(seat, 10, 30)
    entered = str(seat.desk.of("enter")[-1][1])
    assert entered.startswith("tape-1 at ")
    # It was held one minute below its beginning: a pixel is some seconds there.
    near_ms = abs(_written_ms(entered) - ahead_ms(29))
    assert near_ms < 90_000
    assert seat.text == ""


def test_while_it_is_carried_the_bar_shows_the_line_and_its_preview(seat: Seat) -> None:
    _drag(seat, 10, 30, let_go=False)
    assert seat.text.startswith("tape-1 at ")
    assert seat.headline == f"read: {seat.text}"
    assert not seat.desk.of("enter")
    held = strip_of(seat)._air.held
    assert [item for item, _ in held.carried] == ["tape-1"]
    seat.pass_time(1)
    assert strip_of(seat)._air.held == held


def test_what_asks_stays_in_the_line_for_a_second_enter(seat: Seat) -> None:
    _drag(seat, 10, 30, let_go=False)
    line = seat.text
    seat.desk.answers[line] = Taken(Answer.ASKS, "it lies across the junction")
    QTest.mouseRelease(strip_of(seat).viewport(), Qt.MouseButton.LeftButton, pos=_at(seat, 30))
    assert (seat.text, seat.headline) == (line, "it lies across the junction")
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter")[-1][5] is True
    assert seat.text == ""


def test_escape_while_it_is_carried_puts_it_back(seat: Seat) -> None:
    _drag(seat, 10, 30, let_go=False)
    seat.press(Key.Key_Escape)
    assert seat.text == ""
    QTest.mouseRelease(strip_of(seat).viewport(), Qt.MouseButton.LeftButton, pos=_at(seat, 30))
    assert not seat.desk.of("enter")


def test_a_click_selects_an_item_and_moves_nothing(seat: Seat) -> None:
    QTest.mouseClick(strip_of(seat).viewport(), Qt.MouseButton.LeftButton, pos=_at(seat, 17))
    assert selected(seat) == "remote-1"
    assert seat.text == ""
    assert not seat.desk.of("enter")


def test_an_item_that_has_run_cannot_be_carried(seat: Seat) -> None:
    _drag(seat, -3, 20)
    assert seat.text == ""
    assert not seat.desk.of("enter")


def test_the_line_keeps_the_keyboard_after_the_mouse(seat: Seat) -> None:
    _drag(seat, 10, 30)
    assert seat.window.focusWidget() is seat.window.bar.line


# What is said


def test_one_key_says_that_the_sentence_was_said_and_leaves_what_is_typed(seat: Seat) -> None:
    seat.type("half a li")
    seat.press(Key.Key_S, CTRL)
    assert [asked[1] for asked in seat.desk.of("enter")] == ["said"]
    assert seat.text == "half a li"
    seat.hold_down(Key.Key_S, CTRL)
    assert len(seat.desk.of("enter")) == 1


def test_where_there_is_nothing_to_say_nothing_was_said(qtbot: QtBot) -> None:
    with seated(qtbot, arrival_view()) as seat:
        seat.press(Key.Key_S, CTRL)
        assert not seat.desk.of("enter")
        assert seat.headline == "There is nothing to say now"


@pytest.mark.parametrize(("presses", "spoken"), [(0, TWENTY), (1, LONG), (2, LINE), (3, TWENTY)])
def test_the_sentence_is_copied_at_the_length_that_is_shown(
    qtbot: QtBot, presses: int, spoken: str
) -> None:
    with seated(qtbot, replace(programme_view(), last_change=None), size=(3840, 2160)) as seat:
        seat.press(Key.Key_L, CTRL, times=presses)
        seat.press(Key.Key_C, CTRL | SHIFT)
        assert seat.window.side.to_say.spoken == spoken
        assert QGuiApplication.clipboard().text() == spoken


def test_a_correction_that_is_owed_is_said_and_copied_first(seat: Seat) -> None:
    told = seat.desk.shown.to_say
    assert told is not None
    seat.desk.shown = replace(seat.desk.shown, to_say=replace(told, owed=(correction(),)))
    seat.pass_time(1)
    seat.press(Key.Key_C, CTRL | SHIFT)
    assert QGuiApplication.clipboard().text() == CORRECTION


def test_ctrl_c_still_copies_from_the_line(seat: Seat) -> None:
    seat.type("ign +45s")
    seat.press(Key.Key_A, CTRL)
    seat.press(Key.Key_C, CTRL)
    assert QGuiApplication.clipboard().text() == "ign +45s"


def test_one_key_asks_for_a_grave_board_and_enter_confirms(seat: Seat) -> None:
    seat.desk.answers["grave"] = Taken(Answer.ASKS, "Enter once more")
    seat.press(Key.Key_G, CTRL)
    assert (seat.text, seat.headline) == ("grave", "Enter once more")
    seat.press(Key.Key_Return)
    assert [asked[5] for asked in seat.desk.of("enter")] == [False, True]


def test_the_same_key_asks_to_leave_it(seat: Seat) -> None:
    seat.desk.shown = replace(seat.desk.shown, to_say=ToSay(grave=True))
    seat.pass_time(1)
    seat.desk.answers["grave over"] = Taken(Answer.ASKS, "Enter once more")
    seat.press(Key.Key_G, CTRL)
    assert seat.text == "grave over"


# Check-offs and facts


def test_one_more_is_counted_on_the_selected_card(seat: Seat) -> None:
    seat.desk.counted["loss"] = "clamps +1"
    seat.window.timeline.select("loss")
    seat.press(Key.Key_O, CTRL, times=2)
    assert [asked[1] for asked in seat.desk.of("enter")] == ["clamps +1", "clamps +1"]


def test_without_a_check_off_the_key_says_what_it_needs(seat: Seat) -> None:
    seat.press(Key.Key_O, CTRL)
    assert not seat.desk.of("enter")
    assert seat.headline == "Select a card that has a check-off"


def asking(seat: Seat, *facts: FactLine) -> list[tuple[str, int]]:
    """Give what will be asked for, with those facts on the second card, and that selected."""
    asked: list[tuple[str, int]] = []
    seat.window.facts_asked.connect(lambda event, fact: asked.append((event, fact)))
    cards = tuple(
        replace(card, facts=facts if card.id == "loss" else ()) for card in seat.desk.shown.cards
    )
    seat.desk.shown = replace(seat.desk.shown, cards=cards)
    seat.pass_time(1)
    seat.window.timeline.select("loss")
    return asked


def test_facts_go_to_the_presenter_and_away_again(seat: Seat) -> None:
    asked = asking(seat, FactLine("", held="A fact is held"), FactLine("One engine."))
    seat.window.timeline.select("")
    seat.press(Key.Key_F, CTRL)
    assert asked == []
    seat.window.timeline.select("loss")
    seat.press(Key.Key_F, CTRL)
    name = seat.window.timeline.selected_card.name if seat.window.timeline.selected_card else ""
    assert seat.headline == f"A fact of {name} is shown to the presenter"
    assert seat.lines == ["“One engine.”"]  # and which
    seat.press(Key.Key_F, CTRL)
    assert seat.headline == "The presenter is shown no fact"
    seat.press(Key.Key_F, CTRL)
    seat.window.timeline.select("")
    seat.press(Key.Key_F, CTRL)
    assert asked == [("loss", 1), ("", 0), ("loss", 1), ("", 0)]


def test_the_same_key_goes_on_to_the_next_fact_and_after_the_last_to_none(seat: Seat) -> None:
    held = FactLine("", held="A fact is held")
    asked = asking(seat, FactLine("One."), held, FactLine("Two."))
    said = []
    for _ in range(3):
        seat.press(Key.Key_F, CTRL)
        said.append((seat.headline.partition(",")[0], *seat.lines))
    assert asked == [("loss", 0), ("loss", 2), ("", 0)]
    assert said == [
        ("Fact 1 of 2", "“One.”"),
        ("Fact 2 of 2", "“Two.”"),
        ("The presenter is shown no fact",),
    ]


def test_a_card_without_a_fact_that_may_be_told_takes_the_one_shown_away(seat: Seat) -> None:
    asked = asking(seat, FactLine("One."))
    seat.press(Key.Key_F, CTRL)
    seat.window.timeline.select("ignition")
    seat.press(Key.Key_F, CTRL)
    assert asked == [("loss", 0), ("", 0)]
    assert seat.headline.startswith("There is no fact of ")
    seat.press(Key.Key_F, CTRL)
    assert asked == [("loss", 0), ("", 0)]
