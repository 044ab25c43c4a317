"""A session's file read for its record: only read, also while another window writes to it."""

import sqlite3
from contextlib import closing
from pathlib import Path

from core.errors import LaterVersion, SessionProblem
from core.session.database import BESIDE, STEPS, Database, connect_to_read, is_damage, read_copy
from core.session.keeping import Kept, read_kept
from core.session.kept_plan import Ready
from core.session.record.making import Source
from core.session.salvage import salvage

_MAGIC = b"SQLite format 3\x00"
_FOREIGN = "that is no session of Limbwatch"
_HINT = "Give a file that ends in .session, or a session's name"


class _ForeignError(SessionProblem):
    """The file is another program's."""


class NoRecord(SessionProblem):
    """A session's file that no record can be made of: which, what is wrong, what to do."""

    def __init__(self, path: Path, what: str, hint: str) -> None:
        super().__init__(f"{path}: {what}. {hint}")
        self.path = path
        self.what = what
        self.hint = hint


def read_session(path: Path, ready: Ready, *, anyway: bool = False) -> Source:
    """What a record is made of. `anyway`: of a damaged file, what can be read of it.

    Raises NoRecord for a file that is missing, damaged, foreign, or of a later program.
    """
    _look_at(path)
    try:
        return _source(path, _whole(path, ready))
    except LaterVersion as later:
        raise NoRecord(
            path, f"this program is too old for it ({later})", "Update Limbwatch"
        ) from later
    except _ForeignError as foreign:
        raise NoRecord(path, _FOREIGN, _HINT) from foreign
    except (sqlite3.Error, OSError, SessionProblem) as error:
        if anyway:
            return _source(path, salvage(path, ready))
        raise NoRecord(
            path,
            f"the session's file is damaged ({error})",
            "--anyway makes a record of what can be read of it",
        ) from error


def _look_at(path: Path) -> None:
    """Whether it may be a session at all. Raises NoRecord."""
    try:
        with path.open("rb") as file:
            begins = file.read(len(_MAGIC))
    except FileNotFoundError as error:
        raise NoRecord(path, "there is no such file", _HINT) from error
    except IsADirectoryError as error:
        raise NoRecord(path, "that is a folder", _HINT) from error
    except OSError as error:
        raise NoRecord(
            path, f"it cannot be read: {error.strerror}", "See who may read it"
        ) from error
    if begins != _MAGIC:
        raise NoRecord(path, _FOREIGN, _HINT)


def _whole(path: Path, ready: Ready) -> Kept:
    """All that a sound file holds. Raises sqlite3.Error, OSError and SessionProblem for others.

    A file that nobody has open is read from a copy: even a reader leaves files beside it.
    """
    if not path.with_name(f"{path.name}{BESIDE[0]}").exists():
        return read_copy(path, lambda copy: _read(copy, ready))
    try:
        with closing(connect_to_read(path)) as database:
            return _read(database, ready)
    except sqlite3.OperationalError as error:
        if is_damage(error):
            raise
    return read_copy(path, lambda copy: _read(copy, ready))  # a disk that takes nothing


def _read(database: Database, ready: Ready) -> Kept:
    ((version,),) = database.execute("PRAGMA user_version")
    if version > len(STEPS):
        raise LaterVersion(f"it is of version {version}")
    if version < 1:
        raise _ForeignError(_FOREIGN)
    return read_kept(database, ready)


def _source(path: Path, kept: Kept) -> Source:
    if kept.about is None:
        raise NoRecord(
            path, "it does not say what plan it is of", "Give a copy from before it was damaged"
        )
    beat_ms = None if kept.beat is None else kept.beat.board_ms
    return Source(kept.about.plan, kept.entries, path.stem, kept.about.rehearsal, end_ms=beat_ms)
