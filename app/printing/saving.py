"""Files that are there whole or not at all: written beside their place, then renamed."""

import os
import secrets
from contextlib import suppress
from pathlib import Path

from core.errors import LimbwatchError


class CannotWrite(LimbwatchError):
    """A file could not be written, and nothing of it was left; the message says why."""


def save(path: Path, data: bytes) -> None:
    """Write a file, in place of one that stands there. Raises CannotWrite."""
    try:
        target = path.resolve()
        _refuse(path, target)
        if target.exists() and not target.is_file():  # a device or a pipe: nothing to rename
            target.write_bytes(data)
        else:
            _beside(target, data)
    except (OSError, RuntimeError) as problem:  # RuntimeError: links that lead round in a circle
        why = problem.strerror if isinstance(problem, OSError) else "its links lead in a circle"
        raise CannotWrite(f"Cannot write {path}: {why}") from problem


def _refuse(path: Path, target: Path) -> None:
    if target.is_dir():
        raise CannotWrite(f"Cannot write {path}: it is a folder; name a file in it")
    if not target.parent.is_dir():
        raise CannotWrite(f"Cannot write {path}: there is no folder {target.parent}")
    if target.exists() and not os.access(target, os.W_OK):
        raise CannotWrite(f"Cannot write {path}: the file there is not to be changed")


def _beside(target: Path, data: bytes) -> None:
    part = target.with_name(f".limbwatch-{secrets.token_hex(4)}.part")
    try:
        with part.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(target)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
