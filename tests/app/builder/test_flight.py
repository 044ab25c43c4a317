"""The page of the flight: what is wrong on it is marked, gone to and told in its own words."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.builder.grid import MARK
from tests.app.builder.bench import FIRST, bench

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


@pytest.mark.parametrize(
    ("key", "typed", "heading"),
    [
        ("zones", "America/Halifx", "Time zones"),
        ("sources", "a b", "Sources"),
        ("auto_edges", "voic", "Edges as events"),
        ("item_gap", "20", "Item gap"),
    ],
)
def test_a_wrong_value_of_the_flight_is_marked_and_f8_goes_there(
    key: str, typed: str, heading: str, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    with bench(qtbot, path) as b:
        trail = ("air",) if key == "item_gap" else ()
        b.edit.go(trail, key)
        b.table.type_here(typed)
        assert b.edit.problems.lines[0].texts[1:3] == ("Flight", heading)
        assert b.edit.tabs.tabText(0) == f"{MARK} Flight"
        b.edit.tabs.setCurrentIndex(1)
        b.key(Qt.Key.Key_F8)
        assert b.edit.section is None
        row = b.table.currentIndex().row()
        head = b.table.model().headerData(row, Qt.Orientation.Vertical)
        assert head == f"{MARK} {heading}"
