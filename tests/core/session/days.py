"""Sessions in a folder of their own, with a small plan, for the tests of the store."""

import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from core.entries.model import Entry, Note
from core.plan.model import Plan
from core.plan.reader import read_plan_text
from core.session.keeping import About
from core.session.sqlite_store import SqliteStore
from core.times.instants import rfc3339_to_ms

PLAN_TEXT = """
limbwatch = 1
title = "Petrel 4"
zones = ["America/Halifax"]

[[event]]
id = "liftoff"
name = "Liftoff"
at = 2031-05-11T13:28:00
"""
NOON_MS = rfc3339_to_ms("2031-05-11T12:00:00Z")
WAIT_S = 20.0
"""Far longer than any commit takes."""


def plan() -> Plan:
    return read_plan_text(PLAN_TEXT, "petrel.toml", Path("plans"))


def about() -> About:
    return About(plan(), "plans/petrel.toml")


def as_read(read: Plan) -> Plan:
    return read


def note(number: int) -> Entry:
    return Entry(number, NOON_MS + number * 1_000, f"note {number}", Note(f"word {number} " * 9))


def notes(first: int, last: int) -> list[Entry]:
    return [note(number) for number in range(first, last + 1)]


class Keeper:
    """A store that runs, and what it was heard to say."""

    def __init__(self, store: SqliteStore) -> None:
        self.store = store
        self.heard: list[str] = []
        self._changed = threading.Condition()
        store.told = self._told
        store.start()

    def keep(self, entries: Sequence[Entry]) -> None:
        for entry in entries:
            self.store.append(entry)

    def until(self, trouble: str) -> None:
        """Wait until the store says just that."""
        self.when(lambda: self.store.trouble == trouble)

    def when(self, so: Callable[[], bool]) -> None:
        with self._changed:
            assert self._changed.wait_for(so, WAIT_S), self.store.trouble

    def _told(self) -> None:
        with self._changed:
            self.heard.append(self.store.trouble)
            self._changed.notify_all()


@contextmanager
def kept_in(path: Path, entries: Sequence[Entry] = (), **other: Any) -> Iterator[Keeper]:
    """A new session's store, running, closed at the end."""
    keeper = Keeper(SqliteStore(path, about(), entries, again_s=0.01, **other))
    try:
        yield keeper
    finally:
        keeper.store.close()
