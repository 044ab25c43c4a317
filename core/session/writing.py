"""The thread that writes a session's entries to its file, away from the screen's.

It has the file for itself: opens it, commits what has come, and after any failure closes it and
tries again until all is written.
"""

import sqlite3
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from core.session.database import Connect, Database, is_damage, prepare, transaction, trouble_words
from core.session.locking import Lock, take_lock
from core.session.salvage import set_aside

AGAIN_S = 1.0
"""So long after a failure it is tried anew."""

_IN_USE = "another window has this session open"


class _InUseError(OSError):
    """Another window holds the session's lock."""


@dataclass(frozen=True, slots=True)
class Work:
    """What is to be written: entries as (number, body), and the last sign of life."""

    bodies: tuple[tuple[int, str], ...] = ()
    beat: str = ""
    kept_ms: int = 0


@dataclass(frozen=True, slots=True)
class Hands:
    """What the writer takes its work from, and where it tells how it went."""

    take: Callable[[], Work]
    """All that is to be written now."""
    written: Callable[[Work], None]
    failed: Callable[[str], None]
    """The words of why."""
    everything: Callable[[], tuple[str, Sequence[tuple[int, str]]]]
    """What the session is of, and every entry: for a file begun anew."""


class Writer:
    """Writes in a thread of its own from `start` to `stop`; `wake` says that there is work."""

    def __init__(
        self, path: Path, connect: Connect, hands: Hands, lock: Lock | None, again_s: float
    ) -> None:
        self._path = path
        self._connect = connect
        self._hands = hands
        self._lock = lock
        self._again_s = again_s
        self._database: Database | None = None
        self._file = 0
        """Which file it is, by the number the system has for it."""
        self._shaken = True  # how the file was left is not known before it was opened once
        self._work = threading.Event()
        self._ends = threading.Event()
        self._thread = threading.Thread(target=self._run, name="session", daemon=True)

    def start(self) -> None:
        """Begin to write."""
        self._thread.start()

    def let_go(self) -> None:
        """Let go of the lock, where it was never begun."""
        if self._lock is not None:
            self._lock.let_go()
            self._lock = None

    def wake(self) -> None:
        """There is something to write."""
        self._work.set()

    def stop(self, wait_s: float) -> None:
        """Write what there is, once more if it fails, and close the file."""
        self._ends.set()
        self._work.set()
        self._thread.join(wait_s)

    def _run(self) -> None:
        while not self._ends.is_set():
            self._work.wait()
            self._work.clear()
            while not self._do() and not self._ends.wait(self._again_s):
                pass
        self._do()
        self._close()
        self.let_go()

    def _do(self) -> bool:
        """Write all there is; gives whether it was."""
        try:
            work = self._hands.take()
            self._write(work)
        except (sqlite3.Error, OSError) as error:
            self._close()
            self._shaken = True
            self._hands.failed(_IN_USE if isinstance(error, _InUseError) else trouble_words(error))
            if is_damage(error):
                self._begin_anew()
            return False
        self._hands.written(work)
        return True

    def _write(self, work: Work) -> None:
        database = self._opened(work.kept_ms)
        with transaction(database):
            _insert(database, work.bodies, work.kept_ms)
            if work.beat:
                database.execute("INSERT OR REPLACE INTO beat VALUES (1, ?)", (work.beat,))

    def _opened(self, kept_ms: int) -> Database:
        """The open file, as sound as it can be made."""
        if self._database is not None:
            self._still_there()
            return self._database
        self._path.parent.mkdir(parents=True, exist_ok=True)
        if self._lock is None:
            self._lock = take_lock(self._path)
            if self._lock is None:
                raise _InUseError
        self._database = database = self._connect(self._path)
        prepare(database)
        if self._shaken:
            _settle(database)
            self._shaken = False
        if not list(database.execute("SELECT 1 FROM session")):
            begin(database, *self._hands.everything(), kept_ms)
        self._file = self._path.stat().st_ino
        return database

    def _still_there(self) -> None:
        """Raises OSError where the file was taken away: what is written to it would go with it."""
        if self._path.stat().st_ino != self._file:
            raise FileNotFoundError(self._path)

    def _begin_anew(self) -> None:
        """The file was spoilt meanwhile: it is set aside, and all is written to a new one."""
        with suppress(OSError):
            set_aside(self._path)

    def _close(self) -> None:
        database, self._database = self._database, None
        if database is not None:
            with suppress(sqlite3.Error):
                database.close()


def begin(
    database: Database, about: str, bodies: Sequence[tuple[int, str]], kept_ms: int | None
) -> None:
    """Write down what a new file's session is of, and all it has so far."""
    with transaction(database):
        database.execute("INSERT INTO session VALUES (1, ?)", (about,))
        _insert(database, bodies, kept_ms)


def _insert(database: Database, bodies: Sequence[tuple[int, str]], kept_ms: int | None) -> None:
    """Write entries. Again where one is there already: after a failure nobody knows how safe."""
    for number, body in bodies:
        database.execute("INSERT OR REPLACE INTO entry VALUES (?, ?, ?)", (number, kept_ms, body))


def _settle(database: Database) -> None:
    """Bring the log into the file, and begin the log anew.

    After a failed synchronisation what stands in the log may look written and not be; whatever
    came behind it there would be lost with it. Raises where that cannot be done now.
    """
    ((busy, _, _),) = database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    if busy:
        error = sqlite3.OperationalError("the log is being read")
        error.sqlite_errorcode = sqlite3.SQLITE_BUSY
        raise error
