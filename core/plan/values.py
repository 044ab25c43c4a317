"""Single values of a plan: each taken as its kind, or told with what to write instead."""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, time
from pathlib import Path
from typing import TypeVar

from core.errors import Place, TimeProblem
from core.plan.beside import Beside
from core.plan.gather import Gather, Named, clip
from core.plan.positions import Trail
from core.times.durations import parse_duration
from core.times.instants import aware_to_ms, rfc3339_to_ms
from core.times.zones import instant_to_ms, local_to_utc_ms

EARLIEST_MS = rfc3339_to_ms("1900-01-01T00:00:00Z")
LATEST_MS = rfc3339_to_ms("2200-01-01T00:00:00Z")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")

_ID = re.compile(r"[^\W_][\w.#/+:-]*(?: [\w.#/+:-]+)*")

NONE = "none"
"""What is written for 'no bound here'."""

T = TypeVar("T")
Where = Trail | Place


@dataclass(slots=True)
class Page:
    """What every part of the reader needs: whose plan it is, its zone, and where problems go."""

    shown: str
    folder: Path
    gather: Gather
    beside: Beside
    zone: str = "UTC"
    texts: dict[str, str] = field(default_factory=dict)
    """What was read of the files beside the plan, by their names."""

    def problem(self, where: Where, what: str, hint: str = "", *, key: bool = False) -> None:
        """Note something wrong."""
        self.gather.problem(where, what, hint, key=key)

    def read(self, name: str, shown: str, largest_bytes: int, smaller: str) -> str:
        """The text of a file beside the plan. Raises PlanProblems where it cannot be read."""
        text = self.beside.read(name, shown, largest_bytes, smaller)
        self.texts[name] = text
        return text


Reader = Callable[[Page, Trail, object], T | None]
"""Takes a value at a trail: what it means, or None after telling what is wrong with it."""

Anywhere = Callable[[Page, Where, object], T | None]
"""A reader that also takes a place in another file."""


def text(page: Page, where: Where, value: object) -> str | None:
    """A text, without control characters but line breaks."""
    if not isinstance(value, str):
        page.problem(where, f"this is {kind_of(value)}, not text", "Put it in quotation marks")
        return None
    if _CONTROL.search(value):
        page.problem(where, "this text holds a control character", "Take it out")
        return None
    return value


def name(page: Page, where: Trail, value: object) -> str | None:
    """A text that is not empty and stands on one line."""
    taken = text(page, where, value)
    if taken is not None and (not taken.strip() or "\n" in taken):
        page.problem(where, "this needs words, on one line", "Write them, or leave the key out")
        return None
    return taken


def identity(page: Page, where: Where, value: object) -> str | None:
    """An id, as one types it in the entry bar: words of letters, digits and a few signs."""
    taken = text(page, where, value)
    if taken is None:
        return None
    if not _ID.fullmatch(taken) or len(taken) > 80:
        page.problem(
            where,
            f"'{clip(taken)}' cannot be an id",
            "Use letters, digits and hyphens, like first-orbit",
        )
        return None
    return taken


def flag(page: Page, where: Trail, value: object) -> bool | None:
    """True or false."""
    if isinstance(value, bool):
        return value
    page.problem(where, f"this is {kind_of(value)}", "Write true or false, without marks")
    return None


def whole(low: int, high: int) -> Reader[int]:
    """A reader of whole numbers from `low` to `high`."""

    def read(page: Page, where: Trail, value: object) -> int | None:
        if isinstance(value, bool) or not isinstance(value, int):
            page.problem(where, f"this is {kind_of(value)}, not a whole number")
            return None
        if not low <= value <= high:
            page.problem(where, f"{shown(value)} is out of range", f"From {low} to {high}")
            return None
        return value

    return read


def number(low: float, high: float, unit: str = "", hint: str = "") -> Reader[float]:
    """A reader of finite numbers from `low` to `high`."""

    def read(page: Page, where: Trail, value: object) -> float | None:
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            page.problem(where, f"this is {kind_of(value)}, not a number")
            return None
        if isinstance(value, float) and not math.isfinite(value):
            page.problem(where, "this is no number one can reckon with")
            return None
        if not low <= value <= high:
            remedy = hint or f"From {low:g} to {high:g} {unit}".rstrip()
            page.problem(where, f"{shown(value)} is out of range", remedy)
            return None
        return float(value)

    return read


