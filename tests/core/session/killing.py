"""Processes that are killed while entries stream into a session, and what is there afterwards.

Run as a program of its own, so that what is forked has no thread and no window:

    python -m tests.core.session.killing FOLDER KILLS SEED
"""

import os
import random
import select
import signal
import sys
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from core.session.opening import reopen
from core.session.sqlite_store import SqliteStore
from tests.core.session.days import about, as_read, note

_A_FILE = 12
"""So many kills go on in one session's file before another is begun."""
_MOST_DONE = 40
_LONGEST_S = 0.003


@dataclass
class Counts:
    """What came of all kills."""

    kills: int = 0
    done: int = 0
    kept: int = 0
    in_flight: int = 0
    """Kills at which something was being written."""


def run(folder: Path, kills: int, seed: int) -> Counts:
    """Kill so many processes; AssertionError where an entry shown as done is not there."""
    chance, counts = random.Random(seed), Counts()
    for number in range(kills):
        path = folder / f"{number // _A_FILE}.session"
        sent, done = _killed(path, chance)
        found = _found(path) if path.exists() else 0
        assert found >= done, f"kill {number}: {done} were shown as done, {found} are there"
        counts.kills += 1
        counts.in_flight += sent > done
        counts.done = counts.done + done
        counts.kept = counts.kept + found
    return counts


def _killed(path: Path, chance: random.Random) -> tuple[int, int]:
    """Let a process write and kill it; gives the last entry sent, and the last shown as done."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        os.close(reading)
        _stream(path, writing, random.Random(chance.random()))
    os.close(writing)
    heard = b""
    for _ in range(chance.randrange(_MOST_DONE)):
        heard += os.read(reading, 4096)
    select.select([], [], [], chance.random() * _LONGEST_S)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while more := os.read(reading, 65536):
        heard += more
    os.close(reading)
    lines = heard.decode().split("\n")[:-1]
    said = {word: [int(line[1:]) for line in lines if line[0] == word] for word in "sd"}
    return max(said["s"], default=0), max(said["d"], default=0)


def _stream(path: Path, writing: int, chance: random.Random) -> None:
    """Enter one after the other, and tell of each that it was sent, and that it is done."""
    store = _store(path)

    def told() -> None:
        with store._guard:
            done = len(store._entries) - len(store._waiting)
        if done:
            os.write(writing, f"d{store._entries[done - 1].number}\n".encode())

    store.told = told
    store.start()
    first = store.entries[-1].number + 1 if store.entries else 1
    for number in count(first):
        store.append(note(number))
        os.write(writing, f"s{number}\n".encode())
        select.select([], [], [], chance.random() * _LONGEST_S)


def _store(path: Path) -> SqliteStore:
    if not path.exists():
        return SqliteStore(path, about())
    store = reopen(path, as_read, about).store
    assert isinstance(store, SqliteStore)
    return store


def _found(path: Path) -> int:
    """The last entry that is there; all before it must be, in order, each once, as entered."""
    opened = reopen(path, as_read, about)
    assert opened.said == "", opened.said
    assert isinstance(opened.store, SqliteStore)
    opened.store.let_go()
    entries = opened.kept.entries
    assert entries == tuple(note(number) for number in range(1, len(entries) + 1))
    return len(entries)


if __name__ == "__main__":
    found = run(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
    sys.stdout.write(f"{found.kills} {found.in_flight} {found.done} {found.kept}\n")
