from collections.abc import Sequence
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter
from pytestqt.qtbot import QtBot

from app.desk import ink
from app.desk.answer import Shown
from app.desk.ink import Run
from core.board.model import EntryRow, LastChange, Said, Tone
from tests.app.desk.seat import seated
from tests.app.views import arrival_view

SIZES = pytest.mark.parametrize("size", [(1280, 720), (1600, 1000)], ids=str)


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """All that is painted in a line, in order."""
    found: list[str] = []
    draw = ink.draw

    def noted(painter: QPainter, left_px: float, baseline_px: float, runs: Sequence[Run]) -> float:
        found.extend(run.text for run in runs)
        return draw(painter, left_px, baseline_px, runs)

    monkeypatch.setattr(ink, "draw", noted)
    return found


# LAST CHANGE


@SIZES
def test_names_in_the_last_change_break_rather_than_be_cut(
    qtbot: QtBot, painted: list[str], size: tuple[int, int]
) -> None:
    headline = "Out of contact after the long pass of the morning over Skerry Point 1 min 18 later"
    moved = "Their picture joins the call and Press conference with the whole crew, each by"
    change = LastChange(
        "4:38:05 p.m.", "flight", headline, ((moved, Said("1 min 18", Tone.PLAIN)),)
    )
    with seated(qtbot, replace(arrival_view(), last_change=change), size=size) as seat:
        painted.clear()
        seat.window.side.change.grab()
        written = " ".join(painted)
        assert headline in written
        assert moved in written
        assert "…" not in written


def test_a_long_source_does_not_run_out_of_the_last_change(qtbot: QtBot) -> None:
    change = LastChange("Wednesday, 4:38:05 p.m.", "word " * 40, "Liftoff 2 min later", ())
    with seated(qtbot, replace(arrival_view(), last_change=change)) as seat:
        panel = seat.window.side.change
        assert ink.width_px(panel.heading_runs()) <= panel.width()


# Readings


@SIZES
@pytest.mark.parametrize("picked", [0, 1, 2])
def test_readings_are_written_in_full(qtbot: QtBot, size: tuple[int, int], picked: int) -> None:
    ends = ("today (read as p.m.)", "tomorrow (read as a.m.)", "on Thursday (read as a date)")
    choices = tuple(f"Ignition at 4:58:00 p.m. Atlantic {end}" for end in ends)
    with seated(qtbot, size=size) as seat:
        answer = seat.window.bar.answer
        shown = Shown("Ignition", (Said("b follows"),), "no place for it", choices, picked)
        answer.show_this(shown)
        room_px = answer.width() * 0.62
        rows = answer._rows(room_px)
        written = " ".join(run.text for row in rows for run in row)
        assert all(end in written for end in ends)
        assert all(ink.width_px(row) <= room_px for row in rows)
        assert "Ignition" in written


def test_of_very_many_readings_each_keeps_its_beginning(qtbot: QtBot) -> None:
    choices = tuple(f"Ignition {n} at a very long place in the plan {n}" for n in range(9))
    with seated(qtbot) as seat:
        answer = seat.window.bar.answer
        answer.show_this(Shown("Ignition", (), "", choices, 8))
        rows = answer._rows(500.0)
        assert sum(run.text.startswith("▸") for row in rows for run in row) == 1
        assert len(rows) <= 4
        assert all(ink.width_px(row) <= 500 for row in rows)


# The day's entries


def _entry(number: int) -> EntryRow:
    return EntryRow(number, "4:40 p.m.", f"line {number} x", "what it meant", "flight", False, True)


@SIZES
def test_the_day_says_how_many_entries_stand_out_of_sight(
    qtbot: QtBot, painted: list[str], size: tuple[int, int]
) -> None:
    with seated(qtbot, size=size) as seat:
        seat.desk.rows = [_entry(number) for number in range(1, 31)]
        seat.press(Qt.Key.Key_F2)

        def looked() -> tuple[int, str]:
            painted.clear()
            seat.window.side.day.grab()
            more = [text for text in painted if text.startswith("and ")]
            return sum(text.startswith("line ") for text in painted), " ".join(more)

        shown, more = looked()
        assert more == f"and {30 - shown} more below"
        seat.press(Qt.Key.Key_Down, times=shown + 1)
        assert looked() == (shown, f"and 2 more above, {28 - shown} below")
        seat.press(Qt.Key.Key_Down, times=30)
        assert looked() == (shown, f"and {30 - shown} more above")


def test_a_day_in_sight_as_a_whole_counts_nothing(qtbot: QtBot, painted: list[str]) -> None:
    with seated(qtbot) as seat:
        seat.desk.rows = [_entry(number) for number in range(1, 4)]
        seat.press(Qt.Key.Key_F2)
        painted.clear()
        seat.window.side.day.grab()
        assert not any(text.startswith("and ") for text in painted)


def test_heading_and_headline_of_the_last_change_need_less_than_all_its_rows(qtbot: QtBot) -> None:
    with seated(qtbot, arrival_view(), size=(1280, 720)) as seat:
        panel = seat.window.side.change
        panel.resize(panel.width(), panel.least_px())
        told = [found.run.text for found in panel.placed()]
        assert told == ["Loss of signal 1 min 18 later"]
        assert max(found.reach().bottom() for found in panel.placed()) <= panel.height()
        assert panel.fit_px(panel.least_px()) == panel.least_px()
