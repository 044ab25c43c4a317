"""Courses in the builder window: one of another kind, by keys alone."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from tests.app.builder.bench import FIRST, bench

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

K = Qt.Key


def test_a_new_orbit_course_is_made_by_keys_and_the_board_opens(
    qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    with bench(qtbot, path) as b:
        for key, typed in (("latitude", "34.2"), ("longitude", "-112.4"), ("height", "900")):
            b.edit.go(("ground", 0), key)
            b.fill(typed)
        b.edit.go(("course", 0))
        b.key(K.Key_Insert)
        course = b.table.row
        assert course == ("course", 1)
        cells = {"kind": "orbit", "about": "earth", "epoch": "liftoff +10m"}
        cells |= {"altitude_km": "400", "inclination": "56", "node": "120"}
        for key, typed in cells.items():
            b.window.activateWindow()  # a list that closes takes the window's place offscreen
            b.edit.go(course, key)
            b.fill(typed)
        assert b.window.draft is not None
        assert b.window.draft.is_good, [fault.words for fault in b.window.draft.now.faults]
        b.ctrl(K.Key_B)
        assert b.boards == [path]


def test_what_goes_with_the_kind_is_told_and_ctrl_z_brings_it_back(
    qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    with bench(qtbot, path) as b:
        b.edit.go(("course", 0), "kind")
        b.fill("orbit")
        assert b.said.startswith("Taken out, as it belongs to the other kind: ")
        assert "Contacts" in b.said
        b.ctrl(K.Key_Z)
        assert b.text == FIRST
