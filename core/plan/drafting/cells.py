"""What stands in a cell, and what a typed cell becomes in the file.

What cannot be taken as its kind yet is kept as text, just as it was typed: the reader of plans
then tells what is wrong with it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from core.errors import TimeProblem
from core.plan.drafting.clocks import as_clock, clock_words, read_clock
from core.plan.drafting.columns import Column, Kind
from core.plan.drafting.forms import (
    edge_words,
    read_edge,
    read_ties,
    ties_words,
)
from core.plan.drafting.literals import literal
from core.plan.values import NONE
from core.times.durations import parse_duration

Raw = Mapping[str, object]
"""A table of the plan as its file gives it."""
Written = dict[str, str | None]
"""Keys to write, as TOML has them; None takes a key out."""


@dataclass(frozen=True, slots=True)
class Around:
    """What a cell is read and written with: the day of a bare clock time, and the plan's year."""

    near: date | None = None
    year: int | None = None
    lengths: bool = False
    """Whether the times of a table of contacts are lengths."""


def shown(column: Column, table: Raw, around: Around, *, typed: bool = False) -> str:
    """What a cell shows; `typed`: as it would be typed again."""
    value = table.get(column.key)
    if value is None:
        return ""
    if column.kind is Kind.TIES:
        return ties_words(value)
    return _words(column.kind, value, _Style(around.year, weekday=not typed))


@dataclass(frozen=True, slots=True)
class _Style:
    year: int | None
    weekday: bool

    def clock(self, value: object) -> str | None:
        """A date and time in words; None where it is none."""
        when = as_clock(value)
        return None if when is None else clock_words(when, self.year, weekday=self.weekday)


def _words(kind: Kind, value: object, style: _Style) -> str:
    if isinstance(value, list | dict):
        return _words_of_many(kind, value, style)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime) or (kind in _CLOCKS and isinstance(value, str)):
        return style.clock(value) or str(value)
    return f"{value:.15g}" if isinstance(value, float) else str(value)


def _words_of_many(kind: Kind, value: list[object] | dict[str, object], style: _Style) -> str:
    match value:
        case list() if kind in _SPANS:
            return _span_words(kind, value, style)
        case list():
            return _PARTED.get(kind, ", ").join(_words(kind, one, style) for one in value)
        case dict() if kind is Kind.EDGE:
            return edge_words(value)
        case dict() if kind is Kind.EPOCH and set(value) <= {"event", "offset"}:
            return f"{value.get('event', '')} +{value.get('offset', '0s')}"
    return "; ".join(f"{key} {_words(kind, one, style)}" for key, one in value.items())


_CLOCKS = frozenset(
    {Kind.CLOCK, Kind.EITHER, Kind.BOUND, Kind.WINDOW, Kind.STRETCH, Kind.STRETCHES, Kind.EPOCH}
)
_SPANS = frozenset({Kind.WINDOW, Kind.STRETCH, Kind.STRETCHES})
_PARTED = {Kind.LINES: " | "}


def _span_words(kind: Kind, value: list[object], style: _Style) -> str:
    """'14 May 16:00:00 to 14 May 17:30:00', several parted by semicolons."""
    if kind is Kind.STRETCHES:
        spans = [one if isinstance(one, list) else [one] for one in value]
        return "; ".join(_span_words(Kind.STRETCH, one, style) for one in spans)
    return " to ".join(_words(kind, one, style) for one in value)


# ---------------------------------------------------------------------- typed


def written(column: Column, typed: str, table: Raw, around: Around) -> Written:
    """The keys that a typed cell sets, as TOML has them."""
    text = typed.strip()
    if column.kind is Kind.TIES:
        return _ties(text, table)
    if not text:
        return {column.key: None}
    value = _READERS.get(column.kind, _same)(column, text, around)
    return {column.key: None if value is _LEFT_OUT else literal(value)}


_LEFT_OUT = object()
"""What a flag is that is as if it were not there."""

_KEYS = ("offset", "least", "most", "fixed")


