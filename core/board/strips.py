"""What the strip draws: lanes as arrays, ground stations, edges with their times."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from core.board.model import EdgeLabel, GroundSpan, LaneColumn, Strip
from core.board.sight import role
from core.board.words import lane_names
from core.plan.model import Change, Plan
from core.signal.model import Fill, LaneSignal, Stretch
from core.times.writing import MINUTE_MS, Style, clock_text, floor_second_ms, nearest_minute_ms

EVER_MS = 365 * 86_400_000
"""Open ends are drawn as far as this from what is known."""

_EITHER = "either"


def strip(plan: Plan, lanes: Sequence[LaneSignal], events_ms: Sequence[int], style: Style) -> Strip:
    """The whole strip. `events_ms` are the instants of the cards, in order."""
    names = lane_names(plan)
    extent = _extent(lanes, events_ms)
    return Strip(
        lanes=tuple(_column(lane, names.get(lane.lane, lane.lane), extent) for lane in lanes),
        grounds=_grounds(plan, lanes[0].stretches, extent) if lanes else (),
        edges=tuple(label for lane in lanes for label in _labels(lane, style)),
        events_ms=tuple(events_ms),
    )


def unheard(whole: Strip, waiting: Mapping[str, int]) -> Strip:
    """The strip with contact that nobody has heard drawn as 'either'; by lane, when it begins."""
    columns = (
        _waiting(each, waiting[each.lane]) if each.lane in waiting else each for each in whole.lanes
    )
    return replace(whole, lanes=tuple(columns)) if waiting else whole


def _waiting(column: LaneColumn, since_ms: int) -> LaneColumn:
    fills, words = list(column.fills), list(column.words)
    for place, at_ms in enumerate(column.starts_ms):
        if floor_second_ms(at_ms) < since_ms:
            continue
        if fills[place] is not Fill.CONTACT:
            break
        fills[place], words[place] = Fill.EITHER, _EITHER
    return replace(column, fills=tuple(fills), words=tuple(words))


def _extent(lanes: Sequence[LaneSignal], events_ms: Sequence[int]) -> tuple[int, int]:
    known = [*events_ms[:1], *events_ms[-1:]]
    for lane in lanes:
        for stretch in (*lane.stretches[:1], *lane.stretches[-1:]):
            known += [at for at in (stretch.from_ms, stretch.to_ms) if at is not None]
    return (min(known, default=0) - EVER_MS, max(known, default=0) + EVER_MS)


def _column(lane: LaneSignal, name: str, extent: tuple[int, int]) -> LaneColumn:
    first_ms, last_ms = extent
    return LaneColumn(
        lane=lane.lane,
        name=name,
        colour=role(lane.lane),
        starts_ms=tuple(first_ms if s.from_ms is None else s.from_ms for s in lane.stretches),
        ends_ms=tuple(last_ms if s.to_ms is None else s.to_ms for s in lane.stretches),
        fills=tuple(s.fill for s in lane.stretches),
        words=tuple(_words(s) for s in lane.stretches),
    )


def _words(stretch: Stretch) -> str:
    match stretch.fill:
        case Fill.EITHER:
            return _EITHER
        case Fill.CLOSED:
            return "closed"
        case Fill.GAP:
            return stretch.cause
    return ""


def _labels(lane: LaneSignal, style: Style) -> Iterable[EdgeLabel]:
    later = False
    for edge in lane.edges:
        is_open = edge.change is Change.BACK and edge.outcome is not None
        minute_ms = edge.time_ms // MINUTE_MS * MINUTE_MS
        if later and is_open:
            minute_ms = nearest_minute_ms(edge.time_ms)  # as it is said of the later of two
        yield EdgeLabel(
            edge.time_ms, lane.lane, _minute_text(minute_ms, style), edge.change is Change.LOST
        )
        later = is_open or (later and edge.change is Change.BACK)


@lru_cache(maxsize=4096)
def _minute_text(minute_ms: int, style: Style) -> str:
    """The minute as it is said; most edges stand at the same one from one entry to the next."""
    return clock_text(minute_ms, style, seconds=False)


def _grounds(
    plan: Plan, stretches: Sequence[Stretch], extent: tuple[int, int]
) -> tuple[GroundSpan, ...]:
    """Each station from its first contact until another takes over, gaps in between included."""
    names = {ground.id: ground.name for ground in plan.grounds}
    spans: list[GroundSpan] = []
    for stretch in stretches:
        if stretch.ground is None:
            continue
        begin = extent[0] if stretch.from_ms is None else stretch.from_ms
        end = extent[1] if stretch.to_ms is None else stretch.to_ms
        name = names.get(stretch.ground, stretch.ground)
        if spans and spans[-1].name == name:
            begin = spans.pop().from_ms
        spans.append(GroundSpan(name, begin, end))
    return tuple(spans)
