from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.board.model import EntryRow, Preview, Said
from core.session.model import Answer, Taken
from tests.app.desk.seat import CTRL, SHIFT, Seat, seated
from tests.app.views import NOW_MS

Key = Qt.Key


@pytest.fixture
def seat(qtbot: QtBot) -> Iterator[Seat]:
    with seated(qtbot) as taken:
        yield taken


@pytest.fixture
def rehearsal(qtbot: QtBot) -> Iterator[Seat]:
    with seated(qtbot, simulated=True) as taken:
        yield taken


def _row(number: int) -> EntryRow:
    return EntryRow(number, "4:40 p.m.", f"line {number}", "what it meant", "flight", False, True)


# The line


def test_the_line_has_the_keyboard_from_the_start(seat: Seat) -> None:
    assert seat.window.focusWidget() is seat.window.bar.line


def test_each_letter_typed_is_previewed_at_once(seat: Seat) -> None:
    seat.type("ign")
    assert [asked[1] for asked in seat.desk.of("preview")][-3:] == ["i", "ig", "ign"]
    assert seat.headline == "read: ign"


def test_a_preview_is_of_the_instant_of_the_key(seat: Seat) -> None:
    seat.clock.time_ms = NOW_MS + 777
    seat.type("i")
    assert seat.desk.of("preview")[-1][3] == NOW_MS + 777


def test_a_preview_is_renewed_each_second(seat: Seat) -> None:
    seat.type("i")
    before = len(seat.desk.of("preview"))
    seat.pass_time(1)
    assert len(seat.desk.of("preview")) == before + 1


def test_enter_hands_the_line_over_and_empties_it(seat: Seat) -> None:
    seat.type("ign +45s")
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter") == [("enter", "ign +45s", "", NOW_MS + 250, 0, False)]
    assert seat.text == ""
    assert seat.headline == "taken: ign +45s"


def test_the_answer_stands_until_something_is_typed(seat: Seat) -> None:
    seat.type("a")
    seat.press(Key.Key_Return)
    seat.pass_time(1)
    assert seat.headline == "taken: a"
    seat.type("b")
    assert seat.headline == "read: b"


def test_beside_an_empty_line_the_answer_leaves_after_a_while(seat: Seat) -> None:
    seat.type("a")
    seat.press(Key.Key_Return)
    for _ in range(40):
        seat.pass_time(1)
    assert seat.headline == "taken: a"
    for _ in range(10):
        seat.pass_time(1)
    assert seat.headline == ""


def test_what_is_refused_stands_as_long_as_the_line(seat: Seat) -> None:
    seat.desk.answers["x"] = Taken(Answer.REFUSED, "it has happened")
    seat.type("x")
    seat.press(Key.Key_Return)
    for _ in range(60):
        seat.pass_time(1)
    assert seat.headline == "it has happened"


def test_escape_closes_the_day_in_one_press_and_the_answer_goes_along(seat: Seat) -> None:
    seat.type("a")
    seat.press(Key.Key_Return)
    seat.window.show_briefly("Presenter window: hidden.")
    seat.press(Key.Key_F2)
    seat.press(Key.Key_Escape)
    assert not seat.window.side.day_is_open
    assert seat.headline == ""
    assert not seat.window.notices.isVisible()


def test_escape_lets_go_of_the_card_in_one_press_and_the_answer_goes_along(seat: Seat) -> None:
    seat.press(Key.Key_Down)
    seat.type("a")
    seat.press(Key.Key_Return)
    seat.press(Key.Key_Escape)
    assert seat.window.timeline.selected_id == ""
    assert seat.headline == ""


def test_an_empty_line_is_not_entered(seat: Seat) -> None:
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter") == []


def test_what_cannot_be_read_is_said_with_a_hint(seat: Seat) -> None:
    seat.desk.previews["x"] = Preview(error="“x” is nothing here", hint="did you mean photo?")
    seat.type("x")
    assert seat.headline == "“x” is nothing here"
    assert seat.lines == ["did you mean photo?"]


def test_what_is_refused_stands_in_the_line(seat: Seat) -> None:
    seat.desk.answers["x"] = Taken(Answer.REFUSED, "it has happened", "correct the fact")
    seat.type("x")
    seat.press(Key.Key_Return)
    assert seat.text == "x"
    assert seat.headline == "it has happened"
    assert seat.lines == ["correct the fact"]


def test_a_clash_stands_beside_the_line_before_enter(seat: Seat) -> None:
    seat.desk.previews["x"] = Preview(headline="later", clash="no place for the school call")
    seat.type("x")
    assert seat.window.bar.answer.shown.clash == "no place for the school call"
    assert seat.desk.of("enter") == []


