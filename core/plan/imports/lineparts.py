"""One line of a timeline taken apart: its times, its words, what else stands there."""

import re
from dataclasses import dataclass, replace

from core.errors import TimeProblem
from core.plan.imports.moments import Found, Reading, found_at

_ROOM = re.compile(r"[^\S\t ]")
_MUCH_ROOM = re.compile(r"\s{9,}")
_BULLET = re.compile(r"\s*(?:[•·▪◦‣●○■□►▶*>✓–—-]\s+|\[[ xX]?\]\s+|\(?\d{1,2}[.)]\s+|[•·▪●■►▶])\s*")
_MARKS = re.compile(r"(?:\s*(?:[*†‡§¹²³⁴⁵⁶⁷⁸⁹]+|\[\d{1,2}\]))+(?=\s|$)")
_LEADERS = re.compile(r"\s*(?:\.{3,}|…+|(?:\s\.){3,}|_{3,}|·{3,}|-{3,})\s*")
_GAP = re.compile(r"\t+|\s{2,}|\s*\|\s*")
_BETWEEN = re.compile(r"(?:\s{2,}|\s*\t\s*|\s*[|/]\s*|\s*(?=\()|\s*,\s+)")
_LIKELY = re.compile(
    r"(?<![\w:.,/+−-])(?=\d{1,2}[:.h]\d\d|\d{1,2}\s?[ap]\.?m\b|\d{4}\s?(?:Z|UTC|GMT)\b"
    r"|[TL]\s?(?:[+−–-]\s?\d|minus|plus)|[MG]ET\s?[:=+-]?\s?\d|GMT\s?\d|\d{1,4}/\d\d:|\d{3,5}:\d\d"
    r"|noon\b|midnight\b|\d{4}-\d\d-\d\d[T ]\d|[A-Z][a-z]{2,8}\.?,? \d{1,2}(?:,| at| \d)"
    r"|\d{1,2} [A-Z][a-z]{2,8}\.?,? (?:at )?\d)",
    re.I,
)
_LINKS = re.compile(r"\s*\b(?:at|on|by|from|until|around|about|approximately)\s*$", re.I)
_EDGES = " \t-–—:|.,;…·_>"
_LONG_NAME = 80

LONGEST = 2_000
"""Characters of a line. What is longer is a page, not a line of a timeline."""


@dataclass(frozen=True, slots=True)
class Parts:
    """A line's times (the first counts), its name, and the rest of its words."""

    times: tuple[Found, ...]
    name: str
    note: str = ""


def plain(line: str) -> str:
    """The line with plain spaces, without bullet and without room at its ends."""
    text = _ROOM.sub(" ", line.replace("\ufeff", "")).rstrip()
    # Room without end only costs time: eight spaces are a column like any other.
    text = _MUCH_ROOM.sub(" " * 8, text)
    bullet = _BULLET.match(text)
    return text[bullet.end() :] if bullet and bullet.end() < len(text) else text.strip()


def parts_of(text: str, reading: Reading, elapsed: tuple[bool, ...]) -> Parts | None:
    """The parts of a line (made `plain`); None where no time stands in it.

    `elapsed` says for each column of times whether it is elapsed. Raises TimeProblem where a time
    means nothing, or where several stand in it.
    """
    at = len(text) - len(text.lstrip("(["))
    first = found_at(text, at, _expecting(reading, elapsed, 0))
    if first is None:
        return _behind(text, reading) or _within(text, reading)
    times, end = [first], first.end
    while (more := _next(text, end, reading, elapsed, len(times))) is not None:
        times.append(more)
        end = more.end
    return _named(tuple(times), text[end:])


def _expecting(reading: Reading, elapsed: tuple[bool, ...], at: int) -> Reading:
    expected = elapsed[at] if at < len(elapsed) else False
    return Reading(reading.setting, reading.near, expected, reading.day_first, reading.two_parts)


def _next(
    text: str, end: int, reading: Reading, elapsed: tuple[bool, ...], count: int
) -> Found | None:
    """A further time right after one: in the next column, or in brackets."""
    if count >= 3:
        return None
    between = _BETWEEN.match(text, end)
    columns = count < len(elapsed)
    if between is None and not columns:
        return None
    start = between.end() if between else end + (text[end : end + 1] == " ")
    bracket = text[start : start + 1] == "("
    found = found_at(text, start + bracket, _expecting(reading, elapsed, count))
    if found is not None and bracket and text[found.end : found.end + 1] == ")":
        return replace(found, end=found.end + 1)
    return found


def _behind(text: str, reading: Reading) -> Parts | None:
    """A line whose time stands in its last column: 'Loss of signal ..... 4:46'."""
    cells = [(match.start(), match.end()) for match in _LEADERS.finditer(text)]
    cells = cells or [(match.start(), match.end()) for match in _GAP.finditer(text)]
    if not cells:
        return None
    start, end = cells[-1]
    tail = _MARKS.sub("", text[end:]).strip(" ()")
    found = found_at(tail, 0, reading)
    if found is None or tail[found.end :].strip(" ).*"):
        return None
    return _named((found,), text[:start])


def _within(text: str, reading: Reading) -> Parts | None:
    """A line of prose with one time in it."""
    founds: list[tuple[int, Found]] = []
    for match in _LIKELY.finditer(text):
        if founds and match.start() < founds[-1][1].end:
            continue
        found = found_at(text, match.start(), reading)
        if found is not None:
            founds.append((match.start(), found))
    if not founds:
        return None
    if len(founds) > 1:
        raise TimeProblem("more than one time stands in this line", "Give each a line of its own")
    (start, found) = founds[0]
    before, after = _LINKS.sub("", text[:start]), text[found.end :]
    told = replace(found, told=found.told or "the time stood inside the line")
    return _named((told,), f"{before.rstrip()} {after.lstrip()}")


def _named(times: tuple[Found, ...], words: str) -> Parts:
    """The words beside the times: a name, and the rest as a note."""
    words = _MARKS.sub("", _LEADERS.sub("  ", words)).strip(_EDGES)
    words = words.removeprefix(")").strip(_EDGES)
    name, *more = [cell for cell in _GAP.split(words) if cell.strip(_EDGES)] or [""]
    note = " ".join(cell.strip() for cell in more)
    if len(name) > _LONG_NAME and ". " in name:
        name, _, rest = name.partition(". ")
        note = f"{rest.strip()} {note}".strip()
    return Parts(times, " ".join(name.strip(_EDGES).split()), note)
