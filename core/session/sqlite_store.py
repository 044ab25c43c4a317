"""The session on disk. What is entered is in the list at once; a thread writes it down.

Until that thread has come back from the commit, `trouble` says 'writing …': an entry is shown as
done only when it is on disk, and no key ever waits for the disk.
"""

import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from core.entries.model import Entry
from core.session.codec import entry_text
from core.session.database import Connect, connect
from core.session.keeping import About, Beat, about_text, beat_text
from core.session.locking import Lock
from core.session.sealing import sealed
from core.session.writing import AGAIN_S, Hands, Work, Writer

WRITING = "writing …"
BEAT_MS = 5_000
"""So often a sign of life is written; a rehearsal's clock goes on from the last one."""

_CLOSE_S = 10.0
"""So long the end of the program waits for a slow disk."""


def _nothing() -> None:
    """Nobody is told."""


def _machine_ms() -> int:
    return time.time_ns() // 1_000_000


def _is_news(beat: Beat, last: Beat) -> bool:
    """Whether a sign of life is to be written now: it is time, or the clock was set otherwise."""
    late = not 0 <= beat.machine_ms - last.machine_ms < BEAT_MS
    return late or (beat.rate, beat.paused) != (last.rate, last.paused)


class SqliteStore:
    """Keeps the entries in a file, from `start` to `close`.

    `entries` are those the file has; a new file is given all of them first. `told` is called on
    the writer's thread whenever `trouble` has changed.
    """

    reads_only = False

    def __init__(
        self,
        path: Path,
        about: About,
        entries: Sequence[Entry] = (),
        *,
        lock: Lock | None = None,
        connect_to: Connect = connect,
        told: Callable[[], None] = _nothing,
        machine_ms: Callable[[], int] = _machine_ms,
        again_s: float = AGAIN_S,
    ) -> None:
        self.path = path
        self.about = about
        self.told = told
        self._machine_ms = machine_ms
        self._guard = threading.Lock()
        self._entries = list(entries)
        self._waiting: list[tuple[int, str]] = []
        self._beat: Beat | None = None
        self._woken_by: Beat | None = None
        self._failure = ""
        hands = Hands(self._take, self._was_written, self._has_failed, self._everything)
        self._writer = Writer(path, connect_to, hands, lock, again_s)

    def start(self) -> None:
        """Begin to write: first of all, what the session is of."""
        self._writer.start()
        self._writer.wake()

    def let_go(self) -> None:
        """Begin nothing: let another window have the session."""
        self._writer.let_go()

    def close(self) -> None:
        """Write all there is, and let go of the file."""
        self._writer.stop(_CLOSE_S)

    @property
    def entries(self) -> Sequence[Entry]:
        """All entries, oldest first, those taken back too."""
        return self._entries

    @property
    def trouble(self) -> str:
        """Why the entries are not all safe, or empty."""
        with self._guard:
            if self._failure:
                return f"not saved: {self._failure}"
            return WRITING if self._waiting else ""

    @property
    def unsaved(self) -> int:
        """How many entries the disk would not take; those that are being written count as kept."""
        with self._guard:
            return len(self._waiting) if self._failure else 0

    def append(self, entry: Entry) -> None:
        """Keep one more. ValueError for one that cannot be written down."""
        body = sealed(entry_text(entry))
        with self._guard:
            self._entries.append(entry)
            self._waiting.append((entry.number, body))
        self._writer.wake()

    def beat(self, beat: Beat) -> None:
        """Take a sign of life; it is written with the next entry, or soon."""
        self._beat = beat
        last = self._woken_by
        if last is None or _is_news(beat, last):
            self._woken_by = beat
            self._writer.wake()

    def _take(self) -> Work:
        with self._guard:
            waiting = tuple(self._waiting)
        beat = self._beat
        return Work(waiting, "" if beat is None else beat_text(beat), self._machine_ms())

    def _was_written(self, work: Work) -> None:
        with self._guard:
            del self._waiting[: len(work.bodies)]
            changed = bool(work.bodies or self._failure)
            self._failure = ""
        if changed:
            self.told()

    def _has_failed(self, why: str) -> None:
        with self._guard:
            changed = self._failure != why
            self._failure = why
        if changed:
            self.told()

    def _everything(self) -> tuple[str, Sequence[tuple[int, str]]]:
        with self._guard:
            entries = tuple(self._entries)
        return about_text(self.about), [(e.number, sealed(entry_text(e))) for e in entries]
