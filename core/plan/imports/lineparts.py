"""One line of a timeline taken apart: its times, its words, what else stands there."""

import re
from dataclasses import dataclass, replace
from datetime import date

from core.errors import TimeProblem
from core.plan.imports.dates import DATE, days_within
from core.plan.imports.moments import Found, Reading, TimeColumn, found_at

_ROOM = re.compile(r"[^\S\t ]")
_MUCH_ROOM = re.compile(r"\s{9,}")
_BULLET = re.compile(
    r"\s*(?:\|\s*|[•·▪◦‣●○■□►▶*>✓–—-]\s+|\[[ xX]?\]\s+|\(?\d{1,2}[.)]\s+|[•·▪●■►▶])\s*"
)
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
_BRACKETS = re.compile(r"\s*\(([^()]{3,40})\)\s*$")
_EMPTY = re.compile(r"\(\s*\)|\[\s*\]")
_LONG_NAME = 80
_MOST_TIMES = 4

LONGEST = 2_000
"""Characters of a line. What is longer is a page, not a line of a timeline."""


@dataclass(frozen=True, slots=True)
class Parts:
    """A line's times (the first counts), its name, and the rest of its words."""

    times: tuple[Found, ...]
    name: str
    note: str = ""
    more: bool = False
    """Whether another time stands among its words."""


def plain(line: str) -> str:
    """The line with plain spaces, without bullet and without room at its ends."""
    text = _ROOM.sub(" ", line.replace("\ufeff", "")).rstrip()
    # Room without end only costs time: eight spaces are a column like any other.
    text = _MUCH_ROOM.sub(" " * 8, text)
    bullet = _BULLET.match(text)
    return text[bullet.end() :] if bullet and bullet.end() < len(text) else text.strip()


def parts_of(text: str, reading: Reading, columns: tuple[TimeColumn, ...]) -> Parts | None:
    """The parts of a line (made `plain`); None where no time stands in it.

    `columns` is what a heading says of each column of times. Raises TimeProblem where a time means
    nothing, or where several stand in it.
    """
    at = len(text) - len(text.lstrip("(["))
    first = found_at(text, at, _in_column(reading, columns, 0))
    if first is None:
        return _behind(text, reading, columns) or _within(text, reading)
    times, end = [first], first.end
    while (more := _next(text, end, reading, columns, len(times))) is not None:
        times.append(more)
        end = more.end
    return _named(tuple(times), text[end:], reading)


def _in_column(reading: Reading, columns: tuple[TimeColumn, ...], at: int) -> Reading:
    """The reading for one column of times."""
    return replace(reading, column=columns[at]) if at < len(columns) else reading


def _next(
    text: str, end: int, reading: Reading, columns: tuple[TimeColumn, ...], count: int
) -> Found | None:
    """A further time right after one: in the next column, or in brackets."""
    if count >= _MOST_TIMES:
        return None
    between = _BETWEEN.match(text, end)
    if between is None and count >= len(columns):
        return None
    start = between.end() if between else end + (text[end : end + 1] == " ")
    bracket = text[start : start + 1] == "("
    found = found_at(text, start + bracket, _in_column(reading, columns, count))
    if found is not None and bracket and text[found.end : found.end + 1] == ")":
        return replace(found, end=found.end + 1)
    return found


def _behind(text: str, reading: Reading, columns: tuple[TimeColumn, ...]) -> Parts | None:
    """A line whose times stand in its last columns: 'Loss of signal ..... 4:46'."""
    gaps = [*_LEADERS.finditer(text)] or [*_GAP.finditer(text)]
    for count in range(min(_MOST_TIMES, len(gaps)), 0, -1):
        starts = [gap.end() for gap in gaps[-count:]]
        ends = [*(gap.start() for gap in gaps[len(gaps) - count + 1 :]), len(text)]
        cells = [text[start:end] for start, end in zip(starts, ends, strict=True)]
        times = _all_times(cells, reading, columns, alone=count == 1)
        if times is not None:
            return _named(times, text[: gaps[-count].start()], reading)
    return None


def _all_times(
    cells: list[str], reading: Reading, columns: tuple[TimeColumn, ...], *, alone: bool
) -> tuple[Found, ...] | None:
    """The times in cells, each of which must hold one, or the day of those, and nothing else."""
    times: list[Found] = []
    day: date | None = None
    for cell in cells:
        bare = _MARKS.sub("", cell).strip(" ()")
        if DATE.fullmatch(bare):
            day = next(iter(days_within(bare, reading.near)), None)
            continue
        try:
            found = found_at(bare, 0, _in_column(reading, columns, len(times)))
        except TimeProblem:
            if alone:
                raise
            return None
        if found is None or bare[found.end :].strip(" ).*"):
            return None
        times.append(found)
    clocks = [at for at, found in enumerate(times) if found.dial is not None]
    if day is not None and clocks:
        times[clocks[0]] = replace(times[clocks[0]], day=times[clocks[0]].day or day)
    return tuple(times) or None


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
    words = f"{before.rstrip()} {after.lstrip()}"
    days = days_within(words, reading.near) if found.day is None else ()
    if len(days) > 1:
        raise TimeProblem("more than one date stands in this line", "Give each a line of its own")
    return _named((replace(told, day=days[0]) if days else told,), words, reading)


def _named(times: tuple[Found, ...], words: str, reading: Reading) -> Parts:
    """The words beside the times: a name, and the rest as a note."""
    words = _MARKS.sub("", _LEADERS.sub("  ", words)).strip(_EDGES)
    words = _EMPTY.sub("", words.removeprefix(")")).strip(_EDGES)
    name, *more = [cell for cell in _GAP.split(words) if cell.strip(_EDGES)] or [""]
    note = " ".join(cell.strip() for cell in more)
    name, rest = shortened(name)
    note = f"{rest} {note}".strip()
    times, name = _with_brackets(times, name, reading)
    again = _has_time(f"{name} {note}", reading)
    return Parts(times, " ".join(name.strip(_EDGES).split()), note, again)


def shortened(name: str) -> tuple[str, str]:
    """A long name cut behind its first sentence, and what followed."""
    if len(name) <= _LONG_NAME:
        return name, ""
    first, _, rest = name.partition(". ")
    return first, rest.strip()


def _has_time(words: str, reading: Reading) -> bool:
    for match in _LIKELY.finditer(words):
        try:
            if found_at(words, match.start(), reading) is not None:
                return True
        except TimeProblem:
            continue
    return False


def _with_brackets(
    times: tuple[Found, ...], name: str, reading: Reading
) -> tuple[tuple[Found, ...], str]:
    """A time or a day in brackets at the end of a name belongs to the times."""
    match = _BRACKETS.search(name)
    if match is None or not match.start():
        return times, name
    inner = match[1].strip()
    try:
        found = found_at(inner, 0, reading)
    except TimeProblem:
        return times, name
    if found is not None and found.end == len(inner):
        return (*times, found), name[: match.start()]
    day = DATE.fullmatch(inner)
    if day is not None and times[0].day is None and times[0].dial is not None:
        return (replace(times[0], day=days_within(inner, reading.near)[0]), *times[1:]), name[
            : match.start()
        ]
    return times, name
