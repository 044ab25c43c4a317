"""Instants to which a live rehearsal can go back, with all that stood then."""

import copy
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from core.rehearsal.model import Surprises
from core.rehearsal.record import Record
from core.rehearsal.reports import Report
from core.rehearsal.timeline import Truth

Key = tuple[str, str, int]
"""A report among all: its surprise, its id, and which of that name it is."""


@dataclass(frozen=True, slots=True)
class Mark:
    """An instant one can go back to. `report` is what came then, where it was set for that."""

    number: int
    name: str
    at_ms: int
    report: Key | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """All that stood at a mark: the day, its record, and how much both desks had entered."""

    day: Surprises
    record: Record
    owed: frozenset[str]
    entries: int
    right_entries: int


@dataclass(frozen=True, slots=True)
class Attempt:
    """What was rehearsed before one went back: from the mark till then, with its record."""

    mark: Mark
    until_ms: int
    record: Record


_NO_TRUTH = Truth((), (), (), ())


def copied(record: Record) -> Record:
    """The record as it is, whatever becomes of it; the hidden timeline itself never changes."""
    return replace(copy.deepcopy(replace(record, truth=_NO_TRUTH)), truth=record.truth)


def keyed(reports: Iterable[Report]) -> Iterator[tuple[Key, Report]]:
    """Each report with its key, in the order in which they come."""
    seen: dict[tuple[str, str], int] = {}
    for report in reports:
        name = report.surprise, report.id
        seen[name] = seen.get(name, 0) + 1
        yield (*name, seen[name]), report
