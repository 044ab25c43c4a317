"""A process that is killed while entries stream in has lost none that was shown as done."""

import subprocess
import sys
from pathlib import Path

import pytest

from core.session.opening import ReadingStore, reopen
from core.session.sqlite_store import SqliteStore
from tests.core.session.days import as_read, notes

HOLDING = """
import sys
from pathlib import Path
from tests.core.session.days import kept_in, notes
with kept_in(Path(sys.argv[1])) as day:
    day.keep(notes(1, 3))
    day.until("")
    print("kept", flush=True)
    sys.stdin.read()
"""
ROOT = Path(__file__).parents[3]


@pytest.mark.skipif(sys.platform == "win32", reason="it forks and kills")
def test_ten_kills_lose_nothing_that_was_shown_as_done(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tests.core.session.killing", str(tmp_path), "10", "1"]
    ended = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=120
    )
    assert ended.returncode == 0, ended.stderr
    kills, _, done, kept = map(int, ended.stdout.split())
    assert kills == 10
    assert kept >= done > 0


def test_a_window_that_was_killed_leaves_no_lock_behind(tmp_path: Path) -> None:
    path = tmp_path / "day.session"
    other = subprocess.Popen(
        [sys.executable, "-c", HOLDING, str(path)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    with other:
        assert other.stdout is not None
        assert other.stdout.readline() == "kept\n"
        beside = reopen(path, as_read)
        assert isinstance(beside.store, ReadingStore)
        assert list(beside.store.entries) == notes(1, 3)
        other.kill()
    after = reopen(path, as_read)
    assert isinstance(after.store, SqliteStore)
    assert list(after.store.entries) == notes(1, 3)
    after.store.let_go()