def _ties(text: str, table: Raw) -> Written:
    """One tie stands beside its event, several in a list of their own."""
    ties = read_ties(text)
    if not ties:
        return {"after": literal(text) if text else None, **dict.fromkeys(_KEYS)}
    if len(ties) > 1:
        several = [dict(tie) for tie in ties]
        return {"after": literal(several), **{key: None for key in _KEYS if key in table}}
    alone = dict(ties[0])
    said: Written = {"after": literal(alone.pop("event"))}
    if alone:
        said |= {key: literal(alone[key]) if key in alone else None for key in _KEYS}
    return said


def _same(_column: Column, text: str, _around: Around) -> object:
    return text


def _length(_column: Column, text: str, _around: Around) -> object:
    return text.removeprefix("+").strip() or text


def _clock(_column: Column, text: str, around: Around) -> object:
    return read_clock(text, around.near) or text


def _either(column: Column, text: str, around: Around) -> object:
    return (_length if around.lengths else _clock)(column, text, around)


def _flag(column: Column, text: str, _around: Around) -> object:
    said = {"yes": True, "y": True, "true": True, "x": True, "1": True}
    said |= {"no": False, "n": False, "false": False, "0": False}
    value = said.get(text.lower())
    if value is None:
        return text
    return _LEFT_OUT if value is column.default else value


def _number(_column: Column, text: str, _around: Around) -> object:
    short = text.replace("\N{MINUS SIGN}", "-").replace("°", "").strip()
    try:
        return int(short)
    except ValueError:
        pass
    try:
        value = float(short)
    except ValueError:
        return text
    return value if abs(value) < 1e15 else text


def _numbers(column: Column, text: str, around: Around) -> object:
    parts = [_number(column, part, around) for part in text.split(",")]
    if any(isinstance(part, str) for part in parts):
        return text
    return parts if len(parts) > 1 else parts[0]


def _several(_column: Column, text: str, _around: Around) -> object:
    return [part.strip() for part in text.split(",") if part.strip()]


def _stretch(_column: Column, text: str, around: Around) -> object:
    return _span(text, around) or text


def _stretches(_column: Column, text: str, around: Around) -> object:
    spans = [_span(part, around) for part in text.split(";")]
    return text if None in spans else spans


def _span(text: str, around: Around) -> list[object] | None:
    """Two times with 'to' between them; 'none' for an open end. None where they are not."""
    parts = [part.strip() for part in text.split(" to ")]
    if len(parts) != 2:
        return None
    near, found = around.near, list[object]()
    for part in parts:
        when = None if part == NONE else read_clock(part, near)
        if when is None and part != NONE:
            return None
        near = when.date() if when is not None else near
        found.append(NONE if when is None else when)
    return found


def _edge(_column: Column, text: str, _around: Around) -> object:
    return read_edge(text) or text


def _epoch(_column: Column, text: str, around: Around) -> object:
    when = read_clock(text, around.near)
    ties = read_ties(text)
    if when is not None or len(ties) != 1:
        return when or text
    return {key: value for key, value in ties[0].items() if key in {"event", "offset"}}


def _keyed(column: Column, text: str, around: Around) -> object:
    pairs = [part.strip().partition(" ") for part in text.split(";") if part.strip()]
    if any(not rest.strip() or not key.isidentifier() for key, _, rest in pairs):
        return text
    return {key: _numbers(column, rest.strip(), around) for key, _, rest in pairs}


def _lines(_column: Column, text: str, _around: Around) -> object:
    return [part.strip() for part in text.split("|")] if "|" in text else text


_READERS: Mapping[Kind, Callable[[Column, str, Around], object]] = {
    Kind.LENGTH: _length,
    Kind.MAYBE_LENGTH: _length,
    Kind.CLOCK: _clock,
    Kind.BOUND: _clock,
    Kind.EITHER: _either,
    Kind.FLAG: _flag,
    Kind.NUMBER: _number,
    Kind.NUMBERS: _numbers,
    Kind.SEVERAL: _several,
    Kind.WINDOW: _stretch,
    Kind.STRETCH: _stretch,
    Kind.STRETCHES: _stretches,
    Kind.EDGE: _edge,
    Kind.EPOCH: _epoch,
    Kind.KEYED: _keyed,
    Kind.LINES: _lines,
}


def is_length(text: str) -> bool:
    """Whether a text is a length of time as it stands."""
    try:
        parse_duration(text)
    except TimeProblem:
        return False
    return True