def test_escape_clears_the_line(seat: Seat) -> None:
    seat.type("ign +45s")
    seat.press(Key.Key_Escape)
    assert seat.text == ""
    assert seat.headline == ""


# The second Enter


def _ask_about_x(seat: Seat) -> None:
    seat.desk.answers["x"] = Taken(Answer.ASKS, "that is in the past")
    seat.type("x")
    seat.press(Key.Key_Return)


def test_a_question_leaves_line_and_words_standing(seat: Seat) -> None:
    _ask_about_x(seat)
    seat.pass_time(3)
    assert seat.text == "x"
    assert seat.headline == "that is in the past"


def test_a_question_that_has_stood_a_while_says_when_it_was_asked(seat: Seat) -> None:
    seat.desk.answers["x"] = Taken(Answer.ASKS, "too soon", later="too soon, asked at 4:41:12")
    seat.type("x")
    seat.press(Key.Key_Return)
    for _ in range(14):
        seat.pass_time(1)
    assert seat.headline == "too soon"
    seat.pass_time(1)
    assert seat.headline == "too soon, asked at 4:41:12"
    seat.press(Key.Key_Return)
    assert seat.headline == "taken all the same: x"


def test_the_second_enter_confirms(seat: Seat) -> None:
    _ask_about_x(seat)
    seat.pass_time(3)
    seat.press(Key.Key_Return)
    first, second = seat.desk.of("enter")
    assert (first[5], second[5]) == (False, True)
    assert seat.headline == "taken all the same: x"


def test_a_held_enter_is_never_the_second(seat: Seat) -> None:
    _ask_about_x(seat)
    seat.hold_down(Key.Key_Return)
    assert len(seat.desk.of("enter")) == 1


def test_another_line_is_asked_about_anew(seat: Seat) -> None:
    _ask_about_x(seat)
    seat.type("y")
    seat.press(Key.Key_Backspace)
    seat.press(Key.Key_Return)
    assert [asked[5] for asked in seat.desk.of("enter")] == [False, False]


def test_another_card_is_asked_about_anew(seat: Seat) -> None:
    _ask_about_x(seat)
    seat.press(Key.Key_Down)
    seat.press(Key.Key_Return)
    assert [asked[5] for asked in seat.desk.of("enter")] == [False, False]


# Two readings


def _two_readings(seat: Seat) -> None:
    seat.desk.previews["4:58"] = Preview(headline="a time", choices=("a.m.", "p.m."))
    seat.type("4:58")


def test_tab_picks_the_next_reading_and_enter_takes_it(seat: Seat) -> None:
    _two_readings(seat)
    seat.press(Key.Key_Tab)
    assert seat.window.bar.answer.shown.picked == 1
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter")[-1][4] == 1


def test_shift_tab_picks_the_one_before_and_the_line_keeps_the_keyboard(seat: Seat) -> None:
    _two_readings(seat)
    seat.press(Key.Key_Tab)
    seat.press(Key.Key_Backtab, SHIFT)
    assert seat.window.bar.answer.shown.picked == 0
    assert seat.window.focusWidget() is seat.window.bar.line


def test_another_letter_goes_back_to_the_first_reading(seat: Seat) -> None:
    _two_readings(seat)
    seat.press(Key.Key_Tab)
    seat.type("p")
    assert seat.desk.of("preview")[-1][4] == 0


# Undo and redo


def test_ctrl_z_undoes_typing_while_there_is_text(seat: Seat) -> None:
    seat.type("ign")
    seat.press(Key.Key_Z, CTRL)
    assert seat.text == ""
    assert seat.desk.of("undo") == []
    seat.press(Key.Key_Z, CTRL | SHIFT)
    assert seat.text == "ign"


def test_ctrl_z_on_an_empty_line_takes_back_the_last_entry(seat: Seat) -> None:
    seat.press(Key.Key_Z, CTRL, times=2)
    assert len(seat.desk.of("undo")) == 2
    assert seat.headline == "taken back"


def test_what_was_entered_cannot_be_undone_back_into_the_line(seat: Seat) -> None:
    seat.type("ign +45s")
    seat.press(Key.Key_Return)
    seat.press(Key.Key_Z, CTRL)
    assert seat.text == ""
    assert len(seat.desk.of("undo")) == 1


def test_ctrl_shift_z_on_an_empty_line_brings_the_entry_back(seat: Seat) -> None:
    seat.press(Key.Key_Z, CTRL)
    seat.press(Key.Key_Z, CTRL | SHIFT)
    assert len(seat.desk.of("redo")) == 1


