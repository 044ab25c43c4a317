"""Kills what writes a session, and cuts the power of a failing disk, some hundred times each.

python3 tasks.py bench store [KILLS] [CUTS]

An entry that was shown as done and is not there afterwards ends it with an error.
"""

import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

from core.session.sqlite_store import SqliteStore
from tests.core.session import failing, killing
from tests.core.session.days import Keeper, about, note

KILLS, CUTS, COMMITS = 500, 500, 300


def main(arguments: list[str]) -> int:
    """Print what came of it, and how long a commit takes."""
    kills, cuts = (int(given) for given in (*arguments, *(str(KILLS), str(CUTS))[len(arguments) :]))
    seed = random.randrange(1_000_000)
    with tempfile.TemporaryDirectory(prefix="limbwatch-bench-") as name:
        folder = Path(name)
        (folder / "killed").mkdir()
        killed = killing.run(folder / "killed", kills, seed)
        print(
            f"kills {killed.kills} (while writing: {killed.in_flight}), shown as done"
            f" {killed.done}, there {killed.kept}, lost 0, twice 0; seed {seed}"
        )
        (folder / "failing").mkdir()
        cut = failing.run(folder / "failing", cuts, seed)
        print(
            f"power cuts {cut.cuts} after {cut.faults} failed writes and syncs, shown as done"
            f" {cut.done}, there {cut.kept}, lost 0, twice 0, files set aside {cut.set_aside}"
        )
        took_ms = commits_ms(folder / "day.session")
        worst = sorted(took_ms)[int(len(took_ms) * 0.99)]
        print(f"a commit: {statistics.median(took_ms):.1f} ms, 99 of 100 within {worst:.1f} ms")
    return 0


def commits_ms(path: Path) -> list[float]:
    """How long it takes from the Enter until an entry is on disk, one after the other."""
    keeper = Keeper(SqliteStore(path, about()))
    took_ms = []
    for number in range(1, COMMITS + 1):
        begun_s = time.perf_counter()
        keeper.keep([note(number)])
        keeper.until("")
        took_ms.append((time.perf_counter() - begun_s) * 1_000)
    keeper.store.close()
    return took_ms


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
