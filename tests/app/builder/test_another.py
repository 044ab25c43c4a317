"""What stays of one plan when another is shown: nothing."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from tests.app.builder.bench import FIRST, bench

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def test_a_new_plan_has_an_empty_strip_until_its_own_is_worked_out(
    qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    with bench(qtbot, path) as b:
        beside = b.edit.beside
        qtbot.waitUntil(
            lambda: beside.strip is not None and beside.strip.isVisible(), timeout=20_000
        )
        b.ctrl(Qt.Key.Key_N)
        page = b.window.begin_page
        page.title.setText("Petrel 5")
        page.begin()
        assert beside.strip is not None
        assert not beside.strip.isVisible()
        assert beside.line.text() == "The signal appears here"
        qtbot.waitUntil(beside.strip.isVisible, timeout=20_000)


def test_the_title_of_the_window_names_the_program_once(qtbot: QtBot) -> None:
    with bench(qtbot) as b:
        assert b.window.windowTitle().count("Limbwatch") == 1
