"""Printed rows laid beside the day: shifted with their events, and by what the desk has told."""

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from core.plan.driving import SHIFTING
from core.plan.model import Bound, Change, Course
from core.signal.book import Dark, Part
from core.signal.cuts import EVER_MS, NOT_BOOKED, Cut
from core.signal.model import Shifted
from core.signal.rows import Row, Rows
from core.signal.tiles import Tile
from core.signal.told import Anchor, Fact

SHORTEST_MS = 1000
"""A stretch of which one end is told is never shown shorter: the other end gives way."""

NOTED_MS = 1000
"""A path that lies off its file by less is as its file says."""

Expected = Callable[[str], int | None]


class Placed(NamedTuple):
    """A course's contacts on a lane, where there is none for a reason of its own, its extent.

    `due` is when a return or a loss would be that the desk has placed.
    """

    pieces: list[Tile]
    closed: list[Cut]
    from_ms: int
    to_ms: int
    due: dict[str, int]


def shift_of(course: Course, expected: Expected, planned: Expected) -> int | None:
    """How much later than printed a course's rows lie; None where its event has no time.

    A table and a trajectory file shift with their event; other courses hang on events of their own.
    """
    if course.follows is None or course.kind not in SHIFTING:
        return 0
    now_ms = expected(course.follows)
    if now_ms is None or course.times == "offset":
        return now_ms
    printed_ms = planned(course.follows)
    return None if printed_ms is None else now_ms - printed_ms


def shifted(course: Course, expected: Expected, planned: Expected) -> Shifted | None:
    """How a course out of a file lies elsewhere than that says; None where it does not."""
    if course.follows is None or course.trajectory is None:
        return None
    by_ms = shift_of(course, expected, planned)
    if by_ms is None or abs(by_ms) < NOTED_MS:
        return None
    return Shifted(course.id, course.follows, by_ms)


def place(
    part: Part,
    rows: Rows,
    shift_ms: int | None,
    anchors: Sequence[Anchor],
    facts: Mapping[str, Fact],
    expected: Expected,
) -> Placed:
    """The rows of a part where they lie now; rows without a time are left out."""
    begin_ms = _bound(part.course.begins, -EVER_MS, expected)
    end_ms = _bound(part.course.ends, EVER_MS, expected)
    if part.working is not None:
        begin_ms = max(begin_ms, rows.from_ms + (shift_ms or 0))
        end_ms = min(end_ms, rows.to_ms + (shift_ms or 0))
    placed = Placed(
        [],
        _hidden(rows, shift_ms, begin_ms, end_ms),
        *((-EVER_MS, EVER_MS) if part.working is None else (begin_ms, end_ms)),
        due={},
    )
    for row in rows.rows:
        span = _span(row, shift_ms, anchors, facts)
        if span is None:
            continue
        from_ms = span[0] if row.back in facts else max(span[0], begin_ms)
        to_ms = span[1] if row.lost in facts else min(span[1], end_ms)
        if from_ms >= to_ms:
            continue
        if row.back in facts:
            due_ms = _due(row.back_ms, shift_ms, anchors)
            placed.due[row.back] = from_ms if due_ms is None else max(due_ms, begin_ms)
        if row.lost in facts:
            due_ms = _due(row.lost_ms, shift_ms, anchors)
            placed.due[row.lost] = to_ms if due_ms is None else min(due_ms, end_ms)
        tile = Tile(
            from_ms,
            to_ms,
            contact=True,
            ground=row.ground,
            course=part.course.id,
            back=row.back,
            lost=row.lost,
            cause=row.gone or part.cause,
        )
        if row.hours and not _belies_hours(row, facts):
            _book(tile, row, facts, placed)
        else:
            placed.pieces.append(tile)
    return placed


def _hidden(rows: Rows, shift_ms: int | None, begin_ms: int, end_ms: int) -> list[Cut]:
    if shift_ms is None:
        return []
    moved = (
        Cut(max(cut.from_ms + shift_ms, begin_ms), min(cut.to_ms + shift_ms, end_ms), cut.cause)
        for cut in rows.hidden
    )
    return [cut for cut in moved if cut.from_ms < cut.to_ms]


