"""Events by when they are: those lately, those about now, and their shown times."""

from bisect import bisect_right
from collections.abc import Iterator

from core.board.scene import Scene
from core.times.writing import floor_second_ms

_LOOKED_BACK_AT = 30


def at_ms_of(scene: Scene, name: str) -> int:
    """When the event is expected, as it is shown; only of one that has a time."""
    return floor_second_ms(scene.brief(name).expected_ms or 0)


def lately(scene: Scene, now_ms: int) -> Iterator[str]:
    """The last events whose time has come, the latest first."""
    begun = bisect_right(scene.times_ms, now_ms)
    return reversed(scene.order[max(0, begun - _LOOKED_BACK_AT) : begun])
