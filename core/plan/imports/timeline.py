"""A pasted timeline, as press kits print it: each line a row, a heading, or told as not read."""

import re
from dataclasses import dataclass, field, replace
from datetime import date

from core.errors import TimeProblem
from core.plan.imports.bare import counts_from_start, dashes_are_minus
from core.plan.imports.dates import days_within, words_of
from core.plan.imports.heads import Head, column_head, day_head, flight_day, flight_day_head
from core.plan.imports.lineparts import LONGEST, Parts, parts_of, plain, shortened
from core.plan.imports.model import CHECK, Heading, Imported, NotRead, Progress, Row, Setting
from core.plan.imports.moments import ANY_TIME, Found, Reading, TimeColumn
from core.plan.imports.opening import checked, lines_of
from core.plan.imports.running import Running
from core.times.writing import elapsed_text

EVERY = 100
"""So many lines are read between two words about the progress."""

MOST_LINES = 200_000

_UNKNOWN = re.compile(r"\b(?:TBD|TBC|TBA|to be (?:determined|confirmed|announced))\b", re.I)
_TIMELIKE = re.compile(r"\d{1,2}[:.h]\d\d|\b[TL]\s?[+-]\s?\d|\b[ap]\.?m\b", re.I)
_MINUS = re.compile(r"\s*[-–−]\s*(?=\d{1,3}:\d\d:\d\d)")
_BROKEN = re.compile(r"[a-z]-$")

_SET_IN = 3
"""More than so many signs further in a line may belong to the row above."""

NO_TIME = "no time in this line"
_ADD_TIME = "Write a time in front of it, or leave it out"


def read_timeline(
    text: str, setting: Setting, source: str = "pasted text", progress: Progress | None = None
) -> Imported:
    """The rows of a timeline, in its order; what was not read stands beside them.

    Each line that is not blank is one of: a row's, a heading's, one not read. Raises PlanProblems
    where the text cannot be taken at all.
    """
    lines = lines_of(checked(text, source))
    reader = _Reader(text, setting)
    for at, line in enumerate(lines[:MOST_LINES]):
        if progress is not None and at % EVERY == 0 and not progress(at, len(lines)):
            return reader.imported(source, stopped=True)
        reader.take(at + 1, line)
    for at, line in enumerate(lines[MOST_LINES:], MOST_LINES + 1):
        if line.strip():
            reader.not_read.append(
                NotRead(at, line, f"only {MOST_LINES:,} lines are read", "Read it in parts")
            )
    if progress is not None:
        progress(len(lines), len(lines))
    return reader.imported(source, stopped=False)


@dataclass(slots=True)
class _Pending:
    """A line with a time and no words, and the time."""

    line: int
    text: str
    row: Row
    above: NotRead | None
    """The line right above, if it has words and no time."""


