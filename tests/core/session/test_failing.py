"""A disk that fails at random, until its power is cut, has all that was shown as done."""

from pathlib import Path

from tests.core.session.failing import run


def test_no_entry_shown_as_done_is_lost_by_a_failing_disk(tmp_path: Path) -> None:
    counts = run(tmp_path, 8, 3)
    assert counts.cuts == 8
    assert counts.faults > 20
    assert counts.kept >= counts.done > 0
