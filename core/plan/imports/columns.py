"""Which column of a table is what: proposed from its heading and its cells."""

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from core.errors import TimeProblem
from core.plan.imports.cells import Grid, clock_cell, date_cell, elapsed_cell
from core.plan.imports.dates import DATE
from core.plan.imports.elapsed import elapsed_at
from core.plan.imports.model import Meaning, Setting, TwoParts
from core.plan.imports.moments import Reading
from core.plan.imports.serials import number_of
from core.plan.imports.zoned import Zone, zone_at

_LOOKED_AT = 200
_MOST_TITLES = 15
_UNIT = re.compile(
    r"[(\[/,]\s*(s(?:ec(?:ond)?s?)?|m(?:in(?:ute)?s?)?|h(?:ours?|rs?)?)\.?\s*[)\]]?\s*$", re.I
)
_BARE = re.compile(r"[+-]?\d{1,3}:\d\d:\d\d", re.ASCII)
_MOST = 0.7
"""So many of a column's cells must be of one kind."""

# Plain English, and words of spreadsheets and calendars; the first that matches counts.
_HEADINGS: tuple[tuple[Meaning, re.Pattern[str]], ...] = tuple(
    (meaning, re.compile(pattern, re.I))
    for meaning, pattern in (
        (Meaning.SKIP, r"^(?:date there|clock there|since zero|id|uid)$"),  # as our own tables have
        (Meaning.END, r"\b(?:end|ends|finish|until|stop|to)\b(?!.*\bdate\b)"),
        (Meaning.ELAPSED, r"\belapsed\b|\bMET\b|\bGET\b|\bmission time\b|^[TL]\s?[+±]"),
        (Meaning.GIVE, r"\bgive\b|uncertain|tolerance|plus or minus|±|\+/?-"),
        (Meaning.LENGTH, r"\bduration\b|\blength\b|\blasts?\b|\bhow long\b"),
        (Meaning.LIVE, r"\blive\b|\bmust.see\b"),
        (Meaning.LANE, r"\blane\b|\bsignal\b"),
        (Meaning.DATE, r"\bdate\b(?!.*\btime\b)|^day$"),
        (Meaning.CLOCK, r"\btime\b|\bstart\b|\bbegins?\b|\bclock\b|^at$|^when$|\bplanned\b|date"),
        (Meaning.NAME, r"\bevents?\b|\bname\b|\bactivity\b|\bmilestone\b|\btitle\b|\bwhat\b"),
        (Meaning.NAME, r"\bsummary\b|\bsubject\b|\baction\b"),
        (Meaning.NOTE, r"\bnotes?\b|\bcomments?\b|\bremarks?\b|\blocation\b"),
    )
)
_SPELLED = re.compile(r"description|details?", re.I)
_ONCE = frozenset(Meaning) - {Meaning.NOTE, Meaning.SKIP}


@dataclass(frozen=True, slots=True)
class Columns:
    """What each column is, whether the first row is a heading, and how dates are written.

    A person may change any of it before the rows are read.
    """

    meanings: tuple[Meaning, ...]
    heading: bool
    day_first: bool | None = None
    """Whether 5/6/2031 is 5 June; None: such a date is not read."""
    from_1904: bool = False
    """Whether days that are numbers are counted from 1904."""
    two_parts: TwoParts | None = None
    """What '2:30' is as an elapsed time or a length; None: such a one is not read."""


def propose(records: Sequence[Sequence[str]]) -> Columns:
    """The columns of a table as they are most likely meant."""
    width = max((len(record) for record in records), default=0)
    first = records[0] if records else ()
    heading = is_heading(first, records[1 : 1 + _LOOKED_AT])
    body = records[1:] if heading else records
    samples = [_sample(body, at) for at in range(width)]
    day_first = _day_first([cell for sample in samples for cell in sample])
    seen = [_by_cells(sample) for sample in samples]
    if heading:  # yes and no answer whatever stands over them
        seen = [None if one is Meaning.LIVE else one for one in seen]
    named = [_by_heading(first[at]) if heading and at < len(first) else None for at in range(width)]
    meanings = _settle(named, seen, samples)
    heads = first if heading else ()
    return Columns(tuple(_counted(meanings, samples, heads)), heading, day_first)


def _counted(
    meanings: list[Meaning], samples: Sequence[list[str]], heads: Sequence[str]
) -> list[Meaning]:
    """The same, with bare times that begin in the first hour of no day as elapsed times."""
    if Meaning.CLOCK not in meanings or {Meaning.DATE, Meaning.ELAPSED} & set(meanings):
        return meanings
    at = meanings.index(Meaning.CLOCK)
    zone = heading_zone(heads[at], Setting("UTC")) if at < len(heads) else None
    sample = samples[at]
    bare = bool(sample) and all(_BARE.fullmatch(cell) for cell in sample)
    if bare and zone is None and sample[0].lstrip("-+").startswith(("0:", "00:")):
        meanings[at] = Meaning.ELAPSED
    return meanings


def heading_at(records: Sequence[Sequence[str]]) -> int:
    """Which of the first records is the heading, where titles stand above it; else the first."""
    for at, record in enumerate(records[:_MOST_TITLES]):
        known = {_by_heading(cell) for cell in record} - {None, Meaning.NOTE, Meaning.SKIP}
        bare = all(_kind(cell) is None for cell in record)
        if len(known) > 1 and bare:
            return at
    return 0


def heading_unit(heading: str) -> str:
    """The unit of bare figures below a heading: 'Uncertainty (s)'; nothing where it says none."""
    match = _UNIT.search(heading)
    return match[1][0].lower() if match else ""