def test_a_held_ctrl_z_takes_back_nothing_more(seat: Seat) -> None:
    seat.press(Key.Key_Z, CTRL)
    seat.hold_down(Key.Key_Z, CTRL)
    assert len(seat.desk.of("undo")) == 1


# Cards


def test_arrows_select_cards_and_the_line_is_about_the_selected_one(seat: Seat) -> None:
    seat.press(Key.Key_Down)
    first = seat.window.timeline.selected_id
    seat.press(Key.Key_Down)
    second = seat.window.timeline.selected_id
    assert first
    assert second not in ("", first)
    seat.type("n")
    assert seat.desk.of("preview")[-1][2] == second
    seat.press(Key.Key_Up)
    assert seat.window.timeline.selected_id == first
    assert seat.desk.of("preview")[-1][2] == first


def test_escape_on_an_empty_line_lets_go_of_the_card(seat: Seat) -> None:
    seat.press(Key.Key_Down)
    seat.type("x")
    seat.press(Key.Key_Escape)
    assert seat.window.timeline.selected_id
    seat.press(Key.Key_Escape)
    assert seat.window.timeline.selected_id == ""


def test_home_and_end_move_in_the_text_while_there_is_some(seat: Seat) -> None:
    seat.type("gn")
    seat.press(Key.Key_Home)
    seat.type("i")
    seat.press(Key.Key_End)
    seat.type(" now")
    assert seat.text == "ign now"


def test_ctrl_enter_confirms_all_that_is_due_and_keeps_what_is_typed(seat: Seat) -> None:
    seat.type("half a li")
    seat.press(Key.Key_Return, CTRL)
    assert seat.desk.of("confirm_due") == [("confirm_due", NOW_MS + 250)]
    assert seat.text == "half a li"


# What takes the place of the panels


def test_f1_turns_the_pages_of_the_help_sheet_and_closes_it(seat: Seat) -> None:
    side = seat.window.side
    seat.press(Key.Key_F1)
    assert not side.contact.isVisible()
    for _ in range(len(side.help.pages())):
        assert side.help.isVisible()
        seat.press(Key.Key_F1)
    assert side.contact.isVisible()


def test_shift_f1_turns_a_page_of_the_help_sheet_back(seat: Seat) -> None:
    side = seat.window.side
    seat.press(Key.Key_F1, times=3)
    seat.press(Key.Key_F1, SHIFT)
    assert side.help.page == 1
    seat.press(Key.Key_F1, SHIFT, times=3)
    assert side.help.page == 0
    assert side.help.isVisible()


def test_the_help_sheet_says_what_the_signs_mean(seat: Seat) -> None:
    told = {what for row in seat.window.side.help.rows for what in row.what}
    assert {"Signs", "either", "Arc across the strip", "Outlined box"} <= told


def test_the_help_sheet_stands_beside_the_countdowns(seat: Seat) -> None:
    seat.press(Key.Key_F1)
    sheet = seat.window.side.help
    left = sheet.mapTo(seat.window, sheet.rect().topLeft()).x()
    assert left > seat.window.timeline.geometry().right()


def test_escape_closes_the_help_sheet_after_the_line_is_empty(seat: Seat) -> None:
    seat.press(Key.Key_F1)
    seat.type("x")
    seat.press(Key.Key_Escape)
    assert seat.window.side.help.isVisible()
    seat.press(Key.Key_Escape)
    assert not seat.window.side.help.isVisible()


def test_the_days_entries_open_with_the_newest_on_top(seat: Seat) -> None:
    seat.desk.rows = [_row(1), _row(2), _row(3)]
    seat.press(Key.Key_F2)
    assert seat.window.side.day.isVisible()
    selected = seat.window.side.day.selected
    assert selected is not None
    assert selected.number == 3


def test_any_entry_is_taken_back_and_brought_back_by_keys(seat: Seat) -> None:
    seat.desk.rows = [_row(1), _row(2), _row(3)]
    seat.press(Key.Key_F2)
    seat.press(Key.Key_Down)
    seat.press(Key.Key_Delete)
    assert seat.desk.of("take_back")[-1][1] == 2
    selected = seat.window.side.day.selected
    assert selected is not None
    assert (selected.number, selected.taken_back) == (2, True)
    seat.press(Key.Key_Return)
    assert seat.desk.of("bring_back")[-1][1] == 2
    seat.press(Key.Key_Escape, times=2)
    assert not seat.window.side.day.isVisible()


