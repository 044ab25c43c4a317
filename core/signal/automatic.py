"""Edges that are events by themselves: the losses and returns of a plan's `auto_edges` lanes."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from itertools import accumulate

from core.plan.model import Change, EdgeRef, Event, Plan
from core.signal.book import Dark, LaneBook, Part, Row, bind
from core.signal.tiles import TOUCH_MS
from core.signal.worlds import Outcomes

SLIP_MS = 6 * 3_600_000
"""Station hours further than this from a row of a course that follows an event cut nothing."""


def automatic_events(plan: Plan) -> tuple[Event, ...]:
    """An event for every edge that the tables of those lanes may have; its id is the edge's.

    Not all of them are edges at any one time: a row's end inside another's contact is none, nor a
    blackout's inside a gap. Such an event has no time as long as that is so.
    """
    book = bind(plan)
    grounds = {ground.id: ground.name for ground in plan.grounds}
    words = {lane.id: lane.name.capitalize() for lane in plan.lanes}
    return tuple(
        event
        for lane in book.lanes
        if lane.lane in plan.auto_edges
        for event in _of_lane(
            lane, words.get(lane.lane, lane.lane.capitalize()), grounds, book.outcomes
        )
    )


def _of_lane(
    lane: LaneBook, word: str, grounds: Mapping[str, str], outcomes: Outcomes
) -> Iterator[Event]:
    for part in lane.parts:
        only_if = outcomes.label(part.course.only_if, part.course.follows)
        for edge, change, ground in _row_edges(part):
            through = f", {grounds.get(ground, ground)}" if ground else ""
            yield _event(edge, f"{word} {change}{through}", lane.lane, change, only_if)
    for dark in lane.darks:
        yield from _dark_events(dark, word, lane.lane, outcomes)


def _dark_events(dark: Dark, word: str, lane: str, outcomes: Outcomes) -> Iterator[Event]:
    only_if = outcomes.label(None, dark.blackout.after)
    cause = dark.blackout.cause
    yield _event(dark.lost, f"{word} lost, {cause}", lane, Change.LOST, only_if)
    yield _event(dark.back, f"{word} back, after {cause}", lane, Change.BACK, only_if)


def _event(edge: str, name: str, lane: str, change: Change, only_if: str | None) -> Event:
    ref = EdgeRef(lane, change, row=edge)
    return Event(edge, name, edge=ref, only_if=only_if)


def _row_edges(part: Part) -> Iterator[tuple[str, Change, str | None]]:
    """The edges its rows may have; where two of its own rows hand over there is never one."""
    steady = [row for row in part.rows if not row.hours]
    begins_ms = [row.back_ms for row in steady]
    furthest_ms = list(accumulate((row.lost_ms for row in steady), max))
    for row in part.rows:
        before = bisect_left(begins_ms, row.back_ms)
        if row.hours or not before or furthest_ms[before - 1] + TOUCH_MS < row.back_ms:
            yield row.back, Change.BACK, row.ground
        yield from _hour_edges(part, row)
        begun = bisect_right(begins_ms, row.lost_ms + TOUCH_MS)
        if row.hours or furthest_ms[begun - 1] <= row.lost_ms:
            yield row.lost, Change.LOST, row.ground


def _hour_edges(part: Part, row: Row) -> Iterator[tuple[str, Change, str | None]]:
    slip_ms = 0 if part.course.follows is None else SLIP_MS
    first_ms, last_ms = row.back_ms - slip_ms, row.lost_ms + slip_ms
    for number, (open_ms, close_ms) in enumerate(row.hours, 1):
        for change, at_ms in ((Change.BACK, open_ms), (Change.LOST, close_ms)):
            if part.course.times == "offset" or first_ms < at_ms < last_ms:
                yield row.hour_edge(number, change), change, row.ground
