"""The contact mark on a card and what a card says of the signal."""

from core.board.model import Mark
from core.board.scene import Scene
from core.board.sight import LaneSight
from core.board.words import gap_words
from core.plan.model import Change, EdgeRef
from core.schedule.model import Brief, Line
from core.signal.model import Fill
from core.times.writing import MINUTE_MS, apart_ms, floor_second_ms, short_duration_words

_TOGETHER_MS = 10 * MINUTE_MS
"""Losses no further apart belong to one passing out of sight."""


def mark(scene: Scene, event_id: str) -> Mark | None:
    """How the signal stands around the event's instant; None without lanes or without a time."""
    line = scene.line(event_id)
    at_ms = line.expected_ms
    if at_ms is None:
        return None
    at_ms += scene.way_ms(event_id)
    edge = scene.event(event_id).edge
    lane = scene.sight.lane(edge.lane) if edge is not None else None
    if lane is not None and edge is not None:
        back = edge.change is Change.BACK
        before, after = (Fill.GAP, Fill.CONTACT) if back else (Fill.CONTACT, Fill.GAP)
        return Mark(lane.lane, after if _came_before(lane, line, at_ms, after) else before, after)
    best = scene.sight.best(at_ms, line.outcome)
    return None if best is None else Mark(best[0].lane, best[1], best[1])


def _came_before(lane: LaneSight, line: Brief | Line, at_ms: int, after: Fill) -> bool:
    """Whether the lane is already, for another reason, what the edge would make of it."""
    return lane.fill(floor_second_ms(at_ms) - 1, line.outcome) is after  # as its edges are shown


def is_so_already(scene: Scene, event_id: str, now_ms: int) -> bool:
    """Whether an edge to come would change nothing: the lane has been so since before it."""
    edge = scene.event(event_id).edge
    lane = scene.sight.lane(edge.lane) if edge is not None else None
    if lane is None or edge is None:
        return False
    line, after = scene.brief(event_id), Fill.CONTACT if edge.change is Change.BACK else Fill.GAP
    if line.expected_ms is None:
        return False
    return lane.fill(now_ms, line.outcome) is after and _came_before(
        lane, line, line.expected_ms, after
    )


_WITHOUT = {
    Fill.GAP: "out of contact",
    Fill.EITHER: "contact depends on the outcome",
    Fill.CLOSED: "closed by the ground",
}


def contact_note(scene: Scene, event_id: str) -> str:
    """What the audience will have at that instant: 'out of contact', 'no pictures', 'voice'."""
    line = scene.line(event_id)
    if line.expected_ms is None or not scene.sight.lanes:
        return ""
    edge = scene.event(event_id).edge
    if edge is not None:
        return _edge_note(scene, line, line.expected_ms, edge)
    best = scene.sight.best(line.expected_ms, line.outcome)
    if best is None or scene.on_ground(line):
        return ""  # on the ground nothing is out of contact
    lane, fill = best
    if fill is not Fill.CONTACT:
        return _WITHOUT[fill]
    picture = scene.sight.lane("picture")
    return "no pictures" if picture is not None and lane.lane != "picture" else ""


def _edge_note(scene: Scene, line: Line, at_ms: int, edge: EdgeRef) -> str:
    lane_id, change = edge.lane, edge.change
    lane = scene.sight.lane(lane_id)
    after = Fill.GAP if change is Change.LOST else Fill.CONTACT
    if lane is not None and _came_before(lane, line, at_ms, after):
        return f"{lane_id} is {'lost' if change is Change.LOST else 'back'} already"
    if change is Change.LOST:
        moved = line.figure_ms is not None  # the other lanes stay where they were
        if moved and (first := _goes_first(scene, lane_id, at_ms, line)):
            return first
        lengths_ms, sure = lane.gap_ms(at_ms, line.outcome) if lane is not None else ((), True)
        if lengths_ms:
            silence = "out of contact" if lane_id != "picture" else "no pictures"
            return f"then {silence} {gap_words(lengths_ms, sure=sure)}"
    if line.give_ms >= 1000:
        return f"{lane_id}; ± {short_duration_words(line.give_ms)}"
    return lane_id


def _goes_first(scene: Scene, lane_id: str, at_ms: int, line: Line) -> str:
    """'data goes first; 1 min 30 s before': another lane's loss that has no card of its own."""
    events = scene.roll.events
    told = {edge.lane for name in scene.roll.named_edges if (edge := events[name].edge)}
    for other in scene.sight.lanes:
        just_before_ms = floor_second_ms(at_ms) - 1
        stretch = other.stretch(just_before_ms)
        if other.lane == lane_id or other.lane in told or not stretch or stretch.from_ms is None:
            continue
        before_ms = apart_ms(at_ms, stretch.from_ms)
        gone = other.fill(just_before_ms, line.outcome) is Fill.GAP
        if gone and 1000 <= before_ms <= _TOGETHER_MS:
            return f"{other.lane} goes first; {short_duration_words(before_ms)} before"
    return ""
