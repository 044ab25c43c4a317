"""The builder window, driven by keys: what is typed, told, undone, saved, and taken in."""

from difflib import ndiff
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.builder.filing import CannotSave, open_draft, save_draft
from app.builder.keys import KEYS
from app.resources import sample_plan
from app.theme import DARK, LIGHT, Palette
from core.plan.imports.model import Imported
from core.plan.reader import read_plan
from tests.app.builder.bench import FIRST, Bench, bench, unoffer
from tests.app.looking import SIZES

# The offscreen screen says so whenever a list of what could stand in a cell opens.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

K = Qt.Key

TIMELINE = """PETREL 4 PRESS KIT
Sunday 11 May 2031 (all times Atlantic)

08:15  Crew awake
10:05  Suits on
11:40  Hatch closed
13:28:32  Liftoff

Mission elapsed time
T+0:08:42  In orbit round the Earth
T+2:34:10  Departure burn
TBD        Second correction burn
"""


@pytest.fixture
def first(tmp_path: Path) -> Path:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    return path


def differing(before: str, after: str) -> list[str]:
    lines = ndiff(before.splitlines(), after.splitlines())
    return [" ".join(line.split()) for line in lines if line[0] in "+-"]


# ---------------------------------------------------------------------- editing


def test_a_value_typed_and_saved_is_all_that_differs_in_the_file(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.fill("45s")
        b.ctrl(K.Key_S)
        assert b.said.startswith("Saved as")
    found = differing(FIRST, first.read_text(encoding="utf-8"))
    comment = "# plus or minus; from half a minute on, the board says 'about'"
    assert found == [f'- give = "30s" {comment}', f'+ give = "45s" {comment}']


def test_typing_begins_editing_and_enter_goes_to_the_cell_below(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.type("1m")
        b.key(K.Key_Return)
        assert b.table.row == ("event", 3)
        b.type("2m")
        b.key(K.Key_Return)
        assert 'give = "1m"' in b.text
        assert 'give = "2m"' in b.text


def test_tab_takes_a_value_and_goes_on_to_the_right(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "name")
        b.type("Round the Earth")
        b.key(K.Key_Tab)
        assert 'name = "Round the Earth"' in b.text
        assert b.table.row == ("event", 2)
        assert b.table.currentIndex().column() == 1


def test_what_is_wrong_is_told_while_one_types_and_gone_when_it_is_right(
    qtbot: QtBot, first: Path
) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 1), "offset")
        b.type("2")
        qtbot.waitUntil(lambda: "has no unit" in b.edit.about.text(), timeout=20_000)
        assert b.edit.problems.lines[0].texts[0] == "◆"
        assert b.text == FIRST
        b.type("h 35m")
        qtbot.waitUntil(lambda: not b.edit.problems.lines, timeout=20_000)
        b.key(K.Key_Return)
        assert b.text == FIRST


def test_saving_takes_what_is_being_typed(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.type("50s")
        b.ctrl(K.Key_S)
        assert 'give = "50s"' in first.read_text(encoding="utf-8")


def test_escape_leaves_a_cell_as_it_was_and_its_problem_goes(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 1), "offset")
        b.type("x")
        qtbot.waitUntil(lambda: bool(b.edit.problems.lines), timeout=20_000)
        b.key(K.Key_Escape)
        assert not b.edit.problems.lines
        assert b.text == FIRST


def test_a_broken_draft_keeps_the_last_good_strip_and_says_so(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 0), "at")
        b.fill("9:1")
        assert "as it was before" in b.edit.beside.line.text().lower() or (
            b.edit.beside.line.text() == "Nothing to show yet"
        )
        assert b.edit.tabs.tabText(1).startswith("◆ Events")
        b.ctrl(K.Key_B)
        assert "Mend what is marked" in b.said
        assert not b.boards
        b.key(K.Key_F8)
        assert b.table.row == ("event", 0)
        b.ctrl(K.Key_Z)
        assert b.text == FIRST
        assert "Undone: At of Fuelling begins" in b.said


