"""Situations of what is to come: the next event, the loss of a lane."""

from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence
from itertools import islice

from core.board.changes import change_ms
from core.board.scene import Scene
from core.board.sight import LaneSight
from core.board.standing import is_automatic
from core.board.telling.namings import becomes, lane_words, named
from core.board.telling.whens import at_ms_of
from core.plan.model import Change
from core.saying.model import Named, Reach
from core.saying.situations import LaneLeft, LossAhead, Next
from core.schedule.model import State
from core.signal.model import Fill
from core.times.writing import HOUR_MS, MINUTE_MS, floor_second_ms

LOSS_WITHIN_MS = 10 * MINUTE_MS
"""A loss nearer than this is what one speaks of, if with it everything is gone."""
_PART_WITHIN_MS = 5 * MINUTE_MS
"""Where a lane stays, the loss of another is told so late."""
_WITHIN_MS = HOUR_MS
_LOOKED_AT = 40


def coming_names(scene: Scene, now_ms: int) -> Iterator[str]:
    """The events ahead that will come whatever the outcome, in order of time."""
    begun = bisect_right(scene.times_ms, now_ms)
    for name in islice(scene.order, begun, begun + _LOOKED_AT):
        ahead = scene.brief(name).state is State.AHEAD
        if ahead and not is_automatic(scene.event(name)) and not scene.open_outcome(name):
            yield name


def next_event(scene: Scene, now_ms: int, told: Collection[str] = ()) -> Next | None:
    """The next live moment within the hour, else what has words of its own, else what comes.

    What is `told` already, is not, nor what begins when the programme is over.
    """
    ends_ms = _programme_ends_ms(scene, now_ms)
    every = coming_names(scene, now_ms)
    names = [name for name in every if ends_ms is None or at_ms_of(scene, name) < ends_ms]
    left = [name for name in names if name not in told]
    if not left:
        return None
    name = _worth_telling(scene, left, now_ms)
    if scene.slides(name):
        return None
    brief = scene.brief(name)
    return Next(
        named(scene, name),
        at_ms_of(scene, name),
        brief.give_ms,
        reach(scene, name),
        change_ms(scene, name),
        scene.way_ms(name),
        pictures=scene.sight.lane("picture") is not None,
        first=name == names[0],
        fact=open_fact(scene, name, now_ms),
    )


def _programme_ends_ms(scene: Scene, now_ms: int) -> int | None:
    """When the programme ends, while it is not over."""
    air = scene.plan.air
    ends_ms = None if air is None else air.off_ms
    return ends_ms if ends_ms is not None and now_ms < ends_ms else None


def _worth_telling(scene: Scene, names: Sequence[str], now_ms: int) -> str:
    soon = [name for name in names if at_ms_of(scene, name) - now_ms < _WITHIN_MS]
    live = (name for name in soon if scene.event(name).live)
    described = (name for name in soon if scene.event(name).say)
    return next(live, None) or next(described, None) or names[0]


def open_fact(scene: Scene, event_id: str, now_ms: int) -> str:
    """The first fact of an event that may be told now."""
    for fact in scene.event(event_id).facts:
        held = fact.after_confirmed or (fact.not_before_ms is not None)
        if not held or (not fact.after_confirmed and (fact.not_before_ms or 0) <= now_ms):
            return fact.text
    return ""


def reach(scene: Scene, event_id: str) -> Reach:
    """What there will be of an event at the craft: heard, seen, or neither."""
    event, brief = scene.event(event_id), scene.brief(event_id)
    at_ms = brief.expected_ms
    if not event.at_craft or at_ms is None or scene.on_ground(brief):
        return Reach.OPEN
    best = scene.sight.best(at_ms + scene.way_ms(event_id), brief.outcome)
    if best is None:
        return Reach.OPEN
    lane, fill = best
    if fill is Fill.GAP:
        return Reach.OUT
    if fill is not Fill.CONTACT or lane.lane not in ("voice", "picture"):
        return Reach.OPEN
    return Reach.SEEN if lane.lane == "picture" else Reach.HEARD


