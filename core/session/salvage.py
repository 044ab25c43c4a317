"""A damaged session: what can be read of it, and setting it aside. Nothing is deleted."""

import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from core.entries.model import Entry
from core.errors import LaterVersion, SessionProblem
from core.session.codec import entry_of
from core.session.database import BESIDE, Database, read_copy
from core.session.keeping import About, Kept, about_of
from core.session.kept_plan import Ready
from core.session.sealing import sealed_in, unsealed

_FAR = 1_000
"""So many entries beyond the last that was found are asked for by their numbers."""


def set_aside(path: Path) -> Path:
    """Rename a session's file with what belongs to it; gives the new name. Raises OSError."""
    number = 1
    while (aside := path.with_name(f"{path.stem}.damaged-{number}{path.suffix}")).exists():
        number += 1
    for end in ("", *BESIDE):
        there = path.with_name(f"{path.name}{end}")
        if there.exists():
            there.rename(aside.with_name(f"{aside.name}{end}"))
    return aside


def salvage(path: Path, ready: Ready) -> Kept:
    """What can be read of a damaged file: row by row, then what lies whole in its bytes.

    The file itself is not touched. Raises LaterVersion for an entry that is not spoilt but newer.
    """
    about: About | None = None
    bodies: list[str] = []
    with suppress(sqlite3.Error, OSError):
        about, bodies = read_copy(path, lambda db: (_about(db), list(_rows(db))))
    for end in ("", BESIDE[0]):
        bodies.extend(sealed_in(_bytes(path.with_name(f"{path.name}{end}"))))
    found: dict[int, Entry] = {}
    for body in bodies:
        entry = _entry(body, ready)
        if entry is not None:
            found.setdefault(entry.number, entry)
    entries = tuple(found[number] for number in sorted(found))
    return Kept(about, entries, kept_ms=_written_ms(path))


def _about(database: Database) -> About | None:
    with suppress(sqlite3.Error, SessionProblem):
        for (text,) in database.execute("SELECT about FROM session"):
            return about_of(str(text))
    return None


def _rows(database: Database) -> Iterator[str]:
    """The bodies of the entries, those behind a spoilt page too."""
    last = 0
    with suppress(sqlite3.Error):
        for number, body in database.execute("SELECT number, body FROM entry ORDER BY number"):
            last = number
            yield str(body)
        return
    for number in range(last + 1, last + _FAR):
        with suppress(sqlite3.Error):
            for (body,) in database.execute("SELECT body FROM entry WHERE number = ?", (number,)):
                yield str(body)


def _entry(body: str, ready: Ready) -> Entry | None:
    """An entry that is whole, None for one that is spoilt."""
    try:
        return entry_of(unsealed(body), ready)
    except LaterVersion:
        raise
    except SessionProblem:
        return None


def _written_ms(path: Path) -> int | None:
    """The machine's time when the file or its log was last written."""
    files = (path.with_name(f"{path.name}{end}") for end in ("", BESIDE[0]))
    with suppress(OSError):
        written_ns = max((f.stat().st_mtime_ns for f in files if f.exists()), default=None)
        return None if written_ns is None else written_ns // 1_000_000
    return None


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""
