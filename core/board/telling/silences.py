"""Situations of silence: what happens unheard behind a body, or far away."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import replace

from core.board.model import CardState
from core.board.scene import Scene
from core.board.sight import LaneSight
from core.board.standing import is_automatic, is_return
from core.board.telling.namings import body, named
from core.board.telling.whens import at_ms_of, lately
from core.saying.situations import FarAway, Gap, Silence
from core.signal.model import Fill
from core.times.writing import MINUTE_MS, floor_second_ms

_FRESH_MS = 5 * MINUTE_MS
_BELONGS_MS = 30 * MINUTE_MS


def under_way(scene: Scene, now_ms: int) -> Gap | None:
    """What should be going on now that nobody can hear, from its beginning to its fixed end."""
    for name in _unheard(scene, now_ms):
        end = _end(scene, name)
        if end and at_ms_of(scene, end) > now_ms:
            return _gap(scene, name, _doing(scene, name), at_ms_of(scene, end), now_ms)
    return None


def gone_by(scene: Scene, now_ms: int) -> Gap | None:
    """What should have happened in the last minutes where nobody could hear it."""
    told = (name for name in _unheard(scene, now_ms) if scene.event(name).say)
    name = next(told, None)
    if name is None or now_ms - at_ms_of(scene, name) > _FRESH_MS:
        return None
    found = _gap(scene, name, "", at_ms_of(scene, name) + _FRESH_MS, now_ms)
    return replace(found, doing=f"{found.named.words} has come and gone", over=True)


def far_away(scene: Scene, now_ms: int) -> FarAway | None:
    """Something at a distant craft that is over by now, and not heard yet."""
    for name in lately(scene, now_ms):
        standing = scene.standing(name, now_ms)
        if standing.state is CardState.ON_ITS_WAY and standing.heard_ms is not None:
            at_ms, give_ms = at_ms_of(scene, name), scene.brief(name).give_ms
            way_ms = scene.way_ms(name)
            it = named(scene, name)
            last = not _more_out_there(scene, at_ms)
            return FarAway(it, body(scene), at_ms, standing.heard_ms, way_ms, give_ms, last)
    return None


def _unheard(scene: Scene, now_ms: int) -> Iterator[str]:
    """What happened at the craft while nobody could hear it, the latest first."""
    for name in lately(scene, now_ms):
        dark = scene.standing(name, now_ms).state is CardState.OUT_OF_SIGHT
        if dark and scene.event(name).at_craft:
            yield name


def _gap(scene: Scene, name: str, doing: str, ends_ms: int, now_ms: int) -> Gap:
    backs_ms, _ = _returns(scene, now_ms, scene.brief(name).outcome)
    return Gap(
        named(scene, name),
        doing,
        _cause(scene, now_ms),
        backs_ms[0] if backs_ms else None,
        ends_ms,
    )


def silence(scene: Scene, now_ms: int) -> Silence | None:
    """That nothing is heard, where all lanes are out and there is one return to wait for."""
    lanes = _told_lanes(scene)
    if not lanes or any(lane.fill(now_ms) is not Fill.GAP for lane in lanes):
        return None
    backs_ms, sure = _returns(scene, now_ms, None)
    if len(lanes[0].gap_ms(now_ms)[0]) != 1 or not sure:
        return None
    event = return_event(scene, backs_ms[0])
    give_ms = scene.brief(event).give_ms if event else 0
    return Silence(event or f"lane:{lanes[0].lane}", _cause(scene, now_ms), backs_ms[0], give_ms)


def return_event(scene: Scene, second_ms: int) -> str:
    """The event that stands for a return at that second, one the plan names before any other."""
    first = bisect_left(scene.times_ms, second_ms)
    names = scene.order[first : bisect_right(scene.times_ms, second_ms)]
    returns = [name for name in names if is_return(scene.event(name))]
    return min(returns, key=lambda name: is_automatic(scene.event(name)), default="")


def _returns(scene: Scene, now_ms: int, outcome: str | None) -> tuple[list[int], bool]:
    """When the signal can be back, as shown, the soonest first; whether it is sure to be."""
    found = [lane.gap_ms(now_ms, outcome) for lane in _told_lanes(scene)]
    backs = {floor_second_ms(now_ms + length_ms) for lengths, _ in found for length_ms in lengths}
    return sorted(backs), bool(backs) and all(sure for _, sure in found)


def _told_lanes(scene: Scene) -> list[LaneSight]:
    return [lane for lane in scene.sight.lanes if lane.lane != "data"]


def _more_out_there(scene: Scene, at_ms: int) -> bool:
    """Whether more is to come at the craft, soon enough to belong to it."""
    later = scene.order[bisect_right(scene.times_ms, at_ms) :]
    soon = (name for name in later if at_ms_of(scene, name) < at_ms + _BELONGS_MS)
    return any(scene.event(name).at_craft for name in soon)


def _end(scene: Scene, name: str) -> str:
    """The event that ends it: the one tied to it by a fixed length."""
    for other, event in scene.roll.events.items():
        for tie in event.ties:
            fixed = tie.offset_ms is not None and tie.least_ms == tie.offset_ms == tie.most_ms
            if tie.event == name and fixed and (tie.offset_ms or 0) > 0 and event.at_craft:
                return other
    return ""


def _doing(scene: Scene, name: str) -> str:
    """What goes on between such an event and its end."""
    event = scene.event(name)
    burns = any("burn" in text.casefold() for text in (event.name, event.id, event.say))
    driven = any(_is_burn(value, name) for c in scene.plan.courses for _, value in c.settings)
    if burns or driven:
        return "the engine is burning now"
    return f"{named(scene, name).words} is under way now"


def _is_burn(value: object, name: str) -> bool:
    return isinstance(value, dict) and value.get("event") == name and "duration" in value


def _cause(scene: Scene, now_ms: int) -> str:
    """Why the first lane is silent now."""
    here = scene.sight.lanes[0].stretch(now_ms) if scene.sight.lanes else None
    return here.cause if here is not None else ""
