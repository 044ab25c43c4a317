"""The session on disk: what was entered is there afterwards, whatever the disk does meanwhile."""

import sqlite3
import threading
from collections.abc import Iterable
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.entries.model import Action, Entry, Note
from core.errors import LaterVersion, SessionProblem
from core.session.database import STEPS, Database, connect
from core.session.keeping import Beat
from core.session.locking import take_lock
from core.session.opening import Opened, ReadingStore, reopen
from core.session.sqlite_store import WRITING, SqliteStore
from tests.core.session.days import (
    NOON_MS,
    Keeper,
    about,
    as_read,
    kept_in,
    note,
    notes,
)
from tests.core.session.test_codec import entries as drawn
from tests.core.session.test_codec import ready


def opened(path: Path) -> Opened:
    """The session as it is found, its lock let go of again."""
    found = reopen(path, as_read)
    if isinstance(found.store, SqliteStore):
        found.store.start()
        found.store.close()
    return found


class Failing:
    """A file whose commits fail with the next error there is."""

    def __init__(self, path: Path, errors: list[sqlite3.Error], open_: threading.Event) -> None:
        self._real = connect(path)
        self._errors = errors
        self._open = open_

    def execute(self, sql: str, parameters: tuple[Any, ...] = (), /) -> Iterable[Any]:
        if sql == "COMMIT":
            assert self._open.wait(20)
            if self._errors:
                raise self._errors.pop(0)
        return self._real.execute(sql, parameters)

    def close(self) -> None:
        self._real.close()


def disk_error(code: int) -> sqlite3.OperationalError:
    error = sqlite3.OperationalError("the disk says no")
    error.sqlite_errorcode = code
    return error


# ----- kept, and found again


def test_what_was_entered_is_there_when_the_session_is_opened_again(tmp_path: Path) -> None:
    path = tmp_path / "data" / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 30))
        day.until("")
    found = opened(path)
    assert found.kept.entries == tuple(notes(1, 30))
    assert found.about == about()
    assert found.said == ""


def test_a_session_goes_on_where_it_was(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 3))
    store = reopen(path, as_read).store
    assert isinstance(store, SqliteStore)
    store.start()
    store.append(note(4))
    store.close()
    assert opened(path).kept.entries == tuple(notes(1, 4))


