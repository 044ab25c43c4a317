"""The list of suggestions below a line, by keys."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from tests.app.builder.bench import FIRST, Bench, bench

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

K = Qt.Key


@pytest.fixture
def first(tmp_path: Path) -> Path:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    return path


def tab(line: QLineEdit) -> None:
    """Tab as it comes while the list is open: the list has the keyboard then."""
    popup = line.completer().popup()
    assert popup is not None
    assert popup.isVisible()
    QTest.keyClick(popup, K.Key_Tab)


def typed(b: Bench, text: str) -> QLineEdit:
    b.key(K.Key_F2)
    line = b.focused()
    assert isinstance(line, QLineEdit)
    line.selectAll()
    b.type(text)
    return line


def test_tab_takes_the_first_suggestion_and_goes_on_to_the_right(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "after")
        column = b.table.currentIndex().column()
        tab(typed(b, "lifto"))
        assert b.edit.draft.now.table(("event", 2))["after"] == "liftoff"
        assert b.table.row == ("event", 2)
        assert b.table.currentIndex().column() == column + 1


def test_tab_leaves_a_whole_name_as_it_is_typed(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        for at, name in enumerate(("burn-two", "burn")):
            b.table.stand(("event", 3 + at), "id")
            b.fill(name)
        b.table.stand(("event", 2), "after")
        tab(typed(b, "burn"))
        assert b.edit.draft.now.table(("event", 2))["after"] == "burn"


def test_tab_completes_the_zone_of_the_first_form_and_goes_to_the_next_field(
    qtbot: QtBot,
) -> None:
    with bench(qtbot) as b:
        page = b.window.begin_page
        page.zone.setFocus()
        page.zone.selectAll()
        b.type("Halifax")
        tab(page.zone)
        assert page.zone.text() == "America/Halifax"
        assert page.day.hasFocus()
