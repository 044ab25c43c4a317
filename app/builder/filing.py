"""The plan's file: opened, saved, and never written over what somebody else has changed in it."""

import os
import shutil
from pathlib import Path

from core.errors import LimbwatchError, PlanProblems
from core.plan.drafting.draft import Draft
from core.plan.files import read_text

SUFFIX = ".toml"
UNNAMED = "the new plan"


class CannotSave(LimbwatchError):
    """A plan is not saved; the message says why and what to do."""


def open_draft(path: Path) -> Draft:
    """The draft of a plan's file. Raises PlanProblems where it is no TOML."""
    return Draft(read_text(path, str(path)), str(path), path.parent)


def save_draft(draft: Draft, path: Path, *, fresh: bool) -> None:
    """Write a draft to its file; `fresh`: to another one than it came from.

    Raises CannotSave where the file has been changed meanwhile, is there already, or cannot be
    written. A file is only ever replaced as a whole.
    """
    standing = _standing(path)
    if fresh and standing is not None:
        raise CannotSave(f"{path.name} is there already: save it under another name")
    if not fresh and standing != draft.saved:
        what = "is gone" if standing is None else "was changed by someone else"
        raise CannotSave(f"{path.name} {what}: Ctrl+Shift+S saves yours under another name")
    there = path.resolve()  # a link stays one
    new = there.with_name(f".{there.name}.new")
    try:
        with new.open("w", encoding="utf-8", newline="") as file:
            file.write(draft.text)
            file.flush()
            os.fsync(file.fileno())
        if there.exists():
            shutil.copymode(there, new)
        new.replace(there)
    except OSError as error:
        raise CannotSave(f"{path.name} cannot be written: {error.strerror}") from error
    draft.saved = draft.text
    if fresh:
        draft.move(str(path), path.parent)


def put_beside(file: Path, folder: Path) -> Path:
    """A file in the plan's folder: where it is, else a copy. Raises CannotSave."""
    there = folder / file.name
    if there.exists() and there.resolve() == file.resolve():
        return there
    if there.exists() and there.read_bytes() != file.read_bytes():
        raise CannotSave(f"Another {file.name} stands beside the plan: rename the new one first")
    try:
        shutil.copyfile(file, there)
    except OSError as error:
        raise CannotSave(f"{file.name} cannot be copied: {error.strerror}") from error
    return there


def _standing(path: Path) -> str | None:
    """The text of a file as it is; None where there is none. CannotSave where it is unreadable."""
    if not path.exists():
        return None
    try:
        return read_text(path, str(path))
    except PlanProblems as problems:
        raise CannotSave(f"{path.name} cannot be read: {problems.problems[0].what}") from problems
