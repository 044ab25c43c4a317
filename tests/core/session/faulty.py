"""A disk under SQLite that fails at random, and whose power can be cut.

What is written reaches the platter only when it is synchronised; a synchronisation that fails loses
some of what it was to bring there, and the next one that succeeds does not bring it after all: as
file systems do. When the power is cut, any part of what was not yet synchronised may be there.
"""

import random
import sqlite3
import threading
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import apsw

_SECTOR = 512
_CODES = {
    "write": (apsw.SQLITE_FULL, apsw.SQLITE_IOERR_WRITE),
    "sync": (apsw.SQLITE_IOERR_FSYNC,),
    "truncate": (apsw.SQLITE_IOERR_TRUNCATE,),
}


class Disk:
    """What is in which file: on the platter for good, and only written."""

    def __init__(self, folder: Path, chance: random.Random, *, often: float) -> None:
        self.folder = folder
        self.often = often
        self.faults = 0
        self.vfs_name = f"faulty-{id(self)}"
        self._chance = chance
        self._guard = threading.RLock()
        self._platter: dict[str, bytearray] = {}
        self._unsynced: dict[str, list[tuple[int, bytes | None]]] = {}
        self._vfs = _Vfs(self.vfs_name, self)

    def connect(self, path: Path) -> "Faulty":
        """A file on this disk, opened for a session."""
        return Faulty(path, self.vfs_name)

    def end(self) -> None:
        """Take it out of SQLite again."""
        self._vfs.unregister()

    def may_fail(self, doing: str) -> None:
        """Fail now and then."""
        with self._guard:
            if self._chance.random() < self.often:
                self.faults += 1
                raise apsw.exception_for(self._chance.choice(_CODES[doing]))

    def opened(self, name: str) -> None:
        """A file is there, empty if it is new."""
        with self._guard:
            self._platter.setdefault(name, bytearray())
            self._unsynced.setdefault(name, [])

    def deleted(self, name: str) -> None:
        """A file is gone."""
        with self._guard:
            self._platter.pop(name, None)
            self._unsynced.pop(name, None)

    def wrote(self, name: str, at: int, data: bytes | None) -> None:
        """Something was written, or cut off at a place where `data` is None."""
        with self._guard:
            self._unsynced[name].append((at, data))

    def synced(self, name: str) -> None:
        """All that was written has reached the platter."""
        with self._guard:
            for each in self._unsynced[name]:
                _apply(self._platter[name], *each)
            self._unsynced[name].clear()

    def half_synced(self, name: str) -> None:
        """Some of it has, and nobody will ever see to the rest."""
        with self._guard:
            self._apply_some(name, self._platter[name])
            self._unsynced[name].clear()

    def cut_power(self, into: Path) -> None:
        """Write down what would be found after the power was cut now."""
        with self._guard:
            into.mkdir()
            for name, platter in self._platter.items():
                left = bytearray(platter)
                self._apply_some(name, left)
                (into / Path(name).name).write_bytes(left)

    def _apply_some(self, name: str, left: bytearray) -> None:
        likely = self._chance.choice((0.0, 0.5, 0.9))
        for at, data in self._unsynced[name]:
            if data is None:
                if self._chance.random() < likely:
                    _apply(left, at, None)
                continue
            for begin in range(0, len(data), _SECTOR):
                if self._chance.random() < likely:
                    _apply(left, at + begin, data[begin : begin + _SECTOR])


def _apply(content: bytearray, at: int, data: bytes | None) -> None:
    if data is None:
        del content[at:]
        return
    content.extend(bytes(max(0, at - len(content))))
    content[at : at + len(data)] = data


class _Vfs(apsw.VFS):
    def __init__(self, name: str, disk: Disk) -> None:
        self._disk = disk
        super().__init__(name, "")

    def xOpen(self, name: Any, flags: list[int]) -> "_File":  # noqa: N802  # SQLite's name
        file = _File(name, flags, self._disk)
        self._disk.opened(file.name)
        return file

    def xDelete(self, filename: str, syncdir: bool) -> None:  # noqa: N802
        super().xDelete(filename, syncdir)
        self._disk.deleted(filename)


class _File(apsw.VFSFile):
    def __init__(self, name: Any, flags: list[int], disk: Disk) -> None:
        self.name = name.filename() if isinstance(name, apsw.URIFilename) else str(name)
        self._disk = disk
        super().__init__("", name, flags)

    def xWrite(self, data: bytes, offset: int) -> None:  # noqa: N802
        try:
            self._disk.may_fail("write")
        except apsw.Error:
            part = bytes(data[: len(data) // 2])
            super().xWrite(part, offset)
            self._disk.wrote(self.name, offset, part)
            raise
        super().xWrite(data, offset)
        self._disk.wrote(self.name, offset, bytes(data))

    def xTruncate(self, newsize: int) -> None:  # noqa: N802
        self._disk.may_fail("truncate")
        super().xTruncate(newsize)
        self._disk.wrote(self.name, newsize, None)

    def xSync(self, flags: int) -> None:  # noqa: N802
        try:
            self._disk.may_fail("sync")
        except apsw.Error:
            self._disk.half_synced(self.name)
            raise
        del flags
        self._disk.synced(self.name)  # the machine's own disk need not be asked


class Faulty:
    """A file on such a disk, as a session wants it: its errors are sqlite3's."""

    def __init__(self, path: Path, vfs: str) -> None:
        try:
            self._real = apsw.Connection(str(path), vfs=vfs)
        except apsw.Error as error:
            raise _as_sqlite3(error) from error

    def execute(self, sql: str, parameters: tuple[Any, ...] = (), /) -> Iterable[Any]:
        try:
            return list(self._real.execute(sql, parameters))
        except apsw.Error as error:
            raise _as_sqlite3(error) from error

    def close(self) -> None:
        try:
            self._real.close(force=True)
        except apsw.Error as error:
            raise _as_sqlite3(error) from error


def _as_sqlite3(error: apsw.Error) -> sqlite3.Error:
    spoilt = isinstance(error, apsw.CorruptError | apsw.NotADBError)
    kind = sqlite3.DatabaseError if spoilt else sqlite3.OperationalError
    other = kind(str(error))
    other.sqlite_errorcode = getattr(error, "extendedresult", sqlite3.SQLITE_IOERR)
    return other
