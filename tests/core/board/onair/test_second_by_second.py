"""The programme looked at second by second is the one looked at once."""

from pathlib import Path

import pytest

from core.board.onair.now import OnAir
from tests.core.board.boards import Seat, at_ms
from tests.core.board.programmes import on_the_air

LINES = {
    "16:41:12": ("break 3 at 4:45p", "hall at 4:50:30p"),
    "16:44:00": ("stop at 4:49p",),
    "16:49:10": ("hall now",),
    "16:53:30": ("hall over", "break 4 at 5:05p"),
    "17:02:00": ("air off until 5:10p",),
}


@pytest.mark.parametrize("clock", LINES)
def test_what_was_kept_from_one_second_to_the_next_is_what_is_so(
    tmp_path: Path, clock: str
) -> None:
    taken = on_the_air(tmp_path)
    for when, lines in LINES.items():
        taken.go_to(when)
        for line in lines:
            taken.take(line)
        if when == clock:
            break
    _compare(taken, at_ms(clock))


def _compare(taken: Seat, from_ms: int) -> None:
    """All of it where places are proposed anew, each half minute; else all but those."""
    session = taken.desk._session
    kept = session.on_air
    for now_ms in range(from_ms, from_ms + 9 * 60_000, 1_000):
        anew = now_ms % 30_000 == 1_000
        told = kept.at(now_ms)
        if not anew and now_ms % 7_000:
            continue
        session.schedule.tick(now_ms)
        fresh = OnAir(session.scene, session.standing).at(now_ms)
        assert (told.lane, told.figures) == (fresh.lane, fresh.figures)
        assert told.panel.rows == fresh.panel.rows
        assert told.panel.owed == fresh.panel.owed or not anew
        assert [lost.words for lost in told.broken] == [lost.words for lost in fresh.broken]
        assert told == fresh or not anew
