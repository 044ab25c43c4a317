"""Text files as a stranger may hand them over: read safely, or told in one problem."""

import stat
from pathlib import Path, PurePosixPath

from core.errors import Place, PlanProblems, Problem

LARGEST_BYTES = 20_000_000

_WIDE_MARKS = (b"\xff\xfe", b"\xfe\xff")
_MARK = "\ufeff"


PLAIN = "A plan holds words and times only"
"""The remedy for a text that is too large for a plan."""


def read_text(
    path: Path, shown: str, largest_bytes: int = LARGEST_BYTES, smaller: str = PLAIN
) -> str:
    """The text of a UTF-8 file (a byte order mark is dropped).

    `shown` is the file's name in problems. Raises PlanProblems with one problem where the file is
    missing, is no ordinary file, is over 20 MB (or the size given, with its remedy `smaller`),
    holds NUL bytes, or is in another encoding. What is too large is not read at all.
    """
    try:
        told = path.stat()
        if not stat.S_ISREG(told.st_mode):
            raise _alone(shown, *_not_a_file(path))
        if told.st_size > largest_bytes:
            raise _too_large(shown, largest_bytes, smaller)
        with path.open("rb") as file:
            data = file.read(largest_bytes + 1)
    except FileNotFoundError as error:
        raise _alone(shown, "there is no such file", "Check the name and the folder") from error
    except (OSError, ValueError) as error:
        said = error.strerror if isinstance(error, OSError) and error.strerror else "bad name"
        raise _alone(shown, f"this file cannot be opened: {said.lower()}") from error
    return decode(data, shown, largest_bytes, smaller)


def decode(
    data: bytes, shown: str, largest_bytes: int = LARGEST_BYTES, smaller: str = PLAIN
) -> str:
    """The text of a file's bytes; raises PlanProblems as `read_text` does."""
    if len(data) > largest_bytes:
        raise _too_large(shown, largest_bytes, smaller)
    if data.startswith(_WIDE_MARKS):
        raise _alone(shown, "this file is in UTF-16", "Save it as UTF-8")
    if (at := data.find(b"\0")) >= 0:
        raise _placed(data, at, shown, "here is a NUL byte", "Save it as plain text in UTF-8")
    try:
        return data.decode("utf-8").removeprefix(_MARK)
    except UnicodeDecodeError as error:
        raise _placed(
            data, error.start, shown, "from here on this file is not UTF-8", "Save it as UTF-8"
        ) from error


def check_text(text: str, shown: str) -> None:
    """Raise PlanProblems where a text that did not come from a file is too long or has a NUL."""
    if len(text) > LARGEST_BYTES:
        raise _alone(shown, "this text is over 20 MB", PLAIN)
    if (at := text.find("\0")) >= 0:
        raise _placed(text[:at].encode(), at, shown, "here is a NUL", "Take it out")


def beside(folder: Path, name: str) -> tuple[Path | None, str, str]:
    """Where the file `name` of a plan in `folder` stands, or what is wrong with it and the remedy.

    Only files inside the folder are taken, also after symbolic links are followed.
    """
    hint = "Put the file beside the plan and write only its name"
    if not name.strip() or any(ord(letter) < 32 for letter in name) or len(name) > 1_000:
        return None, "this is no file name", hint
    parts = PurePosixPath(name.replace("\\", "/"))
    if parts.is_absolute() or ".." in parts.parts or ":" in name:
        return None, f"'{name[:60]}' is outside the plan's folder", hint
    try:
        here = folder.resolve()
        there = (here / name).resolve()
    except (OSError, RuntimeError, ValueError):
        return None, f"'{name[:60]}' leads nowhere", hint
    if not there.is_relative_to(here):
        return None, f"'{name[:60]}' leads outside the plan's folder", hint
    return there, "", ""


def _not_a_file(path: Path) -> tuple[str, str]:
    if path.is_dir():
        return "this is a folder", "Name the plan's file in it"
    return "this is no ordinary file", "Name a file with the plan as text"


def _too_large(shown: str, largest_bytes: int, smaller: str) -> PlanProblems:
    return _alone(shown, f"this file is over {largest_bytes // 1_000_000} MB", smaller)


def _alone(shown: str, what: str, hint: str = "") -> PlanProblems:
    return PlanProblems((Problem(Place(shown), what, hint),))


def _placed(data: bytes, at: int, shown: str, what: str, hint: str) -> PlanProblems:
    before = data[:at].rpartition(b"\n")[2]
    line = data.count(b"\n", 0, at) + 1
    column = len(before.decode("utf-8", "replace").removeprefix(_MARK)) + 1
    return PlanProblems((Problem(Place(shown, line, column), what, hint),))
