"""Edges that are events by themselves: the losses and returns of a plan's `auto_edges` lanes."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from itertools import accumulate
from typing import NamedTuple

from core.plan.model import Change, EdgeRef, Event, Plan
from core.signal.book import Book, Dark, Part
from core.signal.computing import Skies
from core.signal.placing import Expected, shift_of
from core.signal.rows import Row
from core.signal.tables import Tables
from core.signal.tiles import TOUCH_MS
from core.signal.worlds import Outcomes

SLIP_MS = 6 * 3_600_000
"""How far a course that follows an event is thought to slip, where a station's hours may cut it."""


class Candidate(NamedTuple):
    """An edge that may come out of a row."""

    edge: str
    change: Change
    ground: str | None


def automatic_events(plan: Plan, skies: Skies | None = None) -> tuple[Event, ...]:
    """An event for every edge that the courses of those lanes may have; its id is the edge's.

    Not all of them are edges at any one time: a row's end inside another's contact is none, nor a
    blackout's inside a gap. Such an event has no time as long as that is so.
    """
    tables = Tables(plan, skies)
    book = tables.book
    grounds = {ground.id: ground.name for ground in plan.grounds}
    words = {lane.id: lane.name.capitalize() for lane in plan.lanes}
    events: dict[str, Event] = {}
    for lane in book.lanes:
        if lane.lane not in plan.auto_edges:
            continue
        word = words.get(lane.lane, lane.lane.capitalize())
        for part in lane.parts:
            for event in _part_events(part, word, lane.lane, grounds, book, tables.printed):
                events.setdefault(event.id, event)
        for dark in lane.darks:
            for event in _dark_events(dark, word, lane.lane, book.outcomes):
                events[event.id] = event
    return tuple(events.values())


def _part_events(
    part: Part,
    word: str,
    lane: str,
    grounds: Mapping[str, str],
    book: Book,
    planned: Expected,
) -> Iterator[Event]:
    own = book.outcomes.label(part.course.only_if, part.course.follows)
    branch = None if part.working is None else part.working.branch.outcome
    for edge, change, ground in _candidates(part, planned):
        through = f", {grounds.get(ground, ground)}" if ground else ""
        shared = branch is None or branch not in book.edges[edge].condition
        only_if = own if shared else branch
        yield _event(edge, f"{word} {change}{through}", lane, change, only_if)


def _dark_events(dark: Dark, word: str, lane: str, outcomes: Outcomes) -> Iterator[Event]:
    only_if = outcomes.label(None, dark.blackout.after)
    cause = dark.blackout.cause
    yield _event(dark.lost, f"{word} lost, {cause}", lane, Change.LOST, only_if)
    yield _event(dark.back, f"{word} back, after {cause}", lane, Change.BACK, only_if)


def _event(edge: str, name: str, lane: str, change: Change, only_if: str | None) -> Event:
    return Event(edge, name, edge=EdgeRef(lane, change, row=edge), only_if=only_if)


def _candidates(part: Part, planned: Expected) -> Iterator[Candidate]:
    """The edges its rows may have; where two of its own rows surely hand over there is none."""
    reach = {row.back: _reach(part, row, planned) for row in part.rows}
    steady = [row for row in part.rows if _is_steady(row, *reach[row.back])]
    sure = {row.back for row in steady}
    begins_ms = [row.back_ms for row in steady]
    furthest_ms = [0, *accumulate((row.lost_ms for row in steady), max)]
    for row in part.rows:
        before = bisect_left(begins_ms, row.back_ms)
        begun = bisect_right(begins_ms, row.lost_ms + TOUCH_MS)
        carried = before and furthest_ms[before] + TOUCH_MS >= row.back_ms
        carries_on = begun and furthest_ms[begun] > row.lost_ms
        if row.back not in sure or not carried:
            yield Candidate(row.back, Change.BACK, row.ground)
        yield from _hour_edges(row, *reach[row.back])
        if row.back not in sure or not carries_on:
            yield Candidate(row.lost, Change.LOST, row.ground)


def _reach(part: Part, row: Row, planned: Expected) -> tuple[int, int]:
    """From when to when the row might lie."""
    shift_ms = shift_of(part.course, planned, planned) or 0
    slip_ms = 0 if part.course.follows is None else SLIP_MS
    return row.back_ms + shift_ms - slip_ms, row.lost_ms + shift_ms + slip_ms


def _is_steady(row: Row, from_ms: int, to_ms: int) -> bool:
    """Whether its station is open wherever the row might lie."""
    return not row.hours or any(
        open_ms <= from_ms and to_ms <= close_ms for open_ms, close_ms in row.hours
    )


def _hour_edges(row: Row, from_ms: int, to_ms: int) -> Iterator[Candidate]:
    for number, hours in enumerate(row.hours, 1):
        for change, at_ms in zip((Change.BACK, Change.LOST), hours, strict=True):
            if from_ms < at_ms < to_ms:
                yield Candidate(row.hour_edge(number, change), change, row.ground)
