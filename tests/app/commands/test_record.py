"""`limbwatch record`: which session, which format, where to, and what it says of what it cannot."""

import os
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import icalendar
import pytest

from app.cli import main
from core.entries.model import Entry
from core.plan.reader import read_plan
from core.session.keeping import About
from core.session.shelf import Shelf
from core.session.sqlite_store import SqliteStore
from tests.app.commands.plans import Answer
from tests.core.session.record.days import PLAN, long_day

_ROOT = Path(__file__).parents[3]

Record = Callable[..., Answer]


def keep(path: Path, entries: list[Entry], *, rehearsal: bool = False) -> Path:
    """A session of the long day in a file, closed."""
    plan_file = path.with_name("petrel.toml")
    plan_file.parent.mkdir(parents=True, exist_ok=True)
    plan_file.write_text(PLAN, encoding="utf-8")
    store = SqliteStore(path, About(read_plan(plan_file), str(plan_file), rehearsal), entries)
    store.start()
    store.close()
    return path


@pytest.fixture
def session(tmp_path: Path) -> Path:
    return keep(tmp_path / "day.session", list(long_day().store.entries))


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of this user's sessions, in a place of its own."""
    folder = tmp_path / "shelf"
    monkeypatch.setattr("app.command_line.record.sessions_folder", lambda: folder)
    return folder


@pytest.fixture
def record(shelf: Path, capsys: pytest.CaptureFixture[str]) -> Record:
    """Runs the command."""
    del shelf

    def run(*words: object) -> Answer:
        status = main(["record", *map(str, words)])
        return Answer(status, *capsys.readouterr())

    return run


def shelved(folder: Path, name: str) -> Path:
    folder.mkdir(exist_ok=True)
    path = keep(folder / f"{name}.session", list(long_day().store.entries))
    Shelf(folder).mark(path)
    return path


def test_a_session_s_file_is_told_in_text(record: Record, session: Path) -> None:
    answer = record(session)
    assert answer.status == 0
    assert answer.out.startswith("Record: Petrel 4, arrival\n")
    assert "17:01:16" in answer.out
    assert answer.err == ""


def test_without_a_session_it_is_the_one_open_last(record: Record, shelf: Path) -> None:
    shelved(shelf, "20310514T190000Z-petrel-ab")
    shelved(shelf, "20310513T190000Z-petrel-ab")
    assert "Session: 20310513T190000Z-petrel-ab" in record().out


def test_a_name_or_part_of_it_is_enough(record: Record, shelf: Path) -> None:
    shelved(shelf, "20310514T190000Z-petrel-ab")
    shelved(shelf, "20310513T190000Z-curlew-cd")
    assert "Session: 20310514T190000Z-petrel-ab" in record("petrel").out
    assert "Session: 20310513" in record("20310513T190000Z-curlew-cd").out
    assert "Session: 20310513" in record("20310513T190000Z-curlew-cd.session").out


def test_a_name_that_may_be_several_lists_them(record: Record, shelf: Path) -> None:
    shelved(shelf, "20310514T190000Z-petrel-ab")
    shelved(shelf, "20310513T190000Z-petrel-ab")
    answer = record("petrel")
    assert answer.status == 2
    assert "20310514T190000Z-petrel-ab, 20310513T190000Z-petrel-ab" in answer.err


def test_a_name_that_is_none_tells_those_there_are(record: Record, shelf: Path) -> None:
    assert "there are none yet" in record("petrel").err
    shelved(shelf, "20310514T190000Z-petrel-ab")
    answer = record("curlew")
    assert answer.status == 2
    assert "neither a file nor a session's name; there are 20310514T190000Z-petrel-ab" in answer.err


def test_no_session_at_all_says_where_they_would_be(record: Record, shelf: Path) -> None:
    answer = record()
    assert answer.status == 2
    assert answer.err == f"There are no sessions in {shelf}: give a file\n"
    assert record("--list").out == f"There are no sessions in {shelf}\n"


def test_the_sessions_are_listed_newest_first(record: Record, shelf: Path) -> None:
    shelved(shelf, "20310513T190000Z-petrel-ab")
    shelved(shelf, "20310514T190000Z-petrel-ab")
    assert record("--list").out.split() == [
        "20310514T190000Z-petrel-ab",
        "20310513T190000Z-petrel-ab",
    ]


@pytest.mark.parametrize(
    ("end", "begins"),
    [
        ("txt", b"Record: "),
        ("csv", b"kind,rehearsal,"),
        ("ics", b"BEGIN:VCALENDAR"),
        ("html", b"<!DOCTYPE html>"),
    ],
)
def test_the_end_of_the_file_names_the_format(
    record: Record, session: Path, tmp_path: Path, end: str, begins: bytes
) -> None:
    out = tmp_path / f"day.{end}"
    for _ in range(2):  # a record may be written over one of its kind
        answer = record(session, "--out", out)
        assert (answer.status, answer.out) == (0, f"Written to {out}\n")
        assert out.read_bytes().startswith(begins)


