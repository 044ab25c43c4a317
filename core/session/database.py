"""The file of a session: one SQLite database, with a write-ahead log, every commit synchronised."""

import errno
import sqlite3
from collections.abc import Callable, Iterable
from contextlib import closing
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory
from typing import Any, Protocol, TypeVar

from core.errors import LaterVersion

BUSY_S = 2.0
"""So long another program may have the file to itself, a backup for one."""

BESIDE = ("-wal", "-shm")
"""What SQLite keeps beside the file, by the ends of the names."""

STEPS: tuple[tuple[str, ...], ...] = (
    (
        "CREATE TABLE session (one INTEGER PRIMARY KEY CHECK (one = 1), about TEXT NOT NULL)",
        "CREATE TABLE entry (number INTEGER PRIMARY KEY, kept_ms INTEGER, body TEXT NOT NULL)",
        "CREATE TABLE beat (one INTEGER PRIMARY KEY CHECK (one = 1), body TEXT NOT NULL)",
    ),
)
"""What brings the file to the next version, from an empty one on."""

_T = TypeVar("_T")


class Database(Protocol):
    """An open file. Every error is one of sqlite3's."""

    def execute(self, sql: str, parameters: tuple[Any, ...] = ..., /) -> Iterable[Any]:
        """Run a statement; gives its rows."""

    def close(self) -> None:
        """Let go of the file."""


Connect = Callable[[Path], Database]


def connect(path: Path) -> Database:
    """The file opened for reading and writing, made where there is none."""
    return sqlite3.connect(path, timeout=BUSY_S, isolation_level=None, check_same_thread=False)


def connect_to_read(path: Path) -> Database:
    """The file opened for reading only; another program may write to it meanwhile."""
    uri = f"{path.resolve().as_uri()}?mode=ro"
    return sqlite3.connect(uri, uri=True, timeout=BUSY_S, isolation_level=None)


def prepare(database: Database) -> None:
    """Bring the file to this version. Raises LaterVersion, with nothing touched, for a newer."""
    ((version,),) = database.execute("PRAGMA user_version")
    if version > len(STEPS):
        raise LaterVersion(f"The session's file is of version {version}, from a later program")
    list(database.execute("PRAGMA journal_mode = WAL"))
    list(database.execute("PRAGMA synchronous = FULL"))
    for number, step in enumerate(STEPS[version:], start=version + 1):
        with transaction(database):
            for statement in step:
                database.execute(statement)
            database.execute(f"PRAGMA user_version = {number}")


class transaction:  # noqa: N801  # read like a function: with transaction(database)
    """All of it or nothing: committed at the end, rolled back where something is raised."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def __enter__(self) -> None:
        """Begin, alone among writers."""
        self._database.execute("BEGIN IMMEDIATE")

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        """Commit; after a failure whoever asked closes the file, which rolls back."""
        if kind is None:
            self._database.execute("COMMIT")


def check(database: Database) -> None:
    """Raises sqlite3.DatabaseError where the file does not hang together."""
    found = [row[0] for row in database.execute("PRAGMA quick_check(1)")]
    if found != ["ok"]:
        raise sqlite3.DatabaseError(str(found[0]))


def read_copy(path: Path, read: Callable[[Database], _T]) -> _T:
    """What `read` gives of a copy of the file: on a disk that takes nothing it can't be opened."""
    with TemporaryDirectory(prefix="limbwatch-") as folder:
        copy = Path(folder) / path.name
        copyfile(path, copy)
        log = path.with_name(f"{path.name}{BESIDE[0]}")
        if log.exists():
            copyfile(log, copy.with_name(log.name))
        with closing(connect(copy)) as database:
            return read(database)


def is_damage(error: Exception) -> bool:
    """Whether an error says that the file itself is spoilt, and no trying again will help."""
    if not isinstance(error, sqlite3.DatabaseError):
        return False
    code = getattr(error, "sqlite_errorcode", None)
    no_such_table = isinstance(error, sqlite3.OperationalError) and code == sqlite3.SQLITE_ERROR
    return type(error) is sqlite3.DatabaseError or no_such_table


def trouble_words(error: Exception) -> str:
    """Why a file could not be written, in a few words for the window."""
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    number = error.errno if isinstance(error, OSError) else 0
    if code == sqlite3.SQLITE_FULL or number in {errno.ENOSPC, errno.EDQUOT}:
        return "the disk is full"
    if code in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
        return "another program has the file to itself"
    if code == sqlite3.SQLITE_READONLY or number == errno.EROFS:
        return "the disk takes nothing"
    if code == sqlite3.SQLITE_CANTOPEN or isinstance(error, OSError):
        return "the folder cannot be written to"
    return "the disk fails"
