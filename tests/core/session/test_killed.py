"""A process that is killed while entries stream in has lost none that was shown as done."""

import subprocess
import sys
from pathlib import Path

import pytest

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
