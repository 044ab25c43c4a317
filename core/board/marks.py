"""The contact mark on a card and what a card says of the signal."""

from core.board.model import Mark
from core.board.scene import Scene
from core.board.words import either, rough_words
from core.plan.model import Change
from core.schedule.model import Line
from core.signal.model import Fill
from core.times.writing import apart_ms, short_duration_words


def mark(scene: Scene, event_id: str) -> Mark | None:
    """How the signal stands around the event's instant; None without lanes or without a time."""
    line = scene.line(event_id)
    at_ms = line.expected_ms
    if at_ms is None:
        return None
    edge = scene.event(event_id).edge
    lane = scene.sight.lane(edge.lane) if edge is not None else None
    if lane is not None and edge is not None:
        back = edge.change is Change.BACK
        usual = (Fill.GAP, Fill.CONTACT) if back else (Fill.CONTACT, Fill.GAP)
        return Mark(lane.lane, *usual)
    best = scene.sight.best(at_ms, line.outcome)
    return None if best is None else Mark(best[0].lane, best[1], best[1])


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
        return _edge_note(scene, line, edge.lane, edge.change)
    best = scene.sight.best(line.expected_ms, line.outcome)
    if best is None:
        return ""
    lane, fill = best
    if fill is not Fill.CONTACT:
        return _WITHOUT[fill]
    picture = scene.sight.lane("picture")
    return "no pictures" if picture is not None and lane.lane != "picture" else ""


def _edge_note(scene: Scene, line: Line, lane_id: str, change: Change) -> str:
    if change is Change.LOST:
        waits = gap_lengths_ms(scene, lane_id, line.expected_ms or 0, line.outcome)
        if waits:
            silence = "out of contact" if lane_id != "picture" else "no pictures"
            return f"then {silence} {either(rough_words(wait) for wait in waits)}"
    if line.give_ms >= 1000:
        return f"{lane_id}, ± {short_duration_words(line.give_ms)}"
    return lane_id


def gap_lengths_ms(
    scene: Scene, lane_id: str, from_ms: int, outcome: str | None
) -> tuple[int, ...]:
    """How long the lane is out from that instant on, one length for each outcome still open."""
    lane = scene.sight.lane(lane_id)
    if lane is None:
        return ()
    returns = lane.next_contacts(from_ms, outcome)
    return tuple(apart_ms(at_ms, from_ms) for at_ms in returns if at_ms > from_ms)
