"""Lines of a timeline that are no events but say how the others are read: days, zones, columns."""

import re
from dataclasses import dataclass
from datetime import date

from core.plan.imports.clocks import zone_words
from core.plan.imports.dates import DATE, said_day, words_of
from core.plan.imports.model import Setting, TwoParts
from core.plan.imports.zoned import Zone, zone_at

_DAY_OF_FLIGHT = re.compile(r"\s*(?:(?:flight|mission)\s+)?day\s+\d{1,3}\b[\s:,(–—-]*", re.I)
_TIME = re.compile(
    r"\d{1,2}[:h]\d\d|\d\s?[ap]\.?m\b|\bnoon\b|\bmidnight\b|\d{4}\s?(?:Z|UTC|GMT|hrs)\b", re.I
)
_TOLD = re.compile(
    r"time|elapsed|clock|local|event|activity|milestone|happens|\b[MG]ET\b|[TL]\s?\+", re.I
)
"""A heading over columns has one of these words."""

_ELAPSED = re.compile(
    r"mission elapsed(?: time)?|mission time|elapsed(?: time)?|\bMET\b|\bGET\b|\b[TL]\s?\+(?:/-)?",
    re.I,
)
_CLOCK = re.compile(r"(?:local |clock )?times?\b(?: of day)?|\blocal\b|\bclock\b", re.I)
_TWO = (
    (re.compile(r"\b(?:mm?:ss?|min(?:utes)?:sec(?:onds)?)\b", re.I), TwoParts.MINUTES_SECONDS),
    (re.compile(r"\b(?:hh?:mm?|h(?:ou)?rs?:min(?:utes)?)\b", re.I), TwoParts.HOURS_MINUTES),
)
_SHAPES = re.compile(r"\b(?:d+[:/])?h+:m+(?::s+)?\b|\bm+:s+\b|\bmin(?:utes)?:sec(?:onds)?\b", re.I)
_WORDS = frozenset(
    [
        "all",
        "are",
        "in",
        "given",
        "shown",
        "listed",
        "approximate",
        "and",
        "subject",
        "to",
        "change",
        "unless",
        "otherwise",
        "noted",
        "event",
        "events",
        "activity",
        "activities",
        "milestone",
        "milestones",
        "description",
        "what",
        "happens",
        "action",
        "date",
        "day",
        "hour",
        "hours",
        "minutes",
        "seconds",
        "of",
        "from",
        "the",
        "liftoff",
        "launch",
        "mission",
    ]
)


@dataclass(frozen=True, slots=True)
class Head:
    """What a heading says: the day, the zone, or what its columns of times count."""

    meaning: str
    day: date | None = None
    zone: Zone | None = None
    elapsed: tuple[bool, ...] = ()
    """For each column of times, whether it is elapsed time."""
    two_parts: TwoParts | None = None


def day_head(text: str, near: date | None) -> Head | None:
    """A heading with a date; None where it is none. TimeProblem for a day that is none."""
    flight = _DAY_OF_FLIGHT.match(text)
    start = flight.end() if flight else len(text) - len(text.lstrip())
    match = DATE.match(text, start)
    if match is None or not _alone(text[match.end() :], only=bool(match["alone"])):
        return None
    said = said_day(match, near)
    meaning = f"the day of what follows: {words_of(said.day)}"
    return Head(f"{meaning} ({said.told})" if said.told else meaning, day=said.day)


def _alone(rest: str, *, only: bool) -> bool:
    """Whether what follows a date leaves it a heading: nothing, or words after a mark."""
    rest = rest.strip()
    if not rest.strip(" .,:;()–—-"):
        return True
    if _TIME.search(rest):
        return False
    return not only and rest[0] in ",:;(–—-" and len(rest) <= 80


def column_head(text: str, setting: Setting) -> Head | None:
    """A heading over columns, or a remark on all times; None where it is none."""
    if len(text) > 200 or _TIME.search(text) or not _TOLD.search(text):
        return None
    rest, zone, kinds = _split(text, setting)
    words = re.findall(r"[^\W\d_]+", rest.lower())
    if not kinds or not all(word in _WORDS for word in words):
        return None
    two = next((meant for pattern, meant in _TWO if pattern.search(text)), None)
    if re.search(r"h+:m+:s+", text, re.I):
        two = None
    said = [f"times are {zone_words(zone)}"] if zone else []
    said += ["elapsed times"] if any(kinds) else []
    said += [f"two figures are {two}"] if two else []
    return Head(", ".join(said) or "a heading over columns", None, zone, tuple(kinds), two)


def _split(text: str, setting: Setting) -> tuple[str, Zone | None, list[bool]]:
    """What is left of a heading without its words for times; its zone; its columns of times."""
    rest, zone, kinds, at = [], None, [], 0
    text = _SHAPES.sub(" ", text)
    joined = False
    while at < len(text):
        if match := _ELAPSED.match(text, at):
            kinds.append(True)
            at, joined = match.end(), True
            continue
        if match := _CLOCK.match(text, at):
            if not joined:
                kinds.append(False)
            at, joined = match.end(), True
            continue
        named, _, end = zone_at(text, at, setting) if _begins(text, at) else (None, "", at)
        if named is not None:
            if not joined:
                kinds.append(False)
            zone = zone or named
            at, joined = end, True
            continue
        joined = joined and text[at] in " ("
        rest.append(text[at])
        at += 1
    return "".join(rest), zone, kinds


def _begins(text: str, at: int) -> bool:
    return not at or not text[at - 1].isalnum()
