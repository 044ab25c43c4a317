"""How what is to come runs against the plan, as a situation to speak of."""

from bisect import bisect_right
from collections.abc import Sequence

from core.board.changes import against_plan
from core.board.model import CardState
from core.board.scene import Scene
from core.board.telling.ahead import coming_names
from core.board.telling.whens import at_ms_of, lately
from core.entries.model import Entry, Note, Pin, Revise
from core.saying.against import ON_TIME_MS, is_on_time
from core.saying.situations import Late

_TIMED = (Revise, Pin)


def late(scene: Scene, entries: Sequence[Entry], now_ms: int) -> Late | None:
    """How all that is to come runs against the plan; None where there is no one answer."""
    begun = bisect_right(scene.times_ms, now_ms)
    first = next(coming_names(scene, now_ms), None)
    against = against_plan(scene, scene.order[begun:])
    if first is None or not against.words.text:
        return None
    give_ms = scene.brief(first).give_ms
    timed = [n for n, entry in enumerate(entries) if isinstance(entry.action, _TIMED)]
    source = entries[timed[-1]].source if timed else ""
    noted = any(isinstance(entry.action, Note) for entry in entries[timed[-1] if timed else 0 :])
    return Late(
        first,
        against.common_ms,
        give_ms,
        unexplained=bool(source) and not noted and not is_on_time(against.common_ms, give_ms),
        source=source,
        overdue_ms=_overdue_ms(scene, first),
    )


def is_overdue(scene: Scene, now_ms: int) -> bool:
    """Whether the time of something has gone by, its give too, and nobody has confirmed it."""
    due = (n for n in lately(scene, now_ms) if scene.standing(n, now_ms).state is CardState.DUE)
    return any(now_ms >= _overdue_ms(scene, name) for name in due)


def _overdue_ms(scene: Scene, name: str) -> int:
    late_ms = max(ON_TIME_MS, scene.brief(name).give_ms)
    return at_ms_of(scene, name) + scene.way_ms(name) + late_ms
