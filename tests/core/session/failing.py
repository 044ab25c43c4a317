"""Entries streamed to a disk that fails at random, until its power is cut."""

import random
import sqlite3
import threading
from dataclasses import dataclass
from pathlib import Path

from core.entries.model import Entry
from core.session.opening import reopen
from core.session.sqlite_store import SqliteStore
from tests.core.session.days import about, as_read, note
from tests.core.session.faulty import Disk

_MOST = 60
_WAIT_S = 20.0
_OFTEN = (0.0, 0.02, 0.08, 0.15)


@dataclass
class Counts:
    """What came of all cuts."""

    cuts: int = 0
    faults: int = 0
    done: int = 0
    kept: int = 0
    set_aside: int = 0
    """Files that were found spoilt, and read all the same."""


def run(folder: Path, cuts: int, seed: int) -> Counts:
    """Cut the power so often; AssertionError where an entry shown as done is not there."""
    counts = Counts()
    for number in range(cuts):
        chance = random.Random(f"{seed} {number}")
        done, faults, left = _cut(folder / f"{number}", chance)
        entries, said = _found(left)
        wanted = tuple(note(each) for each in range(1, len(entries) + 1))
        assert entries == wanted, f"cut {number}: {[each.number for each in entries]}"
        assert len(entries) >= done, f"cut {number}: {done} shown as done, {len(entries)} there"
        counts.cuts += 1
        counts.faults += faults
        counts.done += done
        counts.kept += len(entries)
        counts.set_aside += bool(said)
    return counts


def _cut(folder: Path, chance: random.Random) -> tuple[int, int, Path]:
    """Give how many were shown as done, how often the disk failed, and what is left."""
    folder.mkdir()
    disk = Disk(folder, random.Random(chance.random()), often=chance.choice(_OFTEN))
    store = SqliteStore(folder / "day.session", about(), connect_to=disk.connect, again_s=0.001)
    wanted, last = chance.randrange(1, _MOST), chance.randrange(_MOST)
    done, changed = 0, threading.Condition()

    def told() -> None:
        nonlocal done
        with store._guard, changed:
            done = len(store._entries) - len(store._waiting)
            changed.notify_all()

    store.told = told
    store.start()
    for number in range(1, wanted + 1):
        store.append(note(number))
        if chance.random() < 0.5:
            with changed:
                changed.wait_for(lambda: done >= min(number, last), _WAIT_S)  # noqa: B023
    with changed:
        assert changed.wait_for(lambda: done >= min(wanted, last), _WAIT_S), store.trouble
        shown = done
    disk.cut_power(folder / "left")
    disk.often = 0.0
    store.close()
    disk.end()
    return shown, disk.faults, folder / "left" / "day.session"


def _found(path: Path) -> tuple[tuple[Entry, ...], str]:
    try:
        opened = reopen(path, as_read, about)
    except sqlite3.Error as error:
        raise AssertionError(str(error)) from error
    assert isinstance(opened.store, SqliteStore)
    opened.store.let_go()
    return opened.kept.entries, opened.said