def test_the_strip_shows_the_plan_and_keeps_it_while_the_draft_is_broken(
    qtbot: QtBot, first: Path
) -> None:
    with bench(qtbot, first) as b:
        beside = b.edit.beside
        qtbot.waitUntil(
            lambda: beside.strip is not None and bool(beside.strip.words), timeout=30_000
        )
        qtbot.waitUntil(lambda: beside.strip is not None and beside.strip.frame is not None)
        strip = beside.strip
        assert strip is not None
        b.table.stand(("event", 4))
        assert any("14:00" in word.text for word in strip.words)
        assert not any("p.m." in word.text for word in strip.words)
        before = strip.frame
        b.table.stand(("event", 4), "at")
        b.fill("2:")
        assert strip.frame == before
        assert "as it was before" in beside.line.text().lower()
        b.ctrl(K.Key_Z)
        assert not beside.line.text()


def test_undo_and_redo_go_back_and_forth_through_the_text(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.fill("1m")
        changed = b.text
        b.key(K.Key_Insert)
        b.ctrl(K.Key_Z)
        assert b.text == changed
        b.ctrl(K.Key_Z)
        assert b.text == FIRST
        b.key(K.Key_Z, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier)
        assert b.text == changed


def test_a_row_others_hang_on_goes_only_at_the_second_asking(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2))
        b.ctrl(K.Key_Delete)
        assert "On In orbit hang: Solar panels open" in b.said
        assert b.text == FIRST
        b.ctrl(K.Key_Delete)
        assert 'id = "orbit"' not in b.text
        assert b.edit.problems.lines
        b.ctrl(K.Key_Z)
        assert b.text == FIRST


def test_ids_are_offered_and_picked_by_keys(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 4), "after")
        b.type("lift")
        line = b.focused()
        assert isinstance(line, QLineEdit)
        popup = line.completer().popup()
        assert popup is not None
        assert popup.isVisible()
        QTest.keyClick(popup, K.Key_Down)
        QTest.keyClick(popup, K.Key_Return)
        b.key(K.Key_Return)
        assert b.text.count('after = "liftoff"') == 2


def test_of_several_ids_the_last_is_offered(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 4), "after")
        b.type("orbit +5m; lift")
        line = b.focused()
        assert isinstance(line, QLineEdit)
        popup = line.completer().popup()
        assert popup is not None
        QTest.keyClick(popup, K.Key_Down)
        QTest.keyClick(popup, K.Key_Return)
        assert line.text() == "orbit +5m; liftoff"
        b.key(K.Key_Return)


def test_marks_are_set_by_space_and_by_letters(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "live")
        b.key(K.Key_Space)
        assert b.text.count("live = true") == 2
        b.type("n")
        assert b.text.count("live = true") == 1
        assert b.text == FIRST


def test_a_new_event_is_made_by_keys_alone(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2))
        b.key(K.Key_Insert)
        assert b.table.row == ("event", 3)
        b.fill("Antenna unfolds")
        b.table.stand(("event", 3), "after")
        b.fill("orbit")
        b.table.stand(("event", 3), "offset")
        b.fill("4m")
        assert not b.edit.problems.lines
        assert 'id = "antenna-unfolds"\nname = "Antenna unfolds"\nafter = "orbit"' in b.text


