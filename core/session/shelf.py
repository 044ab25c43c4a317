"""The folder of sessions: one file each, and which was open last."""

import hashlib
import os
import re
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

SUFFIX = ".session"

_LAST = "last"
_REHEARSAL = "-rehearsal"


class Shelf:
    """Finds and names the sessions in a folder, which need not be there yet."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def new(self, plan: Path, machine_ms: int, *, rehearsal: bool) -> Path:
        """A file for a new session of a plan: when it was begun, the plan's name, and which."""
        end = f"{_of(plan)}{_REHEARSAL if rehearsal else ''}{SUFFIX}"
        while (path := self._folder / f"{_stamp(machine_ms)}-{end}").exists():
            machine_ms += 1_000
        return path

    def newest_of(self, plan: Path) -> Path | None:
        """The session of a plan that was begun last, rehearsals left out."""
        return max(self._folder.glob(f"*-{_of(plan)}{SUFFIX}"), default=None)

    def last(self) -> Path | None:
        """The session that was open last; where that is not written down, the newest."""
        with suppress(OSError, UnicodeDecodeError):
            path = self._folder / (self._folder / _LAST).read_text(encoding="utf-8").strip()
            if path.suffix == SUFFIX and path.is_file() and path.parent == self._folder:
                return path
        return next(iter(self.all()), None)

    def all(self) -> tuple[Path, ...]:
        """Every session, the one begun last first; not those that were set aside as damaged."""
        whole = (path for path in self._folder.glob(f"*{SUFFIX}") if ".damaged-" not in path.name)
        return tuple(sorted(whole, reverse=True))

    def named(self, name: str) -> tuple[Path, ...]:
        """The sessions a name may mean: the one of just that name, else all that it is part of."""
        exact = self._folder / f"{name.removesuffix(SUFFIX)}{SUFFIX}"
        if exact.parent == self._folder and exact.is_file():
            return (exact,)
        return tuple(path for path in self.all() if name in path.stem)

    def mark(self, path: Path) -> None:
        """Write down that this one is open. Without room or right the next start will guess."""
        with suppress(OSError):
            self._folder.mkdir(parents=True, exist_ok=True)
            fresh = self._folder / f"{_LAST}.{os.getpid()}"
            fresh.write_text(f"{path.name}\n", encoding="utf-8")
            fresh.replace(self._folder / _LAST)


def _of(plan: Path) -> str:
    """The plan's name in a file's name, and eight signs of where it stands."""
    where = str(plan.resolve())
    name = re.sub(r"[^a-z0-9]+", "-", plan.stem.lower()).strip("-")[:40] or "plan"
    return f"{name}-{hashlib.sha256(where.encode('utf-8', 'replace')).hexdigest()[:8]}"


def _stamp(machine_ms: int) -> str:
    return datetime.fromtimestamp(machine_ms // 1_000, UTC).strftime("%Y%m%dT%H%M%SZ")
