"""The live moment itself as a situation to speak of: a minute before it, at it, and after it."""

from bisect import bisect_right
from collections.abc import Collection

from core.board.model import CardState
from core.board.scene import Scene
from core.board.standing import is_return
from core.board.telling.ahead import open_fact, reach
from core.board.telling.namings import named
from core.board.telling.whens import at_ms_of
from core.saying.situations import Moment
from core.times.writing import HOUR_MS, MINUTE_MS, SECOND_MS

_CAME_FOR_MS = 3 * MINUTE_MS
_TELLS = {CardState.AHEAD, CardState.DUE, CardState.HAPPENED}


def live_moment(scene: Scene, now_ms: int, told: Collection[str] = ()) -> Moment | None:
    """The live moment of the next minute, else the last one that has come, in its time.

    Not what is `told` already, nor what a sentence of its own tells: one of two returns, what goes
    on unheard, what is far away. That what decides has come, only a source says.
    """
    begun = bisect_right(scene.times_ms, now_ms)
    first = bisect_right(scene.times_ms, now_ms - HOUR_MS)
    soon = scene.order[begun : bisect_right(scene.times_ms, now_ms + MINUTE_MS)]
    for name in (*soon, *reversed(scene.order[first:begun])):
        if scene.event(name).live and name not in told and not _is_told_otherwise(scene, name):
            moment = _moment(scene, name, now_ms)
            if moment is not None and now_ms <= moment.until_ms:
                return moment
    return None


def _is_told_otherwise(scene: Scene, name: str) -> bool:
    one_of_two = name in scene.pairs and is_return(scene.event(name))
    return (
        one_of_two or bool(scene.open_outcome(name)) or scene.slides(name) or scene.way_ms(name) > 0
    )


def _moment(scene: Scene, name: str, now_ms: int) -> Moment | None:
    state = scene.standing(name, now_ms).state
    came, at_ms = state is CardState.HAPPENED, at_ms_of(scene, name)
    if state not in _TELLS or (came and name in set(scene.pairs.values())):
        return None
    give_ms = 0 if came else scene.brief(name).give_ms
    stay_ms = max(scene.event(name).stay_ms, give_ms, _CAME_FOR_MS if came else MINUTE_MS)
    return Moment(
        named(scene, name),
        at_ms,
        at_ms + stay_ms - SECOND_MS,
        give_ms,
        reach(scene, name),
        came,
        open_fact(scene, name, now_ms),
    )