def test_contacts_of_a_course_have_a_table_of_their_own(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.edit.go(("course", 0))
        b.key(K.Key_F6)
        assert b.edit.inner.hasFocus()
        b.edit.inner.stand(("course", 0, "rows", 4), "lost")
        b.fill("3h 13m")
        assert 'lost = "3h 13m"' in b.text
        assert not b.edit.problems.lines


def test_every_page_can_be_gone_through_by_keys(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        seen = []
        for _ in range(b.edit.tabs.count()):
            seen.append(b.edit.tabs.tabText(b.edit.tabs.currentIndex()))
            b.ctrl(K.Key_PageDown)
        assert len(set(seen)) == b.edit.tabs.count()
        assert seen[:3] == ["Events 5", "Ground stations 2", "Lanes 1"]
        b.edit.tabs.setCurrentIndex(0)
        b.fill("Whimbrel 2")
        assert 'title = "Whimbrel 2" ' in b.text


# ---------------------------------------------------------------------- the file


def test_a_file_changed_by_others_is_told_and_never_written_over(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.fill("1m")
        theirs = FIRST.replace("Whimbrel", "Curlew")
        first.write_text(theirs, encoding="utf-8")
        b.ctrl(K.Key_S)
        assert "was changed by someone else" in b.said
        assert first.read_text(encoding="utf-8") == theirs
        b.asked.saves = first.with_name("mine")
        b.key(K.Key_S, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier)
        assert first.with_name("mine.toml").read_text(encoding="utf-8") == b.text
        assert first.read_text(encoding="utf-8") == theirs


def test_a_new_name_never_takes_a_file_that_is_there(first: Path) -> None:
    draft = open_draft(first)
    other = first.with_name("other.toml")
    other.write_text("theirs", encoding="utf-8")
    with pytest.raises(CannotSave, match="is there already"):
        save_draft(draft, other, fresh=True)
    assert other.read_text(encoding="utf-8") == "theirs"


def test_a_link_to_a_plan_stays_a_link_and_its_file_keeps_who_may_read_it(first: Path) -> None:
    first.chmod(0o640)
    link = first.with_name("link.toml")
    link.symlink_to(first)
    draft = open_draft(link)
    draft.set_top("title", "Curlew", "the title")
    save_draft(draft, link, fresh=False)
    assert link.is_symlink()
    assert 'title = "Curlew"' in first.read_text(encoding="utf-8")
    assert first.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize("name", ["petrel-arrival", "three-days", "curlew-landing"])
def test_a_sample_opened_and_saved_is_the_same_file(name: str, tmp_path: Path) -> None:
    original = sample_plan(name).read_bytes()
    path = tmp_path / f"{name}.toml"
    path.write_bytes(original)
    for beside in sample_plan(name).parent.glob("*.csv"):
        (tmp_path / beside.name).write_bytes(beside.read_bytes())
    draft = open_draft(path)
    save_draft(draft, path, fresh=False)
    assert path.read_bytes() == original
    assert draft.is_good


def test_the_board_opens_on_what_was_saved(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.fill("1m")
        b.ctrl(K.Key_B)
        assert b.boards == [first]
        assert 'give = "1m"' in first.read_text(encoding="utf-8")


def test_closing_forgets_what_is_not_saved_only_when_asked_twice(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.table.stand(("event", 2), "give")
        b.fill("1m")
        assert not b.window.close()
        assert "Not saved yet" in b.said
        assert b.window.close()


def test_a_file_that_is_no_toml_is_told_with_its_line(qtbot: QtBot, tmp_path: Path) -> None:
    broken = tmp_path / "broken.toml"
    broken.write_text("limbwatch = 1\ntitle = \n", encoding="utf-8")
    with bench(qtbot, broken) as b:
        assert b.window.draft is None
        assert "broken.toml:2:" in b.said


# ---------------------------------------------------------------------- taking in


def begun(b: Bench) -> None:
    """Fill the first page in, by keys."""
    for words in ("Petrel 4", "America/Halifax", "11 May 2031", "13:28:32", "voice, picture"):
        line = b.focused()
        assert isinstance(line, QLineEdit)
        line.selectAll()
        b.type(words)
        unoffer(line)
        b.key(K.Key_Tab)
    b.window.begin_page.title.setFocus()
    b.key(K.Key_Return)


def test_a_pasted_timeline_becomes_a_plan_that_the_board_takes(
    qtbot: QtBot, tmp_path: Path
) -> None:
    with bench(qtbot) as b:
        begun(b)
        assert b.edit.tabs.tabText(1) == "Events 1"
        b.paste(TIMELINE)
        b.wait_for_import()
        page = b.window.taking
        assert "read as a timeline: 5 events to take" in page.title.text()
        assert [line.texts[3] for line in page.rows.lines if not line.taken] == ["Liftoff"]
        told = [line.texts[1] for line in page.not_read.lines]
        assert told == [
            "PETREL 4 PRESS KIT",
            "Sunday 11 May 2031 (all times Atlantic)",
            "Mission elapsed time",
            "TBD        Second correction burn",
        ]
        b.ctrl(K.Key_Return)
        assert b.edit.tabs.tabText(1) == "Events 6"
        assert not [line for line in b.edit.problems.lines if line.texts[0] == "◆"]
        b.asked.saves = tmp_path / "petrel-4.toml"
        b.ctrl(K.Key_B)
        assert b.asked.proposed == "petrel-4.toml"
        assert b.boards == [tmp_path / "petrel-4.toml"]
        b.ctrl(K.Key_Z)
        assert b.edit.tabs.tabText(1) == "Events 1"
    plan = read_plan(tmp_path / "petrel-4.toml")
    assert [event.id for event in plan.events][:3] == ["liftoff", "crew-awake", "suits-on"]
    assert plan.events[-1].ties[0].event == "liftoff"


def test_clock_times_can_be_tied_to_liftoff_before_they_are_taken(qtbot: QtBot) -> None:
    with bench(qtbot) as b:
        begun(b)
        b.paste(TIMELINE)
        b.wait_for_import()
        b.window.taking.ties.setCurrentIndex(1)
        b.ctrl(K.Key_Return)
        assert 'after = "liftoff"\noffset = "-5h 13m 32s"' in b.text


def test_leaving_the_page_leaves_the_draft_as_it_was(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.paste(TIMELINE)
        b.wait_for_import()
        b.key(K.Key_Escape)
        assert b.window.pages.currentWidget() is b.edit
        assert b.text == FIRST


def test_columns_of_a_table_are_shown_and_may_be_changed(qtbot: QtBot, first: Path) -> None:
    table = "Time\tActivity\tWho\n2031-06-07 09:30\tSuits on\tSmith\n2031-06-07 10:10\tHatch\tLee\n"
    with bench(qtbot, first) as b:
        b.paste(table)
        b.wait_for_import()
        page = b.window.taking
        assert [line.texts[2] for line in page.columns.lines] == ["clock time", "event", "note"]
        assert page.rows.lines[0].texts[7] == "Who: Smith"
        index = page.columns.index(2, 2)
        assert page.columns.setData(index, "left")
        b.wait_for_import()
        qtbot.waitUntil(lambda: page.rows.lines[0].texts[7] == "", timeout=20_000)
        assert page.columns.lines[2].texts[2] == "left out"


def test_a_calendar_dropped_as_a_file_is_read_with_the_time_of_whole_days(
    qtbot: QtBot, first: Path, tmp_path: Path
) -> None:
    calendar = tmp_path / "mission.ics"
    calendar.write_text(
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Skerry//EN\r\n"
        "BEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20310601T000000Z\r\n"
        "DTSTART;TZID=America/Halifax:20310607T100000\r\nSUMMARY:Suits on\r\nEND:VEVENT\r\n"
        "BEGIN:VEVENT\r\nUID:2\r\nDTSTAMP:20310601T000000Z\r\n"
        "DTSTART;VALUE=DATE:20310607\r\nSUMMARY:Island holiday\r\nEND:VEVENT\r\n"
        "END:VCALENDAR\r\n",
        encoding="utf-8",
    )
    with bench(qtbot, first) as b:
        b.window.open(calendar)
        b.wait_for_import()
        page = b.window.taking
        assert [line.texts[3] for line in page.rows.lines] == ["Suits on"]
        assert "Island holiday" in "".join(line.texts[1] for line in page.not_read.lines) or (
            "all day" in page.not_read.lines[0].texts[2]
        )
        page.all_day.setFocus()
        b.type("8:00")
        b.key(K.Key_Tab)
        qtbot.waitUntil(lambda: len(page.rows.lines) == 2, timeout=20_000)
        b.ctrl(K.Key_Return)
        assert b.edit.tabs.tabText(1) == "Events 7"


def test_a_long_import_shows_progress_and_can_be_stopped(qtbot: QtBot, first: Path) -> None:
    lines = "\n".join(
        f"2031-06-{7 + n // 1440 % 20:02d} {n // 60 % 24:02d}:{n % 60:02d}  Step {n}"
        for n in range(40_000)
    )
    with bench(qtbot, first) as b:
        b.paste(lines)
        page = b.window.taking
        qtbot.waitUntil(lambda: " of 40000 lines" in page.progress.text(), timeout=60_000)
        b.key(K.Key_Escape)
        b.wait_for_import()
        assert "Stopped" in page.told.text()
        assert b.window.pages.currentWidget() is page
        b.key(K.Key_Escape)
        assert b.text == FIRST


def test_a_dropped_orbit_file_becomes_a_course_beside_the_plan(
    qtbot: QtBot, first: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "downloads"
    folder.mkdir()
    # Invented elements in the published form of two lines.
    lines = (
        "1 90001U 31001A   31158.50000000  .00000000  00000-0  00000-0 0  9990",
        "2 90001  51.6000 100.0000 0005000  50.0000 310.0000 15.50000000    12",
    )
    summed = "\n".join(f"{line[:68]}{_sum(line)}" for line in lines)
    dropped = folder / "whimbrel.tle"
    dropped.write_text(f"{summed}\n", encoding="utf-8")
    with bench(qtbot, first) as b:
        mime = QMimeData()
        mime.setUrls([QUrl.fromLocalFile(str(dropped))])
        buttons, held = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
        event = QDropEvent(QPointF(5, 5), Qt.DropAction.CopyAction, mime, buttons, held)
        b.window.dropEvent(event)
        qtbot.waitUntil(lambda: "follows whimbrel.tle" in b.said, timeout=20_000)
        assert (tmp_path / "whimbrel.tle").is_file()
        assert 'kind = "elements"\nfile = "whimbrel.tle"' in b.text


def _sum(line: str) -> int:
    """The check figure of a line: digits, and one for each minus, modulo ten."""
    return sum(int(c) if c.isdigit() else c == "-" for c in line[:68]) % 10


def test_an_older_reading_is_never_shown_over_a_newer_one(qtbot: QtBot, first: Path) -> None:
    with bench(qtbot, first) as b:
        b.paste(TIMELINE)
        b.wait_for_import()
        page = b.window.taking
        page.leave()
        page._importer.done.emit(Imported("old"))
        assert b.window.pages.currentWidget() is b.edit
        assert b.text == FIRST


# ---------------------------------------------------------------------- the look


@pytest.mark.parametrize("palette", [DARK, LIGHT])
@pytest.mark.parametrize("size", SIZES)
def test_no_text_is_smaller_than_it_may_be_and_the_strip_has_room(
    qtbot: QtBot, first: Path, size: tuple[int, int], palette: Palette
) -> None:
    with bench(qtbot, first, size, palette) as b:
        QApplication.processEvents()
        scale = max(0.8, min(size[0] / 1600, size[1] / 1000))
        assert b.table.fontInfo().pixelSize() >= 13 * scale
        assert b.edit.beside.width() >= 0.15 * size[0]
        assert b.table.height() > 0.35 * size[1]


def test_every_key_stands_once_and_on_the_page_of_keys(qtbot: QtBot) -> None:
    keys = [text for key in KEYS for text in key.keys]
    assert len(keys) == len(set(keys))
    with bench(qtbot) as b:
        b.key(K.Key_F1)
        assert all(key.words in b.window.keys_page.text() for key in KEYS)
        b.key(K.Key_Escape)
        assert b.window.pages.currentWidget() is b.window.begin_page
