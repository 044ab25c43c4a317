"""Drafts that were not saved: kept beside, offered, taken up or let go; no plan is written over."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.builder.unsaved import free_file, keep, kept_draft
from tests.app.builder.bench import FIRST, Bench, bench

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

K = Qt.Key


@pytest.fixture
def first(tmp_path: Path) -> Path:
    path = tmp_path / "first.toml"
    path.write_text(FIRST, encoding="utf-8")
    return path


@pytest.fixture
def drafts(tmp_path: Path) -> Path:
    return tmp_path / "state" / "drafts"


def files(folder: Path) -> list[Path]:
    return sorted(folder.glob("*")) if folder.exists() else []


def changed(b: Bench, drafts: Path) -> str:
    """Type a change, and wait until it is kept; gives the text."""
    b.table.stand(("event", 2), "give")
    b.fill("47s")
    b.qtbot.waitUntil(lambda: bool(files(drafts)), timeout=20_000)
    return b.text


def crashed(qtbot: QtBot, first: Path, drafts: Path) -> str:
    """Work that ended without a word: what was kept of it is there."""
    with bench(qtbot, first, drafts=drafts) as b:
        text = changed(b, drafts)
        kept = {file: file.read_bytes() for file in files(drafts)}
    for file, content in kept.items():
        file.write_bytes(content)
    return text


def test_a_change_is_kept_until_it_is_saved_and_the_plan_is_not_touched(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    with bench(qtbot, first, drafts=drafts) as b:
        text = changed(b, drafts)
        assert first.read_text(encoding="utf-8") == FIRST
        kept = kept_draft(drafts, first, FIRST)
        assert kept is not None
        assert (kept.text, kept.saved) == (text, FIRST)
        b.ctrl(K.Key_S)
        assert not files(drafts)


def test_a_change_taken_back_leaves_nothing_behind(qtbot: QtBot, first: Path, drafts: Path) -> None:
    with bench(qtbot, first, drafts=drafts) as b:
        changed(b, drafts)
        b.ctrl(K.Key_Z)
        assert not files(drafts)


def test_closing_a_second_time_forgets_the_draft(qtbot: QtBot, first: Path, drafts: Path) -> None:
    with bench(qtbot, first, drafts=drafts) as b:
        changed(b, drafts)
        assert not b.window.close()
        assert files(drafts)
        assert b.window.close()
        assert not files(drafts)


def test_after_a_crash_the_draft_is_offered_and_a_key_takes_it_up(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    text = crashed(qtbot, first, drafts)
    with bench(qtbot, first, drafts=drafts) as b:
        assert "An unsaved draft of first.toml is here" in b.said
        assert b.text == FIRST
        b.ctrl(K.Key_T)
        assert b.text == text
        assert first.read_text(encoding="utf-8") == FIRST
        b.ctrl(K.Key_S)
        assert first.read_text(encoding="utf-8") == text
        assert not files(drafts)


def test_escape_lets_the_draft_go_and_it_can_still_be_taken_up_while_the_window_is_open(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    text = crashed(qtbot, first, drafts)
    with bench(qtbot, first, drafts=drafts) as b:
        b.key(K.Key_Escape)
        assert "is let go" in b.said
        assert not files(drafts)
        assert b.text == FIRST
        b.ctrl(K.Key_T)
        assert b.text == text


def test_escape_lets_go_of_nothing_once_the_offer_is_no_longer_on_the_line(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    crashed(qtbot, first, drafts)
    with bench(qtbot, first, drafts=drafts) as b:
        before = files(drafts)
        b.table.stand(("event", 2), "give")
        b.fill("50s")
        b.key(K.Key_Escape)
        assert set(before) <= set(files(drafts))


def test_a_plan_changed_since_by_others_is_not_written_over_by_a_draft_taken_up(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    crashed(qtbot, first, drafts)
    theirs = FIRST.replace("Whimbrel", "Curlew")
    first.write_text(theirs, encoding="utf-8")
    with bench(qtbot, first, drafts=drafts) as b:
        b.ctrl(K.Key_T)
        b.ctrl(K.Key_S)
        assert "was changed by someone else" in b.said
        assert first.read_text(encoding="utf-8") == theirs
        assert files(drafts)


def test_work_on_another_draft_is_given_up_for_the_offered_one_only_at_the_second_asking(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    text = crashed(qtbot, first, drafts)
    with bench(qtbot, first, drafts=drafts) as b:
        b.table.stand(("event", 2), "give")
        b.fill("50s")
        b.ctrl(K.Key_T)
        assert "Not saved yet" in b.said
        assert 'give = "50s"' in b.text
        b.ctrl(K.Key_T)
        assert b.text == text


def test_a_new_plan_that_was_never_saved_is_offered_at_the_next_start(
    qtbot: QtBot, drafts: Path
) -> None:
    keep(free_file(drafts, None), "", FIRST)
    with bench(qtbot, drafts=drafts) as b:
        assert "An unsaved draft of a new plan is here" in b.said
        b.ctrl(K.Key_T)
        assert b.text == FIRST
        assert b.window.path is None


def test_a_draft_of_another_plan_is_not_offered(qtbot: QtBot, first: Path, drafts: Path) -> None:
    other = first.with_name("other.toml")
    other.write_text(FIRST, encoding="utf-8")
    crashed(qtbot, first, drafts)
    with bench(qtbot, other, drafts=drafts) as b:
        assert "unsaved draft" not in b.said


def test_a_draft_of_a_plan_whose_file_is_gone_is_offered(
    qtbot: QtBot, first: Path, drafts: Path
) -> None:
    text = crashed(qtbot, first, drafts)
    first.unlink()
    with bench(qtbot, first, drafts=drafts) as b:
        assert "cannot be opened" in b.said
        assert "An unsaved draft of first.toml is here" in b.said
        b.ctrl(K.Key_T)
        assert b.text == text


def test_what_says_the_same_as_the_plan_and_what_is_damaged_is_not_offered(
    first: Path, drafts: Path
) -> None:
    same, damaged = free_file(drafts, first), drafts / "x"
    keep(same, "older", FIRST)
    damaged = free_file(drafts, first)
    damaged.write_text('{"saved": ', encoding="utf-8")
    assert damaged != same
    assert kept_draft(drafts, first, FIRST) is None
    assert not same.exists()


def test_a_folder_that_cannot_be_written_is_told_and_typing_goes_on(
    qtbot: QtBot, first: Path, tmp_path: Path
) -> None:
    in_the_way = tmp_path / "drafts"
    in_the_way.write_text("", encoding="utf-8")
    with bench(qtbot, first, drafts=in_the_way) as b:
        b.table.stand(("event", 2), "give")
        b.fill("50s")
        qtbot.waitUntil(lambda: "cannot be kept" in b.said, timeout=20_000)
        assert 'give = "50s"' in b.text
