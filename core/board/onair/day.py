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

    One may be as late as its give; past that the row of what is overdue has to do.
    """
    return tuple(
        one.id
        for one in day.moments
        if not one.junction
        and one.at_ms <= now_ms < one.until_ms + scene.brief(one.id).give_ms
        and scene.standing(one.id, now_ms).state is CardState.DUE
    )


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
    line = scene.brief(event.id)
    if line.expected_ms is None:
        return None
    at_ms = line.expected_ms + scene.way_ms(event.id)
    begins = _Begins(at_ms, at_ms - _early_by_ms(scene, event))
    lane = lanes.get(event.live_with or "")
    if lane is not None:
        begins = _with_lane(begins, lane, line.outcome)
    return Moment(
        id=event.id,
        name=event.name,
        at_ms=at_ms,
        back_by_ms=begins.at_ms - event.guard_ms,
        until_ms=at_ms + event.stay_ms,
        early_back_by_ms=begins.early_ms - event.guard_ms,
    )


def _early_by_ms(scene: Scene, event: Event) -> int:
    """By how much it may come before its expected time: its give, as far as the limits allow.

    A planned clock time and a figure are no limit, it is their give that says how far they hold.
    """
    brief = scene.brief(event.id)
    give_ms = brief.give_ms
    if not give_ms or brief.state is State.HAPPENED:
        return 0
    line = scene.line(event.id)
    if line.expected_ms is None:
        return 0
    floor_ms = line.earliest_ms
    if line.cause is None or line.cause.kind in _OWN_WORD:
        floor_ms = None if event.window is None else event.window.not_before_ms
    if floor_ms is None:
        return give_ms
    return max(0, min(give_ms, line.expected_ms - floor_ms))


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