def test_it_is_written_on_paper(
    record: Record, session: Path, tmp_path: Path, qapp: object
) -> None:
    del qapp
    out = tmp_path / "day.pdf"
    assert record(session, "--out", out).status == 0
    assert out.read_bytes().startswith(b"%PDF-")


def test_a_calendar_goes_to_the_terminal_as_the_standard_has_it(
    session: Path, shelf: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    del shelf
    assert main(["record", str(session), "--format", "ics"]) == 0
    out, _ = capfdbinary.readouterr()
    assert icalendar.Calendar.from_ical(out).walk("VEVENT")


def test_clock_times_are_written_as_asked(record: Record, session: Path) -> None:
    assert "5:01:16 p.m." in record(session, "--hours", "12").out
    assert "17:01:16" in record(session, "--hours", "24").out


def test_a_rehearsal_is_marked_on_every_line(record: Record, tmp_path: Path) -> None:
    day = long_day(rehearsal=True)
    path = keep(tmp_path / "trial.session", list(day.store.entries), rehearsal=True)
    lines = record(path).out.splitlines()
    assert lines
    assert all(line.startswith("REHEARSAL") for line in lines)


def test_a_session_that_runs_is_read_meanwhile(record: Record, tmp_path: Path) -> None:
    entries = list(long_day().store.entries)
    path = keep(tmp_path / "live.session", entries[:4])
    store = SqliteStore(path, About(long_day().plan, ""), entries[:4])
    store.start()
    for entry in entries[4:]:
        store.append(entry)
    try:
        _until(lambda: not store.trouble)
        assert "17:01:16" in record(path).out
        assert not store.trouble
    finally:
        store.close()


def _until(so: Callable[[], bool]) -> None:
    """Wait until it is so; a commit takes a millisecond or so."""
    waiting = threading.Event()
    for _ in range(2_000):
        if so():
            return
        waiting.wait(0.01)
    raise AssertionError("never")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--out", "day.toml"], "names no format; end it in .txt"),
        (["--out", "day.csv", "--format", "ics"], "is named like csv, and --format says ics"),
        (["--out", "missing/day.csv"], "there is no folder"),
        (["--out", "."], "names no format"),
    ],
)
def test_where_it_cannot_go_is_said(
    record: Record, session: Path, words: list[str], said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(session.parent)
    answer = record(session, *words)
    assert answer.status == 2
    assert said in answer.err
    assert answer.err.count("\n") == 1


@pytest.mark.parametrize("end", ["", "-wal", "-shm", ".lock"])
def test_nothing_is_written_over_the_session_itself(
    record: Record, session: Path, end: str
) -> None:
    before = session.read_bytes()
    answer = record(session, "--format", "csv", "--out", f"{session}{end}")
    assert answer.status == 2
    assert "is the session itself" in answer.err
    assert session.read_bytes() == before


def test_a_file_of_another_kind_is_not_written_over(
    record: Record, session: Path, tmp_path: Path
) -> None:
    mine = tmp_path / "mine.csv"
    mine.write_text("name,score\nann,3\n")
    answer = record(session, "--out", mine)
    assert answer.status == 2
    assert "is there already and is no record as csv; name another file" in answer.err
    assert mine.read_text() == "name,score\nann,3\n"


def test_broken_files_are_named_with_a_remedy_and_no_traceback(
    record: Record, session: Path, tmp_path: Path
) -> None:
    spoilt = tmp_path / "spoilt.session"
    spoilt.write_bytes(session.read_bytes()[:9_000])
    foreign = tmp_path / "notes.session"
    foreign.write_text("not a session")
    for path, said in (
        (tmp_path / "none.session", "there is no such file. Give a file"),
        (spoilt, "is damaged"),
        (foreign, "that is no session of Limbwatch. Give a file"),
        (tmp_path, "that is a folder. Give a file"),
    ):
        answer = record(path)
        assert (answer.status, answer.out) == (2, "")
        assert answer.err.startswith(f"{path}: ")
        assert said in answer.err
        assert answer.err.count("\n") == 1


@pytest.mark.parametrize(("kind", "loads"), [("text", False), ("html", False), ("pdf", True)])
def test_only_paper_loads_qt(session: Path, tmp_path: Path, kind: str, *, loads: bool) -> None:
    end = "txt" if kind == "text" else kind
    words = ["record", str(session), "--out", f"day.{end}"]
    program = (
        f"import sys; from app.cli import main; main({words!r}); print('PySide6' in sys.modules)"
    )
    known = {**os.environ, "PYTHONPATH": str(_ROOT), "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, cwd=tmp_path, env=known, check=True
    )
    assert done.stdout.split()[-1].decode() == str(loads)