def is_close(scene: Scene, now_ms: int) -> bool:
    """Whether a live moment is less than a minute off: then the countdown says it all."""
    begun = bisect_right(scene.times_ms, now_ms)
    names = scene.order[begun : bisect_right(scene.times_ms, now_ms + MINUTE_MS)]
    return any(scene.event(name).live for name in names if not scene.slides(name))


def is_live_now(scene: Scene, now_ms: int) -> bool:
    """Whether a live moment has come and its stay is not over."""
    first = bisect_right(scene.times_ms, now_ms - HOUR_MS)
    names = scene.order[first : bisect_right(scene.times_ms, now_ms)]
    live = (name for name in names if scene.event(name).live)
    return any(now_ms < at_ms_of(scene, n) + scene.event(n).stay_ms + MINUTE_MS for n in live)


def loss_ahead(scene: Scene, now_ms: int) -> LossAhead | None:
    """The lanes with words or pictures that are lost within ten minutes, or five if one stays."""
    told = [lane for lane in scene.sight.lanes if lane.lane != "data"]
    ends = {lane.lane: _lost_ms(lane, now_ms) for lane in told}
    soon = sorted((at, lane) for lane, at in ends.items() if at and at - now_ms < LOSS_WITHIN_MS)
    if not soon:
        return None
    lanes = tuple(_lane_left(scene, lane, at_ms) for at_ms, lane in soon)
    last_ms, last = soon[-1]
    gone = {lane for _, lane in soon}
    stays = [lane for lane in told if lane.lane not in gone]
    still = next((s for s in stays if s.fill(now_ms) is s.fill(last_ms) is Fill.CONTACT), None)
    if still is not None and soon[0][0] - now_ms >= _PART_WITHIN_MS:
        return None
    return LossAhead(
        lanes,
        then="" if still is not None else _then(scene, lanes[-1].event, last, last_ms),
        stays="" if still is None else lane_words(scene, still.lane),
        unseen=None if still is not None else _unseen(scene, last_ms),
        fact="" if still is not None else _fact(scene, lanes[-1].event, now_ms),
    )


def _lost_ms(lane: LaneSight, now_ms: int) -> int | None:
    """When a lane now in contact is surely lost, hand-overs passed over."""
    stretches, place = lane.signal.stretches, lane.place(now_ms)
    if not stretches or stretches[place].fill is not Fill.CONTACT:
        return None
    while place + 1 < len(stretches) and stretches[place].fill is Fill.CONTACT:
        place += 1
    return stretches[place].from_ms if stretches[place].fill is Fill.GAP else None


def _lane_left(scene: Scene, lane: str, at_ms: int) -> LaneLeft:
    """With the event that stands for the loss, where there is one."""
    event = loss_event(scene, lane, at_ms)
    give_ms = scene.brief(event).give_ms if event else 0
    return LaneLeft(event or f"lane:{lane}", lane_words(scene, lane), at_ms, give_ms)


def loss_event(scene: Scene, lane: str, at_ms: int) -> str:
    """The event that stands for the loss of a lane at that instant, or empty."""
    second_ms = floor_second_ms(at_ms)
    place = bisect_right(scene.times_ms, second_ms - 1)
    while place < len(scene.order) and scene.times_ms[place] == second_ms:
        edge = scene.event(scene.order[place]).edge
        if edge is not None and edge.lane == lane and edge.change is Change.LOST:
            return scene.order[place]
        place += 1
    return ""


def _then(scene: Scene, event: str, lane: str, at_ms: int) -> str:
    words = becomes(scene, event)
    if words:
        return words
    here = scene.sight.lane(lane)
    stretch = here.stretch(at_ms) if here is not None else None
    cause = stretch.cause if stretch is not None else ""
    where = f", {cause}" if cause.startswith("behind") else ""
    return f"we are out of contact{where}"


def _unseen(scene: Scene, lost_ms: int) -> Named | None:
    """The next live moment at the craft, if it falls into the silence that begins there."""
    for name in coming_names(scene, lost_ms):
        if scene.event(name).live:
            return named(scene, name) if reach(scene, name) is Reach.OUT else None
    return None


def _fact(scene: Scene, event: str, now_ms: int) -> str:
    return open_fact(scene, event, now_ms) if event in scene.known else ""
