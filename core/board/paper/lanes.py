"""How each lane is at an event's instant: a mark, and a word that says the same."""

from core.board.marks import mark
from core.board.paper.model import Head, Kind, Legend, Place
from core.board.scene import Scene
from core.board.sight import LaneSight
from core.board.words import lane_names
from core.plan.model import Change
from core.signal.cuts import UNKNOWN
from core.signal.model import Fill
from core.times.writing import floor_second_ms

_MOST = 5
"""More lanes than so many have no columns of their own."""

WORDS = {
    Fill.CONTACT: "signal",
    Fill.GAP: "none",
    Fill.EITHER: "either",
    Fill.CLOSED: "closed",
}

_LEGEND = (
    ((Fill.CONTACT, Fill.CONTACT), "signal"),
    ((Fill.GAP, Fill.GAP), "none"),
    ((Fill.CONTACT, Fill.GAP), "lost then"),
    ((Fill.GAP, Fill.CONTACT), "back then"),
    ((Fill.EITHER, Fill.EITHER), "either: it depends on an outcome that is open"),
    ((Fill.CLOSED, Fill.CLOSED), "closed by the ground"),
)


def lane_heads(scene: Scene) -> tuple[Head, ...]:
    """The headings of the lanes' columns; many lanes share one."""
    lanes, names = scene.sight.lanes, lane_names(scene.plan)
    if len(lanes) > _MOST:
        return (Head("SIGNAL"),)
    return tuple(Head(names.get(lane.lane, lane.lane).upper(), Kind.LANE) for lane in lanes)


def lane_places(scene: Scene, event_id: str) -> tuple[Place, ...]:
    """How each lane is when the event is heard of; an event that is an edge says which."""
    places = tuple(_place(scene, event_id, lane) for lane in scene.sight.lanes)
    if len(places) <= _MOST:
        return places
    names = lane_names(scene.plan)
    alike: dict[str, list[str]] = {}
    for lane, place in zip(scene.sight.lanes, places, strict=True):
        alike.setdefault(place.text, []).append(names.get(lane.lane, lane.lane).lower())
    return (Place("\n".join(f"{text}: {', '.join(each)}" for text, each in alike.items())),)


def legend(scene: Scene) -> tuple[Legend, ...]:
    """What the marks mean; those that only a special plan has are left out elsewhere."""
    if not 0 < len(scene.sight.lanes) <= _MOST:
        return ()
    fills = {stretch.fill for lane in scene.lanes for stretch in lane.stretches}
    fills |= {Fill.CONTACT, Fill.GAP}
    return tuple(Legend(each, text) for each, text in _LEGEND if each[0] in fills)


def _place(scene: Scene, event_id: str, lane: LaneSight) -> Place:
    brief, edge = scene.brief(event_id), scene.event(event_id).edge
    at_ms = brief.expected_ms
    if at_ms is None:
        return Place()
    if edge is not None and edge.lane == lane.lane:
        return _edge_place(scene, event_id, edge.change)
    at_ms = floor_second_ms(at_ms + scene.way_ms(event_id))
    fill = lane.fill(at_ms, brief.outcome)
    stretch = lane.stretch(at_ms)
    if fill is Fill.GAP and scene.on_ground(brief):
        return Place("on the ground")
    if stretch is None or (fill is Fill.GAP and stretch.cause == UNKNOWN):
        return Place("not known")
    return Place(WORDS[fill], mark=(fill, fill))


def _edge_place(scene: Scene, event_id: str, change: Change) -> Place:
    found = mark(scene, event_id)
    word = "back" if change is Change.BACK else "lost"
    if found is None:
        return Place(word)
    already = " already" if found.before is found.after else ""
    return Place(f"{word}{already}", mark=(found.before, found.after))
