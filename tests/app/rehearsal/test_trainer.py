"""The trainer's window and the desk's in one rehearsal, by keys."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.rehearsal.keys import KEYS, NOT_HELD, Ask
from core.board.model import Tone
from core.rehearsal.model import Moves, Surprise, Surprises, When, Words
from tests.app.looking import pixels
from tests.app.rehearsal.room import CTRL, SHIFT, Room, opened
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day, small

Key = Qt.Key
LATE = Surprise("late", When(at_ms("16:45")), Moves("ignition", 180_000), source="flight")
SOON = Surprise("soon", When(at_ms("16:50")), Words(), text="Something else.")


def short(*surprises: Surprise) -> Surprises:
    return day(*(surprises or (LATE, SOON)), begin="16:41", end="17:00")


@pytest.fixture
def room(qtbot: QtBot, tmp_path: Path) -> Iterator[Room]:
    with opened(qtbot, tmp_path, short(), small()) as made:
        yield made


def test_the_desk_sees_a_report_only_as_it_comes_and_until_it_is_entered(room: Room) -> None:
    assert room.quiet == "Nothing reported yet"
    room.go_on(239)
    assert room.quiet == "Nothing reported yet"
    room.go_on(1)
    assert room.quiet == "Reported 4:45:00 p.m. – flight: Burn, ignition: 3 min later."
    room.go_on(20)
    room.type_at_desk("ignition +3m per flight")
    assert room.quiet.startswith("Reported 4:45:00 p.m., entered")
    assert room.row("3 min later").stands.text == "right, after 20 s"


def test_the_quiet_line_covers_nothing_and_moves_nothing_when_a_report_comes(room: Room) -> None:
    before = room.desk.timeline.geometry(), room.desk.notices.geometry()
    room.go_on(240)
    assert (room.desk.timeline.geometry(), room.desk.notices.geometry()) == before
    assert room.desk.notices.isVisible()
    assert not room.desk.notices.geometry().intersects(room.desk.timeline.geometry())


def test_a_key_shows_the_last_reports_beside_the_countdowns(room: Room) -> None:
    room.go_on(240)
    room.press_at_desk(Key.Key_F10)
    assert room.desk.side.reports.isVisible()
    assert "4:45:00 p.m., flight: Burn" in room.desk.side.reports.accessibleDescription()
    pixels(room.desk.side.reports)
    room.press_at_desk(Key.Key_F10)
    assert not room.desk.side.reports.isVisible()
    room.press_at_desk(Key.Key_F10)
    room.press_at_desk(Key.Key_Escape)
    assert not room.desk.side.reports.isVisible()


def test_a_report_is_seen_when_a_key_is_pressed_at_the_desk(room: Room) -> None:
    room.go_on(245)
    assert [heard.seen_ms for heard in room.run.record.heard] == [None]
    room.press_at_desk(Key.Key_F10)
    assert [heard.seen_ms for heard in room.run.record.heard] == [at_ms("16:45:05")]


def test_a_surprise_is_sprung_at_the_second_enter(room: Room) -> None:
    room.go_on(30)
    room.select("3 min later")
    room.press(Key.Key_Return)
    assert room.said == "Enter once more springs it now"
    assert room.quiet == "Nothing reported yet"
    room.press(Key.Key_Return)
    assert room.quiet == "Reported 4:41:30 p.m. – flight: Burn, ignition: 3 min later."
    assert room.said.startswith("Sprung: flight")
    assert room.trainer.selected is None


def test_a_question_falls_when_another_row_is_selected(room: Room) -> None:
    room.select("3 min later")
    room.press(Key.Key_Return)
    room.press(Key.Key_Down)
    assert room.said == ""
    room.press(Key.Key_Up)
    room.press(Key.Key_Return)
    assert room.said == "Enter once more springs it now"


def test_one_is_added_word_for_word_with_tab_and_arrows(room: Room) -> None:
    line = room.trainer.bar.line
    QTest.keyClicks(line, "re")
    assert room.trainer.below.chosen == "report"
    room.press(Key.Key_Tab)
    assert line.text() == "report "
    while room.trainer.below.chosen != "ignition":
        room.press(Key.Key_Down)
    room.press(Key.Key_Tab)
    room.press(Key.Key_Tab)
    QTest.keyClicks(line, "2m")
    assert line.text() == "report ignition late 2m"
    pixels(room.trainer)
    room.press(Key.Key_Return)
    assert line.text() == ""
    assert room.said == "Added: Burn, ignition: 2 min later"
    assert room.quiet == "Reported 4:41:00 p.m. – Burn, ignition: 2 min later."
    assert [each.what for each in room.run.day.surprises][-1] == Moves("ignition", 120_000)


def test_what_cannot_be_added_says_why_and_stays_in_the_line(room: Room) -> None:
    QTest.keyClicks(room.trainer.bar.line, "report nowhere late 2m")
    room.press(Key.Key_Return)
    assert room.trainer.bar.said.tone is Tone.CLASH
    assert "nowhere" in room.said
    assert room.trainer.bar.line.text() == "report nowhere late 2m"
    room.press(Key.Key_Escape)
    assert (room.trainer.bar.line.text(), room.said) == ("", "")


def test_one_goes_back_to_before_a_report_and_the_clock_stands(room: Room) -> None:
    room.go_on(240)
    room.type_at_desk("ignition +4m per flight")
    room.go_on(60)
    room.select("3 min later")
    room.press(Key.Key_Return)
    assert room.said == (
        "Enter once more goes back to 4:44:59 p.m.; 1 entry since is kept as an earlier attempt"
    )
    room.press(Key.Key_Return)
    assert room.clock.paused
    assert room.said == "Back at 4:44:59 p.m.; the clock stands, F5 lets it go"
    assert room.quiet == "Nothing reported yet"
    assert room.desk.header.accessibleName().startswith("Wednesday, 4:44:59")
    assert room.trainer.header.accessibleName() == room.desk.header.accessibleName()
    assert room.row("3 min later").surprise == "late"
    room.press(Key.Key_F5)
    room.go_on(1)
    room.type_at_desk("ignition +3m per flight")
    assert room.row("3 min later").stands.text.startswith("right")


def test_a_mark_is_named_as_the_line_says(room: Room) -> None:
    QTest.keyClicks(room.trainer.bar.line, "before the burn")
    room.press(Key.Key_M, CTRL)
    assert room.said == "Marked: before the burn, 4:41:00 p.m."
    assert room.row("before the burn").mark is not None
    room.press(Key.Key_M, CTRL)
    assert room.row("Mark 3").mark is not None


def test_the_trainers_keys_turn_the_clock(room: Room) -> None:
    room.press(Key.Key_F5)
    assert room.clock.paused
    assert "paused" in room.trainer.frame.accessibleName()
    assert "paused" in room.desk.frame.accessibleName()
    room.press(Key.Key_F7)
    assert room.clock.rate == 2
    room.press(Key.Key_F6, times=2)
    assert room.clock.rate == 0.5
    room.press(Key.Key_F8)
    room.press(Key.Key_F8, SHIFT)
    assert room.clock.now_ms() == at_ms("16:42:01")
    room.press(Key.Key_F9)
    assert room.clock.now_ms() == at_ms("16:44:55")
    room.press(Key.Key_F9)
    assert room.clock.now_ms() == at_ms("16:45")
    room.press(Key.Key_F9)
    assert room.clock.now_ms() == at_ms("16:47:55")  # the picture goes at 4:48
    assert "flight: Burn" in room.quiet


def test_at_its_end_the_clock_stands_and_the_page_is_written_once(room: Room) -> None:
    room.on_to(at_ms("17:00"), 20)
    assert room.pages == ["written"]
    assert room.clock.paused
    assert room.said == "The rehearsal stands. The score page is there"
    room.press(Key.Key_Escape)
    room.go_on(5)
    assert room.pages == ["written"]


def test_one_may_end_it_before_and_go_on_all_the_same(room: Room) -> None:
    room.go_on(60)
    room.press(Key.Key_E, CTRL)
    assert room.pages == ["written"]
    room.press(Key.Key_F5)
    assert not room.clock.paused


def test_closing_asks_once_because_it_ends_the_rehearsal(room: Room) -> None:
    room.trainer.close()
    assert room.trainer.isVisible()
    assert "Closing ends the rehearsal" in room.said
    room.desk.closing.end_session()  # nothing is kept here: it would ask for that
    room.trainer.close()
    assert not room.trainer.isVisible()
    assert not room.desk.isVisible()
    assert not room.desk.ends_rehearsal()


def test_closing_the_desks_window_asks_once_too_and_the_line_stays(room: Room) -> None:
    QTest.keyClicks(room.desk.bar.line, "ign +3")
    room.desk.close()
    assert room.desk.isVisible()
    assert room.trainer.isVisible()
    assert "Closing ends the rehearsal" in room.desk.bar.answer.shown.spoken()
    assert room.desk.bar.line.text() == "ign +3"
    room.desk.close()
    assert not room.desk.isVisible()
    assert not room.trainer.isVisible()


def test_at_the_desk_neither_keys_nor_lines_steer_the_clock(room: Room) -> None:
    before_ms, paused = room.clock.now_ms(), room.clock.paused
    held = "The trainer has the clock"
    for key in (Key.Key_F5, Key.Key_F7, Key.Key_F8, Key.Key_F9):
        room.press_at_desk(Key.Key_Escape)
        room.press_at_desk(key)
        assert held in room.desk.bar.answer.shown.spoken()
    room.press_at_desk(Key.Key_Escape)
    QTest.keyClicks(room.desk.bar.line, "clock 18:18:40")
    assert held in room.desk.bar.answer.shown.spoken()
    room.press_at_desk(Key.Key_Return)
    assert held in room.desk.bar.answer.shown.spoken()
    assert (room.clock.now_ms(), room.clock.paused, room.clock.rate) == (before_ms, paused, 1)
    room.press(Key.Key_F8)
    assert room.clock.now_ms() == before_ms + 1_000
    helped = " ".join(str(each) for each in room.desk.side.help.rows)
    assert "one second on" not in helped
    assert "trainer" in helped


def test_once_the_rehearsal_has_ended_closing_the_desks_window_ends_nothing_more(
    room: Room,
) -> None:
    assert room.desk.ends_rehearsal()
    room.press(Key.Key_E, CTRL)
    assert not room.desk.ends_rehearsal()


@pytest.mark.qt_log_ignore("This plugin does not support raise")
def test_ctrl_t_goes_from_one_window_to_the_other(room: Room, qtbot: QtBot) -> None:
    room.press_at_desk(Key.Key_T, CTRL)
    qtbot.waitUntil(room.trainer.isActiveWindow)
    room.press(Key.Key_T, CTRL)
    qtbot.waitUntil(room.desk.isActiveWindow)


def test_every_row_has_its_place_in_sight_when_it_is_selected(room: Room) -> None:
    room.press(Key.Key_PageDown)
    room.press(Key.Key_PageDown)
    assert room.trainer.selected == room.rows[-1]
    pixels(room.trainer)
    room.press(Key.Key_PageUp, times=3)
    assert room.trainer.selected == room.rows[0]
    room.press(Key.Key_Home)
    assert room.trainer.selected is None


def test_each_key_asks_for_one_thing_and_each_thing_has_a_key() -> None:
    keys = [text for key in KEYS for text, _ in key.asks]
    assert len(keys) == len(set(keys))
    assert {ask for key in KEYS for _, ask in key.asks} == set(Ask)
    assert set(Ask) >= NOT_HELD


@pytest.mark.parametrize("size", [(1280, 720), (1600, 1000)])
def test_the_window_is_framed_and_paints_in_both_themes(
    qtbot: QtBot, tmp_path: Path, size: tuple[int, int]
) -> None:
    with opened(qtbot, tmp_path, short(), small(), size) as here:
        dark = pixels(here.trainer)
        assert here.trainer.frame.accessibleName().startswith("REHEARSAL")
        here.press(Key.Key_F4)
        assert pixels(here.trainer) != dark
        keys = here.trainer.keys
        assert keys.height() >= here.trainer._theme.px(40 + 25 * len(KEYS))
