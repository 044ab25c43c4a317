"""The page of what is taken in: how it is read, what is told of it, and what was stopped."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox
from pytestqt.qtbot import QtBot

from app.builder.taking import TakingPage
from core.plan.imports.model import Meaning
from tests.app.builder.bench import FIRST, Bench, bench

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

K = Qt.Key


@pytest.fixture
def first(tmp_path: Path) -> Path:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    return path


def pasted(b: Bench, text: str) -> TakingPage:
    b.paste(text)
    b.wait_for_import()
    return b.window.taking


def pick(b: Bench, box: QComboBox, words: str) -> None:
    """Choose by keys, as a person does, and wait for what is read then."""
    box.setFocus()
    while box.currentText() != words:
        b.key(K.Key_Down)
        b.wait_for_import()


def planned(page: TakingPage) -> list[str]:
    return [line.texts[1] for line in page.rows.lines]


# ---------------------------------------------------------------------- how it is read


def test_a_clock_time_beside_an_elapsed_time_finds_its_day_by_the_plans_liftoff(
    qtbot: QtBot, first: Path
) -> None:
    # Liftoff of this plan is on 7 June at 11:30; forty hours later it is 9 June.
    with bench(qtbot, first) as b:
        page = pasted(b, "T+40:00:00  03:30  Panels turn\nT+64:00:00  03:30  Crew wakes\n")
        assert planned(page) == ["Mon 9 Jun 03:30:00", "Tue 10 Jun 03:30:00"]


def test_one_says_whether_a_bare_time_is_elapsed_or_of_the_day(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, "09:29:33  Panels turn\n10:10:00  Crew wakes\n")
        assert page.bare.isVisible()
        assert planned(page)[0] == "Sat 7 Jun 09:29:33"
        pick(b, page.bare, "elapsed time")
        assert [line.texts[2] for line in page.rows.lines] == ["09:29:33", "10:10:00"]
        pick(b, page.bare, "a time of day")
        assert planned(page)[0] == "Sat 7 Jun 09:29:33"


def test_what_holds_for_all_of_an_import_is_told(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, "09:29:33  Panels turn\n10:10:00  Crew wakes\n")
        assert page.told.isVisible()
        assert "name no zone were read in America/Halifax" in page.told.text()


def test_how_a_file_was_decoded_is_told(qtbot: QtBot, first: Path, tmp_path: Path) -> None:
    paper = tmp_path / "paper.txt"
    paper.write_bytes("09:29:33  Déjeuner\n".encode("cp1252"))
    with bench(qtbot, first) as b:
        b.window.open(paper)
        b.wait_for_import()
        assert "Line 1 is not UTF-8" in b.window.taking.told.text()


def test_days_as_numbers_are_counted_from_1904_where_one_says_so(qtbot: QtBot, first: Path) -> None:
    # 48005.5 in the one count and 46543.5 in the other are noon of 6 June 2031: 1,462 days apart.
    with bench(qtbot, first) as b:
        page = pasted(b, "Time\tEvent\n46543.5\tSuits on\n46543.75\tHatch closed\n")
        assert page.from_1904.isVisible()
        assert planned(page)[0] == "Sat 5 Jun 2027 12:00:00"
        pick(b, page.from_1904, "1904")
        assert planned(page)[0] == "Fri 6 Jun 12:00:00"


def test_a_sheet_without_day_numbers_is_not_asked_where_they_count_from(
    qtbot: QtBot, first: Path
) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, "Date\tTime\tEvent\n2031-06-07\t0930\tSuits on\n2031-06-07\t1010\tHatch\n")
        assert page.day_first.isVisible()
        assert not page.from_1904.isVisible()


# ---------------------------------------------------------------------- stopped on the way


def stopped(b: Bench) -> TakingPage:
    """The page after a reading that was stopped at its second word about the progress."""
    importer = b.window.importer

    def stop(done: int, of: int) -> None:
        if 0 < done < of:
            importer.stop()

    importer.progressed.connect(stop, Qt.ConnectionType.DirectConnection)
    lines = "\n".join(f"{9 + n // 60:02d}:{n % 60:02d}:00  Step {n}" for n in range(800))
    return pasted(b, lines)


def test_a_stopped_import_keeps_what_was_read_until_then_and_says_so(
    qtbot: QtBot, first: Path
) -> None:
    with bench(qtbot, first) as b:
        page = stopped(b)
        last = int(page.rows.lines[-1].texts[0])
        assert 0 < last < 800
        assert f"Stopped: nothing below line {last} was looked at" in page.told.text()
        assert f"{last} events to take" in page.title.text()
        b.ctrl(K.Key_Return)
        assert b.text.count('name = "Step ') == last
        b.ctrl(K.Key_Z)
        assert f"Undone: {last} events from pasted text until line {last}" in b.said
        assert b.text == FIRST


def test_a_stopped_import_is_left_by_escape(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        stopped(b)
        b.key(K.Key_Escape)
        assert b.window.pages.currentWidget() is b.edit
        assert b.text == FIRST


def test_an_import_read_whole_says_nothing_of_a_stop(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, "09:29:33  Panels turn\n10:10:00  Crew wakes\n")
        assert "Stopped" not in page.told.text()


# ---------------------------------------------------------------------- as what it is read


_TABBED = "06:10\tSuits on\n07:20\tHatch closed\n08:30\tPanels turn\n"


def test_a_text_taken_for_a_table_can_be_read_as_a_timeline_and_back(
    qtbot: QtBot, first: Path
) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, _TABBED)
        assert page.kind.currentText() == "table"
        assert page.column_list.isVisible()
        pick(b, page.kind, "timeline")
        assert "read as a timeline" in page.title.text()
        assert not page.column_list.isVisible()
        assert [line.texts[3] for line in page.rows.lines] == [
            "Suits on", "Hatch closed", "Panels turn",
        ]  # fmt: skip
        page.kind.setFocus()
        b.key(K.Key_Up)
        b.wait_for_import()
        assert page.column_list.isVisible()


def test_a_calendar_is_read_as_nothing_else(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, "BEGIN:VCALENDAR\nVERSION:2.0\nEND:VCALENDAR\n")
        assert not page.kind.isVisible()


def test_what_a_column_is_taken_for_is_picked_from_a_list(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        page = pasted(b, _TABBED)
        page.column_list.setFocus()
        page.column_list.setCurrentIndex(page.columns.index(1, 0))
        b.key(K.Key_Return)
        (box,) = page.column_list.findChildren(QComboBox)
        qtbot.waitUntil(lambda: box.view().isVisible())
        assert [box.itemText(at) for at in range(box.count())] == [str(one) for one in Meaning]
        assert box.currentText() == "event"
        QTest.keyClick(box.view(), K.Key_End)
        QTest.keyClick(box.view(), K.Key_Return)
        b.wait_for_import()
        assert page.columns.lines[1].texts[2] == "left out"


def test_a_day_that_may_be_two_is_asked_for_though_another_text_was_answered(
    qtbot: QtBot, first: Path
) -> None:
    table = "Date,Time,Event\n12/05/2031,13:28,Panels turn\n"
    with bench(qtbot, first) as b:
        page = pasted(b, table)
        assert page.day_first.currentText() == "not said"
        assert not page.rows.lines
        assert "may be 12 May or 5 December" in page.not_read.lines[1].texts[2]
        pick(b, page.day_first, "May 6")
        assert planned(page) == ["Fri 5 Dec 13:28:00"]
        b.key(K.Key_Escape)
        page = pasted(b, table)
        assert page.day_first.currentText() == "not said"
        assert not page.rows.lines
