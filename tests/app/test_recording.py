"""The record written from the desk window, by a process of its own."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.desk.keys import Command
from app.recording import Recording
from core.session.keeping import About
from core.session.sqlite_store import SqliteStore
from core.times.writing import Hours
from tests.core.session.record.days import long_day

_WAIT_MS = 60_000


@pytest.fixture
def session(tmp_path: Path) -> Path:
    """A session in use."""
    day = long_day()
    path = tmp_path / "20310514T190000Z-petrel-ab.session"
    store = SqliteStore(path, About(day.plan, "petrel.toml"), day.store.entries)
    store.start()
    store.close()
    return path


def written(qtbot: QtBot, recording: Recording) -> str:
    """What is said once the key was pressed."""
    told: list[str] = []
    recording.said.connect(told.append)
    recording.commands()[Command.RECORD]()
    qtbot.waitUntil(lambda: bool(told) and not told[-1].endswith("…"), timeout=_WAIT_MS)
    recording.said.disconnect(told.append)
    return told[-1]


def test_the_page_is_named_after_the_session_and_said(
    qtbot: QtBot, session: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "papers" / "Limbwatch"
    recording = Recording(session, folder, Hours.TWELVE, lambda: 0)
    page = folder / "20310514T190000Z-petrel-ab.html"
    assert written(qtbot, recording) == f"The record so far: {page}"
    text = page.read_text(encoding="utf-8")
    assert "5:01:16\N{NO-BREAK SPACE}p.m." in text
    page.write_text(text.replace("5:01:16", "9:99:99"), encoding="utf-8")
    written(qtbot, recording)  # the same page, anew
    assert page.read_text(encoding="utf-8") == text
    assert list(folder.iterdir()) == [page]


def test_what_is_not_on_disk_yet_is_told(qtbot: QtBot, session: Path, tmp_path: Path) -> None:
    recording = Recording(session, tmp_path, Hours.TWENTY_FOUR, lambda: 3)
    assert "The record so far, without 3 not yet on disk: " in written(qtbot, recording)


def test_a_file_of_another_kind_in_its_place_is_left_alone(
    qtbot: QtBot, session: Path, tmp_path: Path
) -> None:
    mine = session.with_suffix(".html")
    mine.write_text("my own page")
    said = written(qtbot, Recording(session, tmp_path, Hours.TWELVE, lambda: 0))
    assert said.startswith("No record: ")
    assert "name another file" in said
    assert mine.read_text() == "my own page"


def test_a_folder_that_cannot_be_made_is_said(qtbot: QtBot, session: Path) -> None:
    said = written(qtbot, Recording(session, session / "in", Hours.TWELVE, lambda: 0))
    assert said.startswith(f"No record: cannot make {session / 'in'}")


def test_a_session_that_is_gone_is_said_and_closing_waits_for_no_one(
    qtbot: QtBot, tmp_path: Path
) -> None:
    recording = Recording(tmp_path / "none.session", tmp_path, Hours.TWELVE, lambda: 0)
    recording.stop()
    assert "there is no such file" in written(qtbot, recording)
    recording.stop()