@dataclass(slots=True)
class _Reader:
    """Reads line by line; what a line is may depend on those above it."""

    text: str
    setting: Setting
    running: Running = field(init=False)
    from_zero: bool = field(init=False)
    """Whether bare times are elapsed times."""
    minus: bool = field(init=False)
    """Whether a dash before one of them is a minus sign."""
    first_day: tuple[int, date] | None = None
    """The first day of the flight that a heading named, and its date."""
    rows: list[Row] = field(default_factory=list)
    not_read: list[NotRead] = field(default_factory=list)
    headings: list[Heading] = field(default_factory=list)
    head: Head = field(default_factory=lambda: Head(""))
    before: Row | NotRead | None = None
    """What the line right above belongs to."""
    indent: int = 0
    pending: _Pending | None = None

    def __post_init__(self) -> None:
        self.running = Running(self.text, self.setting)
        self.from_zero = counts_from_start(self.text, self.setting)
        self.minus = dashes_are_minus(self.text)

    def take(self, number: int, line: str) -> None:
        """Take one line as what it is."""
        text = plain(line)
        if self.minus and self._counts():
            text = _MINUS.sub("-", line) if _MINUS.match(line) else text
        if text and not any(sign.isalnum() for sign in text):
            self._settle(None)
            self.before = None
            self.headings.append(Heading(number, line, "a line of signs"))
            return
        if not text:
            self._settle(None)
            self.before = None
            return
        if len(text) > LONGEST:
            self._refuse(number, line, f"this line has over {LONGEST:,} characters", "Break it up")
            return
        try:
            if self._is_head(number, line, text):
                return
            parts = parts_of(text, self._reading(), self.head.columns)
            if parts is None or self._goes_on(line, parts):
                self._words(number, line, text)
            else:
                self._timed(number, line, parts)
        except TimeProblem as problem:
            self._refuse(number, line, problem.what, problem.hint or CHECK)

    def imported(self, source: str, *, stopped: bool) -> Imported:
        """All that was read."""
        self._settle(None)
        told: tuple[str, ...] = ()
        if self.running.unnamed:
            told = (f"Clock times that name no zone were read in {self.setting.zone}",)
        if self.from_zero:
            told += ("Times like 0:01:12 were read as elapsed times",)
        ordered = tuple(sorted(self.not_read, key=lambda one: one.line))
        return Imported(
            source, tuple(self.rows), ordered, tuple(self.headings), told=told, stopped=stopped
        )

    def _reading(self) -> Reading:
        column = TimeColumn(elapsed=True) if self.from_zero else ANY_TIME
        return Reading(self.setting, self.running.day, column, two_parts=self.head.two_parts)

    # -------------------------------------------------------------- what a line may be

    def _counts(self) -> bool:
        """Whether the first time in a line is an elapsed time, by itself."""
        columns = self.head.columns
        return bool(columns[0].elapsed) if columns else self.from_zero

    def _day_of_flight(self, text: str) -> Head | None:
        """A heading that counts days: the first one is the day it is then."""
        number = flight_day(text)
        if number is None or self.running.day is None:
            return None
        self.first_day = self.first_day or (number, self.running.day)
        return flight_day_head(number, *self.first_day)

    def _is_head(self, number: int, line: str, text: str) -> bool:
        head = (
            day_head(text, self.running.day)
            or self._day_of_flight(text)
            or column_head(text, self.setting)
        )
        if head is None:
            return False
        self._settle(None)
        if head.day is not None:
            self.running.begin(head.day)
        if head.loose:
            hint = "Write a time of day after the date; it holds for what follows"
            self._refuse(number, line, "a day without a time", hint)
            return True
        self.before = None
        self.headings.append(Heading(number, line, head.meaning))
        if head.day is not None:
            return True
        self.head = replace(head, two_parts=head.two_parts or self.head.two_parts)
        if head.zone is not None:
            self.running.show_in(head.zone)
        return True

    def _timed(self, number: int, line: str, parts: Parts) -> None:
        row = self._row(number, line, parts)
        above = self.before if isinstance(self.before, NotRead) else None
        self._settle(NotRead(number, line, NO_TIME))
        if not row.name:
            loose = above if above is not None and above.why == NO_TIME else None
            self.pending = _Pending(number, line, row, loose)
            self.before = None
            return
        self._keep(row, line)

    def _goes_on(self, line: str, parts: Parts) -> bool:
        """Whether figures in a line set in below a row are words of it: '5:59 behind the Moon'."""
        deeper = len(line) - len(line.lstrip()) > self.indent + _SET_IN
        return deeper and isinstance(self.before, Row) and self.running.is_open(parts.times[0])

    def _row(self, number: int, line: str, parts: Parts) -> Row:
        first, *others = sorted(parts.times, key=lambda each: each.elapsed_ms is not None)
        row = Row(number, line, parts.name, note=parts.note, give_ms=_give_ms(parts.times))
        if first.elapsed_ms is not None:
            length_ms = None if first.until_ms is None else first.until_ms - first.elapsed_ms
            return _lasting(replace(row, elapsed_ms=first.elapsed_ms, told=first.told), length_ms)
        elapsed_ms = next((each.elapsed_ms for each in others if each.elapsed_ms is not None), None)
        at = self.running.at(first, others, elapsed_ms)
        said = [
            f"elapsed {elapsed_text(each.elapsed_ms)} stands beside it"
            for each in others
            if each.elapsed_ms is not None
        ]
        named = days_within(f"{row.name} {row.note}", self.running.day)
        said += [f"the words name {words_of(day)}" for day in named if day != self.running.day]
        if parts.more:
            said.append("another time stands in its words")
        told = "; ".join((*at.told, *said))
        return _lasting(replace(row, at_ms=at.at_ms, told=told), at.length_ms)

    def _words(self, number: int, line: str, text: str) -> None:
        """A line without a time: the words of a time above, a continuation, or not read."""
        if self.pending is not None and self.pending.above is None:
            name, _, note = text.partition("  ")
            row = replace(
                self.pending.row,
                name=name.strip(),
                note=note.strip(),
                text=f"{self.pending.text}\n{line}",
                more_lines=(number,),
            )
            self.pending = None
            self._keep(row, line)
            return
        if self.pending is not None:
            self._settle(NotRead(number, line, NO_TIME))
        before = self.before
        if isinstance(before, Row) and _continues(before, text, line, self.indent):
            self.rows[-1] = self.before = _continued(before, number, line, text)
        else:
            self._refuse(number, line, *_why(text))

    def _keep(self, row: Row, line: str) -> None:
        self.rows.append(row)
        self.before = row
        self.indent = len(line) - len(line.lstrip())

    def _refuse(self, number: int, line: str, why: str, hint: str) -> None:
        self._settle(NotRead(number, line, why))
        self.before = NotRead(number, line, why, hint)
        self.not_read.append(self.before)

    def _settle(self, below: NotRead | None) -> None:
        """A time without words takes those above it, if none stand below that may be its own."""
        pending, self.pending = self.pending, None
        if pending is None:
            return
        above = pending.above
        if above is None or (below is not None and below.why == NO_TIME and not _has_time(below)):
            self.not_read.append(
                NotRead(pending.line, pending.text, "a time without words", "Write what happens")
            )
            return
        self.not_read.remove(above)
        self.rows.append(
            replace(
                pending.row,
                line=above.line,
                name=plain(above.text),
                text=f"{above.text}\n{pending.text}",
                more_lines=(pending.line,),
            )
        )