def heading_zone(heading: str, setting: Setting) -> Zone | None:
    """The zone that a heading names: 'Time (EDT)'."""
    for match in re.finditer(r"(?<!\w)\w", heading):
        zone, _, _ = zone_at(heading, match.start(), setting)
        if zone is not None:
            return zone
    return None


def _sample(body: Sequence[Sequence[str]], at: int) -> list[str]:
    cells = (record[at].strip() for record in body[:_LOOKED_AT] if at < len(record))
    return [cell for cell in cells if cell]


def _by_heading(heading: str) -> Meaning | None:
    if not heading.strip():
        return None
    if _SPELLED.search(heading):
        return Meaning.NOTE
    found = (meaning for meaning, pattern in _HEADINGS if pattern.search(heading))
    short = heading.strip().strip("()")
    zone, _, end = zone_at(short, 0, Setting("UTC"))
    if zone is not None and end == len(short):
        return Meaning.CLOCK
    return next(found, None)


def is_heading(first: Sequence[str], below: Sequence[Sequence[str]]) -> bool:
    """Whether the first row is one: words over columns of times, or known words."""
    kinds = [_kind(cell) for cell in first if cell.strip()]
    if not kinds or any(kind is not None for kind in kinds):
        return False
    if any(_by_heading(cell) not in (None, Meaning.NOTE) for cell in first) and len(kinds) > 1:
        return True
    columns = range(len(first))
    return any(_by_cells(_sample(below, at)) is not None for at in columns if first[at].strip())


def _by_cells(sample: Sequence[str]) -> Meaning | None:
    """What most of a column's cells are; None for words."""
    if not sample:
        return None
    counts = Counter(kind for cell in sample if (kind := _kind(cell)) is not None)
    if not counts:
        return None
    kind, count = counts.most_common(1)[0]
    if kind is Meaning.CLOCK and counts[Meaning.ELAPSED]:
        # Some of its hours are none of a clock: all of it counts from something.
        kind, count = Meaning.ELAPSED, count + counts[Meaning.ELAPSED]
    return kind if count >= _MOST * len(sample) else None


def _kind(cell: str) -> Meaning | None:
    """What a cell is by itself; None for words and for numbers that are no day."""
    text = cell.strip()
    if not text or len(text) > 60:
        return None
    if (serial := number_of(text)) is not None:
        return _kind_of_number(text, float(serial))
    return next((meaning for meaning, fits in _KINDS if fits(text)), None)


def _is_give(text: str) -> bool:
    bare = text.lstrip("±+/- ")
    return bool(re.match(r"±|\+/?-", text)) and _reads(elapsed_cell, bare)


def _is_date(text: str) -> bool:
    return DATE.match(text) is not None and _reads(date_cell, text)


def _is_length(text: str) -> bool:
    return bool(re.search(r"\d\s?[a-z]", text)) and _reads(elapsed_cell, text)


def _is_elapsed(text: str) -> bool:
    """Whether a cell is an elapsed time and says so itself."""
    try:
        found = elapsed_at(text, 0, two_parts=TwoParts.MINUTES_SECONDS)
    except TimeProblem:
        return False
    return found is not None and found.end == len(text)


def _kind_of_number(text: str, number: float) -> Meaning | None:
    """A number as a spreadsheet's day: from 1954 to 2119."""
    parted = "." in text or "," in text
    if parted and 0 <= number < 1:
        return Meaning.CLOCK
    if 20_000 <= number <= 80_000:
        return Meaning.CLOCK if parted else Meaning.DATE
    return None


def _reads(reader: Callable[[str, Grid], object], text: str) -> bool:
    """Whether a cell can be read so, on some day."""
    try:
        reader(text, _ANY)
    except TimeProblem as problem:
        return "may be" in problem.what or "says no" in problem.what
    return True


def _day_first(cells: Sequence[str]) -> bool | None:
    """How dates in figures are written here, where one of them tells."""
    for cell in cells:
        match = DATE.match(cell)
        if match and match["a"] and match["mark"] == "/":
            if int(match["a"]) > 12:
                return True
            if int(match["b"]) > 12:
                return False
    return None


def _settle(
    named: Sequence[Meaning | None], seen: Sequence[Meaning | None], samples: Sequence[list[str]]
) -> list[Meaning]:
    """One meaning a column: by its heading first, then by its cells; each but once."""
    taken: list[Meaning | None] = [None] * len(named)
    for source in (named, seen):
        for at, meaning in enumerate(source):
            free = meaning not in _ONCE or meaning not in taken
            if taken[at] is None and meaning is not None and free:
                taken[at] = meaning
    if Meaning.NAME not in taken:
        words = [at for at, sample in enumerate(samples) if sample and _by_cells(sample) is None]
        loose = [at for at in words if taken[at] in (None, Meaning.NOTE)]
        if loose:
            best = max(loose, key=lambda at: (taken[at] is None, _wordy(samples[at])))
            taken[best] = Meaning.NAME
    return [meaning or Meaning.NOTE for meaning in taken]


def _wordy(sample: Sequence[str]) -> float:
    """How much a column looks like names: different words, with letters, in most rows."""
    letters = sum(1 for cell in sample if re.search(r"[^\W\d_]{2}", cell))
    return len(set(sample)) + letters


_ANY = Grid(Reading(Setting("UTC"), None))
_KINDS: tuple[tuple[Meaning, Callable[[str], bool]], ...] = (
    (Meaning.LIVE, lambda text: text.casefold() in {"yes", "no", "true", "false"}),
    (Meaning.GIVE, _is_give),
    (Meaning.ELAPSED, _is_elapsed),
    (Meaning.CLOCK, lambda text: _reads(clock_cell, text)),
    (Meaning.DATE, _is_date),
    (Meaning.LENGTH, _is_length),
)