def dark_cut(dark: Dark, facts: Mapping[str, Fact], expected: Expected) -> Cut | None:
    """The stretch a blackout cuts now; None where its event has no time."""
    after_ms = expected(dark.blackout.after)
    if after_ms is None:
        return None
    from_ms, to_ms = after_ms + dark.blackout.from_ms, after_ms + dark.blackout.to_ms
    lost, back = facts.get(dark.lost), facts.get(dark.back)
    if lost is not None and lost.moves:
        to_ms += lost.time_ms - from_ms  # a blackout that begins late ends late
    from_ms, to_ms = _told(from_ms, to_ms, lost, back)
    return Cut(from_ms, to_ms, dark.blackout.cause, dark.lost, dark.back)


def _told(from_ms: int, to_ms: int, begin: Fact | None, end: Fact | None) -> tuple[int, int]:
    """A stretch with its ends where they are told to be; an end not told gives way."""
    if begin is not None:
        from_ms = begin.time_ms
    if end is not None:
        to_ms = end.time_ms
    if begin is not None and end is None:
        to_ms = max(to_ms, from_ms + SHORTEST_MS)
    elif end is not None and begin is None:
        from_ms = min(from_ms, to_ms - SHORTEST_MS)
    return from_ms, to_ms


def _bound(bound: Bound | None, open_ms: int, expected: Expected) -> int:
    if bound is None:
        return open_ms
    at_ms = bound.at_ms if bound.event is None else expected(bound.event)
    return open_ms if at_ms is None else at_ms


def _span(
    row: Row, shift_ms: int | None, anchors: Sequence[Anchor], facts: Mapping[str, Fact]
) -> tuple[int, int] | None:
    """Where a row begins and ends now."""
    if not anchors and not facts:
        return None if shift_ms is None else (row.back_ms + shift_ms, row.lost_ms + shift_ms)
    back, lost = facts.get(row.back), facts.get(row.lost)
    back_ms = _moved(row.back_ms, shift_ms, anchors) if back is None else back.time_ms
    lost_ms = _moved(row.lost_ms, shift_ms, anchors) if lost is None else lost.time_ms
    if back_ms is None or lost_ms is None:
        return None
    return _told(back_ms, lost_ms, back, lost)


def _due(printed_ms: int, shift_ms: int | None, anchors: Sequence[Anchor]) -> int | None:
    """When an end of a row would be by what was told of those before it alone."""
    earlier = [each for each in anchors if each.printed_ms < printed_ms]
    return _moved(printed_ms, shift_ms, earlier)


def _moved(printed_ms: int, shift_ms: int | None, anchors: Sequence[Anchor]) -> int | None:
    before = bisect_right(anchors, printed_ms, key=lambda anchor: anchor.printed_ms)
    shift_now_ms = anchors[before - 1].shift_ms if before else shift_ms
    return None if shift_now_ms is None else printed_ms + shift_now_ms


def _belies_hours(row: Row, facts: Mapping[str, Fact]) -> bool:
    """Whether the row's signal was told to begin or end while its station was to be closed."""
    back, lost = facts.get(row.back), facts.get(row.lost)
    late = back is not None and not any(o <= back.time_ms < c for o, c in row.hours)
    early = lost is not None and not any(o < lost.time_ms <= c for o, c in row.hours)
    return late or early


def _book(tile: Tile, row: Row, facts: Mapping[str, Fact], placed: Placed) -> None:
    """A row within its station's hours, and what is lost of it outside them."""
    at_ms = tile.from_ms
    for number, hours in enumerate(row.hours, 1):
        if not facts and (hours[1] <= tile.from_ms or tile.to_ms <= hours[0]):
            continue
        opens, closes = (row.hour_edge(number, change) for change in (Change.BACK, Change.LOST))
        begin_ms, end_ms = _told(
            max(hours[0], tile.from_ms),
            min(hours[1], tile.to_ms),
            facts.get(opens),
            facts.get(closes),
        )
        if begin_ms >= end_ms:
            continue
        if begin_ms > at_ms:
            placed.closed.append(Cut(at_ms, begin_ms, NOT_BOOKED))
        placed.pieces.append(
            tile._replace(
                from_ms=begin_ms,
                to_ms=end_ms,
                back=tile.back if begin_ms == tile.from_ms else opens,
                lost=tile.lost if end_ms == tile.to_ms else closes,
            )
        )
        at_ms = max(at_ms, end_ms)
    if at_ms < tile.to_ms:
        placed.closed.append(Cut(at_ms, tile.to_ms, NOT_BOOKED))
