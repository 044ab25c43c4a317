"""A session's file read for its record: whole, in use, missing, damaged, foreign, too new."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from core.session.record.reading import NoRecord, read_session
from tests.core.session.days import about, as_read, kept_in, notes


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A session that was written and closed."""
    file = tmp_path / "a.session"
    with kept_in(file, notes(1, 40)) as keeper:
        keeper.until("")
    return file


def problem(path: Path, *, anyway: bool = False) -> str:
    """What is said of a file that no record can be made of."""
    with pytest.raises(NoRecord) as raised:
        read_session(path, as_read, anyway=anyway)
    said = str(raised.value)
    assert said.startswith(f"{path}: ")
    return said


def test_a_whole_session_is_read_and_nothing_is_left_beside_it(path: Path) -> None:
    beside = sorted(path.parent.iterdir())
    before = path.read_bytes()
    source = read_session(path, as_read)
    assert (source.plan, source.name, source.rehearsal) == (about().plan, "a", False)
    assert list(source.entries) == notes(1, 40)
    assert sorted(path.parent.iterdir()) == beside
    assert path.read_bytes() == before


def test_a_session_in_use_is_read_meanwhile(tmp_path: Path) -> None:
    file = tmp_path / "b.session"
    with kept_in(file, notes(1, 2)) as keeper:
        keeper.keep(notes(3, 5))
        keeper.until("")
        assert list(read_session(file, as_read).entries) == notes(1, 5)
        keeper.keep(notes(6, 6))
        keeper.until("")
        assert list(read_session(file, as_read).entries) == notes(1, 6)


def test_a_missing_file_a_folder_and_a_foreign_file_are_named_with_a_remedy(tmp_path: Path) -> None:
    assert "there is no such file. Give a file that ends in .session" in problem(tmp_path / "no")
    assert "that is a folder" in problem(tmp_path)
    foreign = tmp_path / "plan.toml"
    foreign.write_text("limbwatch = 1\n")
    assert "no session of Limbwatch. Give a file" in problem(foreign)
    empty = tmp_path / "empty.session"
    empty.touch()
    assert "no session of Limbwatch" in problem(empty)


def test_another_program_s_database_is_no_session(tmp_path: Path) -> None:
    file = tmp_path / "other.session"
    with closing(sqlite3.connect(file)) as database:
        database.execute("CREATE TABLE birds (name TEXT)")
    assert "no session of Limbwatch" in problem(file)


def test_one_of_a_later_program_says_so(path: Path) -> None:
    with closing(sqlite3.connect(path)) as database:
        database.execute("PRAGMA user_version = 99")
    assert "this program is too old for it" in problem(path)
    assert "this program is too old for it" in problem(path, anyway=True)


def test_a_damaged_one_says_so_and_anyway_gives_what_can_be_read(path: Path) -> None:
    with closing(sqlite3.connect(path)) as database:
        database.execute("UPDATE entry SET body = 'rubbish' WHERE number = 7")
        database.commit()
    before = path.read_bytes()
    assert "is damaged" in problem(path)
    assert "--anyway" in problem(path)
    source = read_session(path, as_read, anyway=True)
    assert [entry.number for entry in source.entries] == [n for n in range(1, 41) if n != 7]
    assert path.read_bytes() == before


@pytest.mark.parametrize("keep", [50, 5_000, 9_000])
def test_one_cut_off_is_damaged_whatever_is_left(path: Path, keep: int) -> None:
    path.write_bytes(path.read_bytes()[:keep])
    assert "damaged" in problem(path)


def test_one_that_does_not_say_its_plan_gives_no_record(path: Path) -> None:
    with closing(sqlite3.connect(path)) as database:
        database.execute("UPDATE session SET about = 'rubbish'")
        database.commit()
    assert "does not say what plan it is of" in problem(path, anyway=True)
