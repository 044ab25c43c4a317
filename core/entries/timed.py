"""Times as typed after what they are about: clock, relative, from now, elapsed; with their give."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from core.entries.clocktimes import Asking, Moment, checked_ms, read_clock
from core.entries.context import Context
from core.entries.words import shown
from core.errors import EntryProblem, TimeProblem
from core.times.durations import parse_duration
from core.times.spoken import spoken_zone
from core.times.writing import ABOUT_GIVE_MS, dated_clock_text, short_duration_words

_GIVE = re.compile(r"(?P<time>.*?)\s*\+-\s*(?P<give>.*)", re.S)
_TWO = re.compile(r"(?P<m>\d{1,4}):(?P<s>[0-5]\d(?:\.\d{1,3})?)", re.ASCII)
_HALF_DAY_MS = 12 * 3_600_000
_NOW = re.compile(r"now(?: ?- ?(?P<ago>.*))?", re.S)


@dataclass(frozen=True, slots=True)
class Base:
    """What a typed time is reckoned from.

    `expected_ms` is None where there is nothing to be later or earlier than; `told` is what that
    is called, in words that hold before the line is taken and after; `plan_give_ms` is the least
    that 'about' means.
    """

    asking: Asking
    expected_ms: int | None = None
    plan_give_ms: int = 0
    told: str = "before"


@dataclass(frozen=True, slots=True)
class Timed:
    """A time as read: what it may be, the likeliest first, and the give typed with it."""

    moments: tuple[Moment, ...]
    give_ms: int | None = None


def read_timed(rest: str, base: Base, context: Context) -> Timed | None:
    """The time that `rest` (in small letters) gives, in any form a new time may have.

    None where it has the shape of none; EntryProblem where it has, but cannot be taken.
    """
    give_ms: int | None = None
    if match := _GIVE.fullmatch(rest):
        rest, give_ms = match["time"], read_length(match["give"])
    word, _, tail = rest.partition(" ")
    if word == "about":
        if give_ms is None:
            give_ms = max(base.plan_give_ms, ABOUT_GIVE_MS)
        rest = tail
    moments = _read_moments(rest, base, context)
    return None if moments is None else Timed(moments, give_ms)


def read_fact_time(rest: str, asking: Asking, context: Context) -> tuple[Moment, ...] | None:
    """The instant of something that has been: 'now', 'now-12s', elapsed, or a clock time."""
    if match := _NOW.fullmatch(rest):
        ago_ms = 0 if match["ago"] is None else read_length(match["ago"])
        return (Moment(checked_ms(context.now_ms - abs(ago_ms), rest)),)
    if rest.partition(" ")[0] == "elapsed":
        return _elapsed(rest, context)
    return read_clock(rest, asking)


def read_give(rest: str) -> int | None:
    """The give of '+-30s' alone, in milliseconds."""
    match = _GIVE.fullmatch(rest)
    return read_length(match["give"]) if match and not match["time"] else None


def read_shift(rest: str) -> int | None:
    """A signed length, '+45s', '-2m', '+1:12': milliseconds later. None where there is no sign."""
    if rest[:1] not in {"+", "-"} or rest[:2] == "+-":
        return None
    length_ms = read_length(rest[1:])
    return -length_ms if rest[0] == "-" else length_ms


def read_length(text: str) -> int:
    """A length without a sign, in milliseconds; two parts are minutes and seconds.

    Raises EntryProblem where it is none, or has no unit.
    """
    short = re.sub(r"(?<=\d) ?min(?![a-z])", "m", text.strip())
    if match := _TWO.fullmatch(short):
        return round((int(match["m"]) * 60 + float(match["s"])) * 1_000)
    if not short or short.startswith("-"):
        raise EntryProblem("A length is missing", text, "Write it like 45s, 2m, 1:12 or 1h 20m")
    try:
        return parse_duration(short)
    except TimeProblem as problem:
        raise EntryProblem(problem.what, text, problem.hint) from problem


def nearer_half(moments: Sequence[Moment]) -> tuple[Moment, ...]:
    """Of two halves of the day the nearer; a time that comes twice, as clocks go back, is both."""
    return tuple(each for each in moments if abs(each.at_ms - moments[0].at_ms) < _HALF_DAY_MS // 2)


def when_words(moment: Moment, context: Context) -> str:
    """An instant as the desk's window writes it, with its zone and how it was read."""
    clock = dated_clock_text(moment.at_ms, context.style, context.now_ms)
    notes = f" ({', '.join(moment.notes)})" if moment.notes else ""
    return f"{clock} {spoken_zone(context.style.zone)}{notes}"


def _read_moments(rest: str, base: Base, context: Context) -> tuple[Moment, ...] | None:
    word, _, tail = rest.partition(" ")
    if word == "in":
        note = f"in {short_duration_words(read_length(tail))}"
        return (Moment(checked_ms(context.now_ms + read_length(tail), rest), (note,)),)
    if word == "elapsed":
        return _elapsed(rest, context)
    shift_ms = read_shift(rest)
    if shift_ms is not None:
        return _shifted(rest, shift_ms, base)
    return read_clock(rest, base.asking)


def _shifted(rest: str, shift_ms: int, base: Base) -> tuple[Moment, ...]:
    if base.expected_ms is None:
        raise EntryProblem(
            f"There is no time now that '{shown(rest)}' could count from",
            rest,
            "Give a clock time, or 'in' so long",
        )
    side = "later" if shift_ms >= 0 else "earlier"
    note = f"{short_duration_words(shift_ms)} {side} than {base.told}"
    return (Moment(checked_ms(base.expected_ms + shift_ms, rest), (note,)),)


def _elapsed(rest: str, context: Context) -> tuple[Moment, ...]:
    if context.elapsed_zero_ms is None:
        raise EntryProblem(
            "There is no mission elapsed time now", rest, "Give a clock time, or 'in' so long"
        )
    text = rest.removeprefix("elapsed").strip()
    negative = text.startswith("-")
    spaced = re.sub(r"(?<=\d) d(?![a-z])", "d", text.removeprefix("-").strip())
    try:
        length_ms = parse_duration(spaced)
    except TimeProblem as problem:
        raise EntryProblem(problem.what, text, problem.hint) from problem
    if length_ms < 0:
        raise EntryProblem(f"'{shown(text)}' is no elapsed time", text, "Write 3d 03:29:33")
    at_ms = context.elapsed_zero_ms + (-length_ms if negative else length_ms)
    return (Moment(checked_ms(at_ms, rest), (f"elapsed {text}",)),)
