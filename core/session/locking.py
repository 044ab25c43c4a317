"""One program writes to a session: who holds its lock.

The lock is SQLite's own, on an empty file beside the session: the system lets go of it when the
process ends, however it ends, so that none is ever left behind.
"""

import sqlite3
from pathlib import Path


class Lock:
    """Holds a session's lock until it is let go of."""

    def __init__(self, held: sqlite3.Connection) -> None:
        self._held = held

    def let_go(self) -> None:
        """Let another program have it."""
        self._held.close()


def take_lock(path: Path) -> Lock | None:
    """The lock of a session's file, None where another window has it.

    Raises sqlite3.Error where no lock can be made there.
    """
    beside = path.with_name(f"{path.name}.lock")
    held = sqlite3.connect(beside, timeout=0, isolation_level=None, check_same_thread=False)
    try:
        held.execute("BEGIN EXCLUSIVE")
    except sqlite3.OperationalError as error:
        held.close()
        if error.sqlite_errorcode in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
            return None
        raise
    return Lock(held)
