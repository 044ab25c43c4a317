"""The programme's keys and mouse in the real window on the real desk, on a small plan."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.board.programme import AirBox, ItemState
from core.times.clocks import SimClock
from tests.app.desk.place import Place, opened
from tests.app.desk.whimbrel import MINUTE_MS, NOW_MS, PLAN, SECOND_MS, at

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
Key = Qt.Key

PROGRAMME = """
[air]
on = 2031-05-14T16:00:00
off = 2031-05-14T19:00:00
item_gap = "20s"

[[item]]
id = "break-3"
kind = "break"
name = "Break 3"
length = "2m 10s"
turnaround = "30s"
owed = true
latest = 2031-05-14T17:30:00

[[item]]
id = "tape-1"
kind = "tape"
name = "Tape, how they stop"
length = "5m 40s"
turnaround = "20s"

[[checkoff]]
id = "valves"
name = "Valves open"
of = "ignition"
count = 4
enough = 3
"""


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Iterator[Place]:
    path = tmp_path / "whimbrel.toml"
    path.write_text(PLAN + PROGRAMME, encoding="utf-8")
    with opened(qtbot, path, SimClock(NOW_MS, paused=True)) as taken:
        yield taken


def box(place: Place, item: str) -> AirBox | None:
    return next((each for each in place.view.air.boxes if each.item == item), None)


def start_ms(place: Place, item: str) -> int:
    found = box(place, item)
    assert found is not None
    return found.from_ms


def middle_of(place: Place, item: str) -> QPoint:
    found = box(place, item)
    assert found is not None
    assert place.strip.frame is not None
    assert place.strip.frame.across.air is not None
    left_px, width_px = place.strip.frame.across.air
    y_px = (place.strip.y_of(found.from_ms) + place.strip.y_of(found.to_ms)) / 2
    return QPoint(round(left_px + width_px / 2), round(y_px))


def test_the_key_places_what_is_owed_and_ctrl_z_takes_it_back(place: Place) -> None:
    place.press(Key.Key_P, CTRL)
    assert place.window.bar.line.text() == "place"
    assert "Break 3" in place.said
    assert box(place, "break-3") is None
    place.press(Key.Key_Return)
    placed = box(place, "break-3")
    assert placed is not None
    assert placed.state is ItemState.PLACED
    place.press(Key.Key_Z, CTRL)
    assert box(place, "break-3") is None


def test_a_nudge_is_previewed_and_moves_the_box_at_enter(place: Place) -> None:
    place.enter("break 3 at 5:10p")
    place.press(Key.Key_Down, CTRL)
    place.press(Key.Key_Down, SHIFT)
    assert place.window.bar.line.text() == "break-3 at 17:10:10"
    assert "5:10:10 p.m." in place.said
    assert start_ms(place, "break-3") == at("17:10:00")
    place.press(Key.Key_PageDown, SHIFT)
    place.press(Key.Key_Return)
    assert start_ms(place, "break-3") == at("17:11:10")
    place.press(Key.Key_Z, CTRL)
    assert start_ms(place, "break-3") == at("17:10:00")


def test_a_start_between_the_tens_moves_on_to_them(place: Place) -> None:
    place.enter("break 3 at 5:10:07p")
    place.press(Key.Key_Down, CTRL)
    place.press(Key.Key_Up, SHIFT)
    assert place.window.bar.line.text() == "break-3 at 17:10:00"
    place.press(Key.Key_Up, SHIFT)
    assert place.window.bar.line.text() == "break-3 at 17:09:50"


def test_a_box_is_dragged_to_another_time(place: Place) -> None:
    place.enter("tape 1 at 5:10p")
    before_px = place.strip.y_of(at("17:10:00"))
    view, start = place.strip.viewport(), middle_of(place, "tape-1")
    # From below the limb to where it begins half an hour later.
    down_px = round(place.strip.y_of(at("17:40:00")) - before_px)
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(view, start + QPoint(0, down_px // 2))
    QTest.mouseMove(view, start + QPoint(0, down_px))
    assert place.window.bar.line.text().startswith("tape-1 at 17:")
    assert "placed at" in place.said
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=start + QPoint(0, down_px))
    moved_ms = start_ms(place, "tape-1")
    assert abs(moved_ms - at("17:40:00")) < 2 * MINUTE_MS
    assert moved_ms % (10 * SECOND_MS) == 0
    assert place.window.bar.line.text() == ""
    place.press(Key.Key_Z, CTRL)
    assert start_ms(place, "tape-1") == at("17:10:00")


def test_the_box_is_painted_where_it_was_put(place: Place) -> None:
    before = place.strip.grab().toImage()
    place.enter("tape 1 at 5:10p")
    place.strip.repaint()
    after = place.strip.grab().toImage()
    middle = middle_of(place, "tape-1")
    left = middle - QPoint(30, 0)
    for clock_ms in (at("17:10:00"), at("17:15:40")):
        row = round(place.strip.y_of(clock_ms))
        rows = range(row - 3, row + 4)
        assert any(before.pixelColor(left.x(), y) != after.pixelColor(left.x(), y) for y in rows)


def test_what_was_said_stands_in_the_panel(place: Place) -> None:
    panel = place.window.side.to_say
    assert panel.first is not None
    place.press(Key.Key_C, CTRL | SHIFT)
    assert QGuiApplication.clipboard().text() == panel.spoken
    place.press(Key.Key_S, CTRL)
    told = place.view.to_say
    assert told is not None
    assert told.said


def test_one_more_on_a_check_off_stands_on_its_card(place: Place) -> None:
    place.window.timeline.select("ignition")
    place.press(Key.Key_O, CTRL)
    place.press(Key.Key_O, CTRL)
    assert "Valves open: 2 of 4" in place.written_on("ignition")
    place.press(Key.Key_Z, CTRL)
    assert "Valves open: 1 of 4" in place.written_on("ignition")


def test_an_item_goes_on_the_air_and_is_over(place: Place) -> None:
    place.enter("break 3 now")
    running = box(place, "break-3")
    assert running is not None
    assert running.state is ItemState.ON_AIR
    assert "on the air" in [piece.text for piece in place.strip.words]
    place.go_to_ms(NOW_MS + 90 * SECOND_MS)
    place.enter("break 3 over")
    over = box(place, "break-3")
    assert over is not None
    assert over.state is ItemState.RUN


def test_a_grave_board_is_asked_for_twice_and_left_twice(place: Place) -> None:
    place.press(Key.Key_G, CTRL)
    assert place.window.bar.line.text() == "grave"
    told = place.view.to_say
    assert told is None or not told.grave
    place.press(Key.Key_Return)
    told = place.view.to_say
    assert told is not None
    assert told.grave
    place.press(Key.Key_G, CTRL)
    assert place.window.bar.line.text() == "grave over"
    place.press(Key.Key_Return)
    told = place.view.to_say
    assert told is None or not told.grave