def test_while_the_list_is_open_a_typed_line_is_still_a_line(seat: Seat) -> None:
    seat.desk.rows = [_row(1)]
    seat.press(Key.Key_F2)
    seat.type("ign now")
    seat.press(Key.Key_Return)
    assert seat.desk.of("enter")[-1][1] == "ign now"
    assert seat.desk.of("bring_back") == []


def test_delete_with_the_list_closed_takes_nothing_back(seat: Seat) -> None:
    seat.desk.rows = [_row(1)]
    seat.press(Key.Key_Delete)
    assert seat.desk.of("take_back") == []


# Looks


def test_f4_turns_between_dark_and_light(seat: Seat) -> None:
    before = seat.window.grab().toImage().pixelColor(5, 5).lightness()
    seat.press(Key.Key_F4)
    after = seat.window.grab().toImage().pixelColor(5, 5).lightness()
    assert before < 60
    assert after > 200


def test_a_line_of_the_programs_own_stands_until_escape(seat: Seat) -> None:
    seat.window.show_line("Something went wrong, and the board goes on.")
    assert seat.window.notices.isVisible()
    seat.press(Key.Key_Escape)
    assert not seat.window.notices.isVisible()


def test_what_a_key_did_to_another_window_is_said_for_half_a_minute(seat: Seat) -> None:
    seat.window.show_briefly("Presenter window: hidden.")
    for _ in range(20):
        seat.pass_time(1)
    assert seat.window.notices.isVisible()
    for _ in range(15):
        seat.pass_time(1)
    assert not seat.window.notices.isVisible()


def test_notices_of_the_board_stand_above_the_bar(seat: Seat) -> None:
    seat.desk.shown = replace(seat.desk.shown, notices=(Said("The clock was set back by 3 s."),))
    seat.pass_time(1)
    notices, bar = seat.window.notices.geometry(), seat.window.bar.geometry()
    assert notices.height() > 0
    assert notices.bottom() < bar.top()


# The simulated clock


def test_f5_stops_a_simulated_clock_and_lets_it_go(rehearsal: Seat) -> None:
    rehearsal.press(Key.Key_F5)
    assert rehearsal.clock.paused
    rehearsal.press(Key.Key_F5)
    assert not rehearsal.clock.paused


def test_what_was_said_of_the_clock_goes_when_a_key_steers_it(rehearsal: Seat) -> None:
    rehearsal.type("clock go")
    rehearsal.press(Key.Key_Return)
    assert rehearsal.headline == "taken: clock go"
    rehearsal.press(Key.Key_F5)
    assert rehearsal.headline == ""


def test_f6_and_f7_go_down_and_up_the_rates(rehearsal: Seat) -> None:
    rehearsal.press(Key.Key_F7, times=4)
    assert rehearsal.clock.rate == 20
    rehearsal.press(Key.Key_F6, times=5)
    assert rehearsal.clock.rate == 0.5
    rehearsal.press(Key.Key_F6, times=9)
    assert rehearsal.clock.rate == 0.1
    rehearsal.press(Key.Key_F7, times=20)
    assert rehearsal.clock.rate == 600


def test_f8_steps_a_second_and_with_shift_a_minute(rehearsal: Seat) -> None:
    before_ms = rehearsal.clock.time_ms
    rehearsal.press(Key.Key_F8)
    rehearsal.press(Key.Key_F8, SHIFT)
    assert rehearsal.clock.time_ms - before_ms == 61_000


def test_f9_asks_the_desk_for_what_the_bar_calls_clock_next(rehearsal: Seat) -> None:
    rehearsal.press(Key.Key_F9)
    assert [asked[1] for asked in rehearsal.desk.of("enter")] == ["clock next"]


def test_f9_leaves_what_is_being_typed(rehearsal: Seat) -> None:
    rehearsal.type("ign")
    rehearsal.press(Key.Key_F9)
    assert rehearsal.window.bar.line.text() == "ign"


def test_a_real_clock_takes_no_such_keys(seat: Seat) -> None:
    for key in (Key.Key_F5, Key.Key_F6, Key.Key_F7, Key.Key_F8, Key.Key_F9):
        seat.press(key)
    assert seat.clock == replace(seat.clock, paused=False, rate=1.0, time_ms=NOW_MS + 250)
    assert not seat.desk.of("enter")


def test_while_it_asks_the_clash_stands(seat: Seat) -> None:
    seat.desk.previews["x"] = Preview(headline="later", clash="no place")
    seat.desk.answers["x"] = Taken(Answer.ASKS, "it clashes")
    seat.type("x")
    seat.press(Key.Key_Return)
    assert seat.headline == "it clashes"
    assert seat.window.bar.answer.shown.clash == "no place"