def duration(page: Page, where: Where, value: object) -> int | None:
    """A length of time in milliseconds."""
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        forms = 'Write it like "1h 20m", "90s" or "75:27:30"'
        if isinstance(value, time):
            forms = 'Put it in quotation marks, with its unit: "1h 20m" or "75:27:30"'
        page.problem(where, f"this is {kind_of(value)}, not a length of time", forms)
        return None
    if not isinstance(value, str):
        number_ = shown(value)
        page.problem(
            where,
            f"{number_} has no unit",
            f'Add one: "{number_}s" for seconds, "{number_}m" for minutes',
        )
        return None
    try:
        return parse_duration(value)
    except TimeProblem as problem:
        page.problem(where, clip_all(problem.what), problem.hint)
        return None


def length(page: Page, where: Where, value: object) -> int | None:
    """A length of time that is not negative, in milliseconds."""
    taken = duration(page, where, value)
    if taken is not None and taken < 0:
        page.problem(where, "this cannot be negative", "Leave the minus sign out")
        return None
    return taken


def instant(page: Page, where: Where, value: object) -> int | None:
    """An instant in UTC milliseconds; what has no offset is in the desk's zone."""
    try:
        taken = _instant_of(value, page.zone)
    except TimeProblem as problem:
        page.problem(where, clip_all(problem.what), problem.hint)
        return None
    if taken is None:
        page.problem(
            where, f"this is {kind_of(value)}, not a date with a time", "Like 2031-05-14T17:50:00"
        )
    elif not EARLIEST_MS <= taken < LATEST_MS:
        page.problem(where, "this is outside the years 1900 to 2199", "Check the year")
        return None
    return taken


def _instant_of(value: object, zone: str) -> int | None:
    if isinstance(value, str):
        return instant_to_ms(value, zone)
    if not isinstance(value, datetime):
        return None
    try:
        return aware_to_ms(value) if value.tzinfo else local_to_utc_ms(value, zone)
    except OverflowError as error:
        raise TimeProblem("this is outside the years that can be reckoned with") from error


def choice(*allowed: str) -> Reader[str]:
    """A reader of one word out of a few."""

    def read(page: Page, where: Trail, value: object) -> str | None:
        taken = text(page, where, value)
        if taken is not None and taken not in allowed:
            hint = page.gather.nearest(taken, allowed)
            page.problem(where, f"'{clip(taken)}' is not known here", hint)
            return None
        return taken

    return read


def reference(kind: Named) -> Anywhere[str]:
    """A reader of the id of something; whether it stands is told when all was read."""

    def read(page: Page, where: Where, value: object) -> str | None:
        taken = text(page, where, value)
        if taken is not None:
            page.gather.use(kind, taken, where)
        return taken

    return read


def bound(reader: Reader[int]) -> Reader[int]:
    """A reader that also takes "none", and gives None for it without a problem."""

    def read(page: Page, where: Trail, value: object) -> int | None:
        return None if value == NONE else reader(page, where, value)

    return read


def pair(page: Page, where: Trail, value: object) -> tuple[int, int] | None:
    """A stretch of time: two instants in a list, the first before the second."""
    if not isinstance(value, list) or len(value) != 2:
        page.problem(
            where,
            "a stretch of time is two times in a list",
            'Like ["2031-05-14T17:50:00", "2031-05-14T18:20:00"]',
        )
        return None
    first, last = (instant(page, (*where, at), one) for at, one in enumerate(value))
    if first is None or last is None:
        return None
    if last <= first:
        page.problem(where, "this stretch ends before it begins", "Put the earlier time first")
        return None
    return first, last


def kind_of(value: object) -> str:
    """What a value is, in words."""
    words: tuple[tuple[type, str], ...] = (
        (bool, "true or false"),
        (str, "text"),
        (int, "a number"),
        (float, "a number"),
        (datetime, "a date and time"),
        (date, "a date without a time"),
        (time, "a time without a date"),
        (list, "a list"),
        (dict, "a table"),
    )
    return next((word for kind, word in words if isinstance(value, kind)), "something else")


def shown(value: float) -> str:
    """A number as a problem shows it; a monstrous one is only named."""
    return f"{value}" if abs(value) < 1e15 else "a very large number"


def clip_all(what: str) -> str:
    """A sentence that may quote what was written: printable, and not without end."""
    plain = "".join(letter if letter.isprintable() else "?" for letter in what)
    return plain if len(plain) <= 200 else f"{plain[:197]}..."
