"""Opening a session again: to go on with it, or to read along where another window has it."""

import sqlite3
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from core.entries.model import Entry
from core.errors import LaterVersion, SessionProblem
from core.session.codec import entry_of, entry_text
from core.session.database import (
    BESIDE,
    check,
    connect,
    connect_to_read,
    is_damage,
    prepare,
    read_copy,
)
from core.session.keeping import About, Kept, about_text, read_kept
from core.session.kept_plan import Ready
from core.session.locking import take_lock
from core.session.salvage import salvage, set_aside
from core.session.sealing import sealed, unsealed
from core.session.sqlite_store import SqliteStore
from core.session.writing import begin


class ReadingStore:
    """Reads along in a session that another window writes to."""

    reads_only = True
    trouble = "only reads"
    unsaved = 0

    def __init__(self, path: Path, entries: Sequence[Entry], ready: Ready) -> None:
        self.path = path
        self._entries = list(entries)
        self._ready = ready

    @property
    def entries(self) -> Sequence[Entry]:
        """All entries that were read, oldest first."""
        return self._entries

    def append(self, entry: Entry) -> None:
        """Nothing can be kept here: ValueError."""
        raise ValueError(f"entry {entry.number} cannot be kept: this store only reads")

    def look(self) -> bool:
        """Read what has come since; gives whether anything has. What fails is read next time."""
        last = self._entries[-1].number if self._entries else 0
        asked = "SELECT body FROM entry WHERE number > ? ORDER BY number"
        try:
            with closing(connect_to_read(self.path)) as database:
                bodies = [str(row[0]) for row in database.execute(asked, (last,))]
            come = [entry_of(unsealed(body), self._ready) for body in bodies]
        except (sqlite3.Error, SessionProblem):
            return False
        self._entries.extend(come)
        return bool(come)


@dataclass(frozen=True, slots=True)
class Opened:
    """A session that is open again. `said`: what there is to be told of its file, or empty."""

    store: SqliteStore | ReadingStore
    about: About
    kept: Kept
    said: str = ""


def reopen(path: Path, ready: Ready, instead: Callable[[], About | None] = lambda: None) -> Opened:
    """The session in a file that is there; `instead` tells what it is of where the file does not.

    A store that writes is still to be started. Raises LaterVersion for a newer file, which is not
    touched, and SessionProblem where nobody can tell what the session is of.
    """
    try:
        lock = take_lock(path)
        in_use = lock is None
    except sqlite3.Error:  # nothing can be written there: the store will say so, and try again
        lock, in_use = None, False
    if in_use:
        kept = _read_along(path, ready)
        return Opened(ReadingStore(path, kept.entries, ready), _of(kept, instead), kept)
    try:
        kept, spoilt = _read(path, ready)
        about = _of(kept, instead)
    except SessionProblem:
        if lock is not None:
            lock.let_go()
        raise
    said = _brought_over(path, about, kept) if spoilt else ""
    return Opened(SqliteStore(path, about, kept.entries, lock=lock), about, kept, said)


def _of(kept: Kept, instead: Callable[[], About | None]) -> About:
    about = kept.about or instead()
    if about is None:
        raise SessionProblem("The session does not say what plan it is of")
    return about


def _read_along(path: Path, ready: Ready) -> Kept:
    try:
        with closing(connect_to_read(path)) as database:
            return read_kept(database, ready)
    except sqlite3.Error as error:
        raise SessionProblem(f"The session cannot be read: {error}") from error


def _read(path: Path, ready: Ready) -> tuple[Kept, bool]:
    """What the file holds, and whether it is spoilt: then what is left of it."""
    try:
        return _whole(path, ready), False
    except LaterVersion:
        raise
    except (sqlite3.Error, OSError, SessionProblem):
        return salvage(path, ready), True


def _whole(path: Path, ready: Ready) -> Kept:
    """What a sound file holds. Raises sqlite3.Error, OSError and SessionProblem for others."""
    try:
        with closing(connect(path)) as database:
            prepare(database)
            check(database)
            return read_kept(database, ready)
    except sqlite3.Error as error:
        if is_damage(error):
            raise
    return read_copy(path, lambda copy: read_kept(copy, ready))


def _brought_over(path: Path, about: About, kept: Kept) -> str:
    """Write what could be read to a new file, put it in the spoilt one's place, and say so.

    Where there is no room for it the store goes on from what it holds, as with any failing disk.
    """
    count = len(kept.entries)
    read = "1 entry was" if count == 1 else f"{count} entries were"
    said = f"The session's file is damaged: {read} brought over"
    fresh = path.with_name(f"{path.name}.new")
    try:
        for end in ("", *BESIDE):
            fresh.with_name(f"{fresh.name}{end}").unlink(missing_ok=True)
        with closing(connect(fresh)) as database:
            prepare(database)
            bodies = [(entry.number, sealed(entry_text(entry))) for entry in kept.entries]
            begin(database, about_text(about), bodies, kept.kept_ms)
        aside = set_aside(path)
        fresh.replace(path)
    except (sqlite3.Error, OSError):
        return said
    return f"{said}, the old file is {aside.name}"