def _has_time(line: NotRead) -> bool:
    return _TIMELIKE.search(line.text) is not None


def _give_ms(times: tuple[Found, ...]) -> int:
    return max(found.give_ms for found in times)


def _lasting(row: Row, length_ms: int | None) -> Row:
    if length_ms is not None and length_ms < 0:
        raise TimeProblem("this ends before it begins", "Put the earlier time first")
    return replace(row, length_ms=length_ms)


def _continues(before: Row, text: str, line: str, indent: int) -> bool:
    """Whether a line without a time goes on with the row right above it."""
    deeper = len(line) - len(line.lstrip()) > indent
    small = text[:1].islower() or text[:1] in "(,;&"
    return small or deeper or _BROKEN.search(before.text.rstrip()) is not None


def _continued(before: Row, number: int, line: str, text: str) -> Row:
    kept = replace(before, text=f"{before.text}\n{line}", more_lines=(*before.more_lines, number))
    whole = _BROKEN.search(before.text.rstrip()) is not None and text[:1].islower()
    if before.note:
        return replace(kept, note=_joined(before.note, text, whole=whole))
    name, note = shortened(" ".join(_joined(before.name, text, whole=whole).split()))
    return replace(kept, name=name, note=note)


def _joined(before: str, text: str, *, whole: bool) -> str:
    """Two pieces of a text; a word that was broken between them is made whole."""
    return before.rstrip("-") + text if whole else f"{before} {text}"


def _why(text: str) -> tuple[str, str]:
    if _UNKNOWN.search(text):
        return "its time is not known yet", "Add it when it is"
    if _TIMELIKE.search(text):
        return "the time in this line could not be read", "Write it like 4:46 p.m. or T+03:29:33"
    return NO_TIME, _ADD_TIME
