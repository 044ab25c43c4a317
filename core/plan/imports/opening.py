"""Texts as they are dropped or pasted: decoded and checked before anything reads them."""

import codecs
import re
from dataclasses import dataclass

from core.errors import Place, PlanProblems, Problem

LARGEST_BYTES = 20_000_000
LONGEST_LINE = 100_000
"""Characters of one line. A longer one is no line of a table or a timeline."""

_SMALLER = "Take the part with the times only"
_WIDE = ((codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))
_ODD = re.compile(r"[\x00-\x08\x0e-\x1f\x7f\ud800-\udfff]")
_ENDS = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Opened:
    """The text of some bytes, and what must be told of how it was decoded."""

    text: str
    told: tuple[str, ...] = ()


def text_of(data: bytes, shown: str) -> Opened:
    """The text of a file or of a clipboard: UTF-8 or UTF-16, else Windows-1252, which is told.

    Raises PlanProblems where it is over 20 MB or no text.
    """
    if len(data) > LARGEST_BYTES:
        raise refused(shown, "this is over 20 MB", _SMALLER)
    for mark, encoding in _WIDE:
        if data.startswith(mark):
            return Opened(checked(_decoded(data[len(mark) :], encoding, shown), shown))
    if wide := _unmarked_wide(data):
        return Opened(checked(_decoded(data, wide, shown), shown))
    try:
        return Opened(checked(data.decode("utf-8-sig"), shown))
    except UnicodeDecodeError as error:
        if b"\0" in data:
            raise refused(shown, "this is no text", "Save it as text, in UTF-8") from error
        at = data.count(b"\n", 0, error.start) + 1
    told = f"Line {at} is not UTF-8: all was read as Windows-1252. Check the accented letters"
    return Opened(checked(data.decode("cp1252", "replace"), shown), (told,))


def checked(text: str, shown: str) -> str:
    """The text as it is read, without a byte order mark.

    Raises PlanProblems where it is over 20 MB, empty, or holds a control character.
    """
    if len(text) > LARGEST_BYTES:
        raise refused(shown, "this is over 20 MB", _SMALLER)
    plain = text.removeprefix("\ufeff")
    if not plain.strip():
        raise refused(shown, "this is empty", "Copy the lines with the times, and try again")
    if found := _ODD.search(plain):
        line, column = _place(plain, found.start())
        sign = "a NUL" if found[0] == "\0" else "a control character"
        raise refused(
            shown, f"here is {sign}", "Take it out, or copy it as plain text", line, column
        )
    return plain


def lines_of(text: str) -> list[str]:
    """The lines of a text, whichever way they end; the first one is line 1."""
    return _ENDS.split(text)


def refused(shown: str, what: str, hint: str, line: int = 0, column: int = 0) -> PlanProblems:
    """The error to raise where a whole text cannot be taken."""
    return PlanProblems((Problem(Place(shown, line, column), what, hint),))


def _place(text: str, at: int) -> tuple[int, int]:
    before = lines_of(text[:at])
    return len(before), len(before[-1]) + 1


def _decoded(data: bytes, encoding: str, shown: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        raise refused(
            shown, "this is UTF-16 and breaks off", "Save or copy it again, as UTF-8"
        ) from error


def _unmarked_wide(data: bytes) -> str:
    """The UTF-16 that a text without a mark is in, by where its first NULs lie; else nothing."""
    start = data[:64]
    if len(start) < 4 or len(data) % 2:
        return ""
    even, odd = start[::2].count(0), start[1::2].count(0)
    if odd * 4 >= len(start) and not even:
        return "utf-16-le"
    if even * 4 >= len(start) and not odd:
        return "utf-16-be"
    return ""