@given(st.data())
@settings(max_examples=15)
def test_any_entries_come_back_as_they_were(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    kinds = data.draw(st.lists(st.sampled_from(get_args(Action)), max_size=6))
    made = [data.draw(drawn(kind)) for kind in kinds]
    day = [replace(entry, number=at) for at, entry in enumerate(made, start=1)]
    path = tmp_path_factory.mktemp("any") / "day.session"
    with kept_in(path) as keeper:
        keeper.keep(day)
    found = reopen(path, ready)
    assert found.kept.entries == tuple(day)
    assert isinstance(found.store, SqliteStore)
    found.store.start()
    found.store.close()


def test_the_file_is_synchronised_at_every_commit(tmp_path: Path) -> None:
    seen: list[Database] = []

    def noted(path: Path) -> Database:
        seen.append(connect(path))
        return seen[-1]

    with kept_in(tmp_path / "day.session", connect_to=noted) as day:
        day.keep(notes(1, 1))
        day.until("")
        assert list(seen[0].execute("PRAGMA journal_mode")) == [("wal",)]
        assert list(seen[0].execute("PRAGMA synchronous")) == [(2,)]  # FULL
        assert list(seen[0].execute("PRAGMA user_version")) == [(len(STEPS),)]


def test_signs_of_life_say_how_the_clock_stood(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    beat = Beat(NOON_MS, NOON_MS + 7_000, 60.0, paused=True)
    with kept_in(path) as day:
        day.store.beat(beat)
        day.store.beat(replace(beat, machine_ms=NOON_MS + 1_000))
    assert opened(path).kept.beat == replace(beat, machine_ms=NOON_MS + 1_000)


def test_signs_of_life_are_written_now_and_then_and_when_the_clock_is_set(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        woken: list[Beat | None] = []
        for beat in (
            Beat(NOON_MS, 1),
            Beat(NOON_MS + 4_999, 2),
            Beat(NOON_MS + 5_000, 3),
            Beat(NOON_MS + 5_001, 4, 2.0),
            Beat(NOON_MS + 5_002, 5, 2.0, paused=True),
            Beat(NOON_MS + 5_003, 6, 2.0, paused=True),
            Beat(NOON_MS - 9_000, 7, 2.0, paused=True),
        ):
            day.store.beat(beat)
            woken.append(day.store._woken_by)
    assert [beat.board_ms for beat in woken if beat is not None] == [1, 1, 3, 4, 5, 5, 7]


def test_an_entry_that_cannot_be_written_down_is_no_entry(tmp_path: Path) -> None:
    with kept_in(tmp_path / "day.session") as day:
        with pytest.raises(ValueError, match="not kept"):
            day.store.append(replace(note(1), action=Note(object())))  # type: ignore[arg-type]
        assert day.store.entries == []


# ----- shown as done when it is on disk


def test_an_entry_is_being_written_until_the_commit_has_come_back(tmp_path: Path) -> None:
    goes = threading.Event()
    goes.set()
    with kept_in(tmp_path / "d.session", connect_to=lambda p: Failing(p, [], goes)) as day:
        day.until("")
        goes.clear()
        day.keep(notes(1, 1))
        assert day.store.trouble == WRITING
        assert day.store.unsaved == 0
        assert list(day.store.entries) == notes(1, 1)
        goes.set()
        day.until("")


@pytest.mark.parametrize(
    ("code", "why"),
    [
        (sqlite3.SQLITE_FULL, "the disk is full"),
        (sqlite3.SQLITE_BUSY, "another program has the file to itself"),
        (sqlite3.SQLITE_READONLY, "the disk takes nothing"),
        (sqlite3.SQLITE_IOERR_FSYNC, "the disk fails"),
    ],
)
def test_what_the_disk_would_not_take_is_said_and_written_later(
    tmp_path: Path, code: int, why: str
) -> None:
    path = tmp_path / "day.session"
    errors: list[sqlite3.Error] = []
    goes = threading.Event()
    goes.set()
    with kept_in(path, connect_to=lambda p: Failing(p, errors, goes)) as day:
        day.keep(notes(1, 1))
        day.until("")
        day.heard.clear()
        goes.clear()
        errors.extend([disk_error(code)] * 3)
        day.keep(notes(2, 3))
        goes.set()
        day.when(lambda: day.heard[-1:] == [""])
        assert day.heard == [f"not saved: {why}", ""]
    assert opened(path).kept.entries == tuple(notes(1, 3))


def test_a_folder_that_cannot_be_written_to_is_tried_again(tmp_path: Path) -> None:
    where = tmp_path / "data"
    where.write_text("a file where the folder should be", encoding="utf-8")
    path = where / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 2))
        day.until("not saved: the folder cannot be written to")
        assert day.store.unsaved == 2
        where.unlink()
        day.until("")
        assert day.store.unsaved == 0
    assert opened(path).kept.entries == tuple(notes(1, 2))


def test_a_file_locked_by_another_program_is_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    quick = lambda where: sqlite3.connect(  # noqa: E731
        where, timeout=0, isolation_level=None, check_same_thread=False
    )
    with kept_in(path, connect_to=quick) as day:
        day.until("")
        with closing(connect(path)) as other:
            other.execute("BEGIN IMMEDIATE")
            day.keep(notes(1, 1))
            day.until("not saved: another program has the file to itself")
            assert day.store.unsaved == 1
        day.until("")
    assert opened(path).kept.entries == tuple(notes(1, 1))


def test_a_file_that_vanishes_is_written_anew_with_all_it_had(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 3))
        day.until("")
        path.unlink()
        for end in ("-wal", "-shm"):
            path.with_name(path.name + end).unlink()
        day.keep(notes(4, 4))
        day.until("")
    assert opened(path).kept.entries == tuple(notes(1, 4))


def test_a_file_spoilt_while_it_is_open_is_set_aside_and_written_anew(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    errors: list[sqlite3.Error] = []
    goes = threading.Event()
    goes.set()
    with kept_in(path, connect_to=lambda p: Failing(p, errors, goes)) as day:
        day.keep(notes(1, 3))
        day.until("")
        errors.append(sqlite3.DatabaseError("database disk image is malformed"))
        day.keep(notes(4, 4))
        day.when(lambda: not errors)
        day.until("")
    assert opened(path).kept.entries == tuple(notes(1, 4))
    assert (tmp_path / "day.damaged-1.session").exists()


# ----- two windows


def test_the_second_window_only_reads_and_reads_along(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 2))
        day.until("")
        found = reopen(path, as_read)
        assert isinstance(found.store, ReadingStore)
        assert found.store.reads_only
        assert found.store.trouble == "only reads"
        assert list(found.store.entries) == notes(1, 2)
        assert not found.store.look()
        day.keep(notes(3, 3))
        day.until("")
        assert found.store.look()
        assert list(found.store.entries) == notes(1, 3)
        with pytest.raises(ValueError, match="only reads"):
            found.store.append(note(4))
    again = reopen(path, as_read)
    assert isinstance(again.store, SqliteStore)
    Keeper(again.store).store.close()


def test_the_lock_is_let_go_of_at_the_end(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 1))
        day.until("")
        assert take_lock(path) is None
    lock = take_lock(path)
    assert lock is not None
    lock.let_go()


