"""What a moved loss or return leaves where it is: the same change on the other lanes."""

from core.board.scene import Scene
from core.board.written import Said, Tone
from core.entries.model import Action, Happened, Revise
from core.plan.model import Change
from core.signal.model import Edge, LaneSignal
from core.times.writing import MINUTE_MS, dated_clock_text, floor_second_ms

_BESIDE_MS = 5 * MINUTE_MS
"""So near to each other two lanes change together: one contact, as a rule."""

_SAID = {Change.LOST: "lost", Change.BACK: "back"}


def staying(before: Scene, after: Scene, action: Action, now_ms: int) -> tuple[Said, ...]:
    """'DATA stays: lost at 4:49:03 p.m.', for each lane that changes beside the one that is moved.

    `after` is looked at while it stands. Empty where no edge moves, and for what was observed.
    """
    if not isinstance(action, Revise | Happened) or action.event not in before.known:
        return ()
    edge = before.event(action.event).edge
    was_ms, is_ms = _at_ms(before, action.event), _at_ms(after, action.event)
    if edge is None or was_ms is None or is_ms is None or was_ms == is_ms:
        return ()
    outcome = before.brief(action.event).outcome
    lines = []
    for lane in before.lanes:
        beside = None if lane.lane == edge.lane else _beside(lane, edge.change, was_ms, outcome)
        if beside is None or not _is_there(after, beside):
            continue
        clock = dated_clock_text(beside.time_ms, before.style, now_ms)
        words = f"{before.roll.names(lane.lane)} stays: {_SAID[edge.change]} at {clock}"
        lines.append(Said(words, Tone.QUIET))
    return tuple(lines)


def _at_ms(scene: Scene, event: str) -> int | None:
    at_ms = scene.brief(event).expected_ms
    return None if at_ms is None else floor_second_ms(at_ms)


def _beside(lane: LaneSignal, change: Change, at_ms: int, outcome: str | None) -> Edge | None:
    """The lane's own change that goes with it, if nobody has observed it yet."""
    near = (
        each
        for each in lane.edges
        if each.change is change
        and abs(each.time_ms - at_ms) <= _BESIDE_MS
        and each.outcome in (None, outcome)
    )
    found = min(near, key=lambda each: abs(each.time_ms - at_ms), default=None)
    return None if found is None or found.observed else found


def _is_there(scene: Scene, edge: Edge) -> bool:
    """Whether the edge is where it was, to the second."""
    second_ms = floor_second_ms(edge.time_ms)
    lanes = (lane for lane in scene.lanes if lane.lane == edge.lane)
    edges = (each for lane in lanes for each in lane.edges if each.id == edge.id)
    return any(floor_second_ms(each.time_ms) == second_ms for each in edges)
