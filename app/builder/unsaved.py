"""Drafts that are not saved yet, kept beside in a folder of this user: a crash costs nothing."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from glob import escape
from hashlib import sha256
from itertools import count
from pathlib import Path

_NEW = "new"
_LONGEST_STEM = 40


@dataclass(frozen=True, slots=True)
class Kept:
    """A draft as it was kept: its text, and the text of the plan's file that it began from."""

    file: Path
    saved: str
    text: str
    at: datetime
    """When it was kept, on this computer's clock."""


def kept_draft(folder: Path, plan: Path | None, standing: str) -> Kept | None:
    """The latest draft kept of a plan (None: of a new one); `standing` is the plan's file as it is.

    One that says the same as the plan's file is of no use any more, and is removed.
    """
    for file in sorted(_files(folder, plan), key=_kept_s, reverse=True):
        kept = _read(file)
        if kept is not None and kept.text != standing:
            return kept
        if kept is not None:
            file.unlink(missing_ok=True)
    return None


def free_file(folder: Path, plan: Path | None) -> Path:
    """A file that no other draft of that plan is kept in."""
    stem = _stem(plan)
    names = (f"{stem}.json" if at == 1 else f"{stem}.{at}.json" for at in count(1))
    return next(folder / name for name in names if not (folder / name).exists())


def keep(file: Path, saved: str, text: str) -> None:
    """Keep a draft. Raises OSError. What was kept there before is replaced as a whole."""
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    new = file.with_name(f"{file.name}.part")
    # Not forced onto the disk: typing does not wait for it. A crash of the program loses nothing.
    new.write_text(json.dumps({"saved": saved, "text": text}), encoding="utf-8")
    new.replace(file)


def _stem(plan: Path | None) -> str:
    if plan is None:
        return _NEW
    return f"{plan.stem[:_LONGEST_STEM]}-{sha256(str(plan.resolve()).encode()).hexdigest()[:16]}"


def _files(folder: Path, plan: Path | None) -> Iterator[Path]:
    return folder.glob(f"{escape(_stem(plan))}.*json")


def _kept_s(file: Path) -> float:
    try:
        return file.stat().st_mtime
    except OSError:  # let go by another window meanwhile
        return 0.0


def _read(file: Path) -> Kept | None:
    """What is kept in a file; None where it is none of ours or damaged."""
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
        at = datetime.fromtimestamp(file.stat().st_mtime).astimezone()
    except (OSError, ValueError):
        return None
    if not isinstance(found, dict):
        return None
    saved, text = found.get("saved"), found.get("text")
    if not isinstance(saved, str) or not isinstance(text, str):
        return None
    return Kept(file, saved, text, at)
