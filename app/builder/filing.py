"""The plan's file: opened, saved, and never written over what somebody else has changed in it."""

import os
import shutil
from pathlib import Path

from app.builder.unsaved import Kept
from core.errors import LimbwatchError, PlanProblems
from core.plan.drafting.draft import Draft
from core.plan.drafting.taking import take_course
from core.plan.files import read_text
from core.plan.imports.orbits import read_orbit

SUFFIX = ".toml"
UNNAMED = "the new plan"


class CannotSave(LimbwatchError):
    """A plan is not saved; the message says why and what to do."""


def open_draft(path: Path) -> Draft:
    """The draft of a plan's file. Raises PlanProblems where it is no TOML."""
    return Draft(read_text(path, str(path)), str(path), path.parent)


def fresh_draft(text: str, folder: Path) -> Draft:
    """The draft of a plan that has no file yet."""
    draft = Draft(text, UNNAMED, folder)
    draft.saved = ""
    return draft


def draft_of(kept: Kept, path: Path | None, folder: Path) -> Draft:
    """A draft as it was kept; of a new plan where there is no path. Raises PlanProblems."""
    if path is None:
        return fresh_draft(kept.text, folder)
    draft = Draft(kept.text, str(path), path.parent)
    draft.saved = kept.saved
    return draft


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


def file_name(draft: Draft) -> str:
    """A name for the file of a new plan, made of its title."""
    words = "".join(c if c.isalnum() else " " for c in draft.now.title.lower()).split()
    return f"{'-'.join(words) or 'plan'}.toml"


def course_beside(text: str, file: Path | None, plan: Path | None, draft: Draft) -> str:
    """Put an orbit file beside the plan, and a course that follows it into the draft.

    Gives what to say. Raises CannotSave, and PlanProblems where it is no orbit file.
    """
    if file is None or plan is None:
        first = "Save the plan first (Ctrl+S)" if file else "Save it as a file and drop it here"
        raise CannotSave(f"{first}: an orbit file stands beside the plan")
    orbit = read_orbit(text, file.name)
    put_beside(file, plan.parent)
    name = take_course(draft, orbit)
    return f"A course '{name}' follows {orbit.file}, beside the plan. Ctrl+Z takes it back"


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