def test_a_writer_whose_session_another_took_meanwhile_says_so(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    lock = take_lock(path)
    assert lock is not None
    with kept_in(path) as day:
        day.until("not saved: another window has this session open")
        lock.let_go()
        day.until("")


# ----- damaged files


def damaged(path: Path, change: Any) -> Opened:
    """A session of forty entries, changed on disk and opened again."""
    with kept_in(path) as day:
        day.keep(notes(1, 40))
    data = bytearray(path.read_bytes())
    change(data)
    path.write_bytes(data)
    return opened(path)


def in_number(data: bytearray, number: int, size: int = 1) -> None:
    """Spoil the words of one entry."""
    at = data.index(f"word {number} word".encode())
    data[at : at + size] = b"x" * size


def test_an_entry_changed_on_disk_is_left_out_and_the_file_set_aside(tmp_path: Path) -> None:
    found = damaged(tmp_path / "day.session", lambda data: in_number(data, 7))
    assert found.kept.entries == tuple(n for n in notes(1, 40) if n.number != 7)
    assert "39 entries were brought over" in found.said
    assert "day.damaged-1.session" in found.said
    assert (tmp_path / "day.damaged-1.session").exists()
    assert opened(tmp_path / "day.session").kept.entries == found.kept.entries
    assert opened(tmp_path / "day.session").said == ""


def test_what_was_brought_over_is_on_disk_before_anything_else_happens(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 40))
    data = bytearray(path.read_bytes())
    in_number(data, 7)
    path.write_bytes(data)
    found = reopen(path, as_read)  # and its store is never started: the program was killed
    assert isinstance(found.store, SqliteStore)
    found.store.let_go()
    again = opened(path)
    assert again.said == ""
    assert again.kept.entries == found.kept.entries
    assert len(again.kept.entries) == 39
    assert again.kept.kept_ms is not None


def test_a_damaged_file_on_a_disk_without_room_is_read_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 40))
    path.write_bytes(path.read_bytes().replace(b"word 7 word", b"word 7 worm"))

    def no_room(*_: object) -> None:
        raise disk_error(sqlite3.SQLITE_FULL)

    monkeypatch.setattr("core.session.opening.begin", no_room)
    found = opened(path)
    assert len(found.kept.entries) == 39
    assert found.said == "The session's file is damaged: 39 entries were brought over"
    assert not (tmp_path / "day.damaged-1.session").exists()
    assert len(opened(path).kept.entries) == 39


def test_a_spoilt_page_costs_only_what_stood_in_it(tmp_path: Path) -> None:
    def spoil(data: bytearray) -> None:
        at = data.index(b"word 20 word") // 4096 * 4096
        data[at : at + 4096] = bytes(4096)

    found = damaged(tmp_path / "day.session", spoil)
    numbers = [entry.number for entry in found.kept.entries]
    assert 20 not in numbers
    assert len(numbers) >= 20
    assert numbers == sorted(set(numbers))


def test_a_file_without_its_head_gives_its_entries_but_not_its_plan(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 40))
    path.write_bytes(bytes(100) + path.read_bytes()[100:])
    with pytest.raises(SessionProblem, match="what plan it is of"):
        reopen(path, as_read)
    found = reopen(path, as_read, about)
    assert found.kept.entries == tuple(notes(1, 40))
    assert isinstance(found.store, SqliteStore)
    Keeper(found.store).store.close()


def test_a_session_of_a_later_version_is_not_touched(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 1))
    with closing(connect(path)) as database:
        database.execute(f"PRAGMA user_version = {len(STEPS) + 1}")
    before = path.read_bytes()
    with pytest.raises(LaterVersion, match="from a later program"):
        reopen(path, as_read)
    assert path.read_bytes() == before
    lock = take_lock(path)
    assert lock is not None
    lock.let_go()


def test_an_entry_under_anothers_number_is_damage(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 3))
    with closing(connect(path)) as database:
        database.execute("UPDATE entry SET number = 9 WHERE number = 2")
    found = opened(path)
    assert [entry.number for entry in found.kept.entries] == [1, 2, 3]
    assert found.said


def test_a_file_on_a_disk_that_takes_nothing_is_read_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "day.session"
    with kept_in(path) as day:
        day.keep(notes(1, 3))

    def refused(_where: Path) -> Database:
        raise disk_error(sqlite3.SQLITE_CANTOPEN)

    monkeypatch.setattr("core.session.opening.connect", refused)
    monkeypatch.setattr("core.session.opening.take_lock", refused)
    found = reopen(path, as_read)
    assert found.kept.entries == tuple(notes(1, 3))
    assert found.said == ""
    assert path.exists()


def test_entries_are_numbered_on_from_the_last(tmp_path: Path) -> None:
    entries: list[Entry] = [note(1), note(3)]
    path = tmp_path / "day.session"
    with kept_in(path, entries) as day:
        day.keep([note(4)])
    assert [entry.number for entry in opened(path).kept.entries] == [1, 3, 4]
