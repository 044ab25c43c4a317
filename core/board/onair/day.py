"""The day as the air reckons with it: live moments, junctions, contact and gaps of a scene."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from core.air.model import Day, Moment
from core.air.spans import EVER_MS, Spans, merged
from core.board.model import CardState
from core.board.scene import Scene
from core.plan.model import Change, Event, Junction
from core.schedule.model import Kind, State
from core.signal.model import Edge, Fill, LaneSignal, Stretch
from core.times.writing import MINUTE_MS

_GOES_WITH_MS = 15 * MINUTE_MS
"""A loss so long before an event that goes with the lane is where its live moment begins."""

_ON_TIME_MS = 30_000
"""What is so late is on time still."""

_NOT_COMPUTED = "not computed"
"""The cause of a stretch of which no course says anything: it is neither contact nor gap."""

_OWN_WORD = frozenset({Kind.PLANNED, Kind.FIGURE, Kind.PIN, Kind.EDGE})

_TIMED = frozenset({State.AHEAD, State.HAPPENED})


def day_of(scene: Scene, away: Spans) -> Day:
    """The day of a scene; `away` is where the network has the air for as long as it has said."""
    air = scene.plan.air
    on_ms = None if air is None else air.on_ms
    off_ms = None if air is None else air.off_ms
    needed = dict.fromkeys(item.needs for item in scene.plan.items if item.needs is not None)
    prefers = any(item.prefers is not None for item in scene.plan.items)
    lanes = {lane.lane: lane for lane in scene.lanes}
    return Day(
        on_ms=-EVER_MS if on_ms is None else on_ms,
        off_ms=EVER_MS if off_ms is None else off_ms,
        item_gap_ms=0 if air is None else air.item_gap_ms,
        break_gap_ms=0 if air is None else air.break_gap_ms,
        moments=tuple(sorted(_moments(scene, lanes), key=lambda one: one.back_by_ms)),
        away=away,
        contact=tuple((name, _contact(lanes[name])) for name in needed if name in lanes),
        quiet=_quiet(scene.lanes[0]) if prefers and scene.lanes else (),
    )


def waiting(scene: Scene, day: Day, now_ms: int) -> tuple[str, ...]:
    """The live moments whose time has come and that may still come, of which nobody has said so.

    One may be as late as its give after its stay, and half a minute in any case: so much is on
    time. Past that the row of what is overdue has to do. What has come before its time waits for
    nothing.
    """
    return tuple(
        one.id
        for one in day.moments
        if not one.junction
        and one.at_ms <= now_ms < _waits_until_ms(scene, one)
        and scene.standing(one.id, now_ms).state is CardState.DUE
        and one.at_ms == _heard_at_ms(scene, one.id)
    )


def _waits_until_ms(scene: Scene, one: Moment) -> int:
    return max(one.until_ms + scene.brief(one.id).give_ms, one.at_ms + _ON_TIME_MS)


def _heard_at_ms(scene: Scene, event_id: str) -> int | None:
    """When it is expected to be heard here."""
    expected_ms = scene.brief(event_id).expected_ms
    return None if expected_ms is None else expected_ms + scene.way_ms(event_id)


def _moments(scene: Scene, lanes: dict[str, LaneSignal]) -> Iterator[Moment]:
    for number, junction in enumerate(scene.plan.junctions):
        yield _junction(number, junction)
    for event in scene.roll.live:
        if scene.brief(event.id).state in _TIMED:
            moment = _live(scene, event, lanes)
            if moment is not None:
                yield moment


def _junction(number: int, junction: Junction) -> Moment:
    at_ms = junction.at_ms
    name = junction.name
    return Moment(f"{number}.{name}", name, at_ms, at_ms, at_ms, at_ms, junction=True)


@dataclass(frozen=True, slots=True)
class _Begins:
    """When a live moment begins, at the expected time and at the earliest."""

    at_ms: int
    early_ms: int


def _live(scene: Scene, event: Event, lanes: dict[str, LaneSignal]) -> Moment | None:
    """The stretch of a live event. What is far out there is live when it is heard here."""
    at_ms = _heard_at_ms(scene, event.id)
    if at_ms is None:
        return None
    begins = _Begins(at_ms, at_ms - _early_by_ms(scene, event))
    back_ms = _back_since_ms(event, lanes, at_ms)
    if back_ms is not None:
        at_ms = back_ms
        begins = _Begins(at_ms, at_ms)
    lane = lanes.get(event.live_with or "")
    if lane is not None:
        begins = _with_lane(begins, lane, scene.brief(event.id).outcome)
    return Moment(
        id=event.id,
        name=event.name,
        at_ms=at_ms,
        back_by_ms=begins.at_ms - event.guard_ms,
        until_ms=at_ms + event.stay_ms,
        early_back_by_ms=begins.early_ms - event.guard_ms,
    )


def _back_since_ms(event: Event, lanes: dict[str, LaneSignal], at_ms: int) -> int | None:
    """Of a return: since when its lane is back already, as observed, up to when it is expected."""
    edge = event.edge
    lane = None if edge is None or edge.change is not Change.BACK else lanes.get(edge.lane)
    if lane is None:
        return None
    seen = (each for each in lane.edges if each.observed and each.change is Change.BACK)
    since_ms = max((each.time_ms for each in seen if each.time_ms < at_ms), default=None)
    if since_ms is None:
        return None
    between = (each for each in lane.stretches if _meets(each, since_ms, at_ms))
    return since_ms if all(each.fill is Fill.CONTACT for each in between) else None


def _meets(stretch: Stretch, from_ms: int, to_ms: int) -> bool:
    before = stretch.to_ms is not None and stretch.to_ms <= from_ms
    return not before and (stretch.from_ms is None or stretch.from_ms < to_ms)


def _early_by_ms(scene: Scene, event: Event) -> int:
    """By how much it may come before its expected time: its give, as far as the limits allow.

    A planned clock time and a figure are no limit, it is their give that says how far they hold.
    """
    brief = scene.brief(event.id)
    give_ms = brief.give_ms
    if not give_ms or brief.state is State.HAPPENED:
        return 0
    if brief.expected_ms is None:
        return 0
    floor = scene.schedule.floor(event.id)
    floor_ms = floor.earliest_ms
    if floor.kind is None or floor.kind in _OWN_WORD:
        floor_ms = None if event.window is None else event.window.not_before_ms
    if floor_ms is None:
        return give_ms
    return max(0, min(give_ms, brief.expected_ms - floor_ms))


def _with_lane(begins: _Begins, lane: LaneSignal, outcome: str | None) -> _Begins:
    """It begins where the lane is lost last, shortly before: what goes then is not seen later."""
    lost = _last_loss(lane.edges, begins.at_ms, outcome)
    if lost is None:
        return begins
    early_ms = lost.time_ms - (0 if lost.observed else lost.give_ms)
    return _Begins(lost.time_ms, min(early_ms, begins.early_ms))


def _last_loss(edges: Iterable[Edge], at_ms: int, outcome: str | None) -> Edge | None:
    losses = (
        edge
        for edge in edges
        if edge.change is Change.LOST
        and at_ms - _GOES_WITH_MS <= edge.time_ms <= at_ms
        and edge.outcome in (None, outcome)
    )
    return max(losses, key=lambda edge: edge.time_ms, default=None)


# ------------------------------------------------------------------ the signal


def _contact(lane: LaneSignal) -> Spans:
    """Where the lane is surely in contact, whatever the outcome, and not closed."""
    return _spans(each for each in lane.stretches if each.fill is Fill.CONTACT)


def _quiet(lane: LaneSignal) -> Spans:
    """Where the lane is surely in a gap."""
    gaps = (each for each in lane.stretches if each.fill is Fill.GAP)
    return _spans(each for each in gaps if each.cause != _NOT_COMPUTED)


def _spans(stretches: Iterable[Stretch]) -> Spans:
    return merged(
        (
            -EVER_MS if each.from_ms is None else each.from_ms,
            EVER_MS if each.to_ms is None else each.to_ms,
        )
        for each in stretches
    )
