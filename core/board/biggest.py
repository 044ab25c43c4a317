"""Which card is the big one: the next live moment, or the return that everybody waits for."""

from core.board.marks import is_so_already
from core.board.model import CardState
from core.board.scene import Arranged, Scene
from core.board.standing import is_return
from core.times.writing import floor_second_ms

_TO_COME = (CardState.AHEAD, CardState.HELD)


def biggest(scene: Scene, arranged: Arranged, now_ms: int) -> int | None:
    """The index of the big card: the next live moment, else the next event still ahead.

    While an outcome is open, its last return stays the big card until it is heard, or one has to
    be back for a live moment that does not hang on it; an earlier return as long as one stays on
    the air for it. What hangs on that outcome never takes their place. While the programme is on,
    what lies after its end is no big card either.
    """
    waited = _waited_for(scene, arranged, now_ms)
    if waited is None:
        return _next(scene, arranged, now_ms, "")
    name = arranged.ids[waited]
    of = scene.pairs[name]
    following = _next(scene, arranged, now_ms, of)
    if _is_left(scene, name, now_ms) and _comes_again(scene, of, now_ms):
        return following
    if following is not None and _calls(scene, arranged.ids[following], of, now_ms):
        return following
    return waited


def off_air_ms(scene: Scene, now_ms: int) -> int | None:
    """When the programme that is on the air ends; None where none is on, or it has no end."""
    air = scene.plan.air
    if air is None or air.off_ms is None or now_ms >= floor_second_ms(air.off_ms):
        return None
    return air.off_ms if air.on_ms is None or air.on_ms <= now_ms else None


def _next(scene: Scene, arranged: Arranged, now_ms: int, open_of: str) -> int | None:
    """The next live moment, else the next event; no return where they are back.

    What hangs on the outcome of `open_of` is passed over, but for its returns.
    """
    ahead = None
    off_ms = off_air_ms(scene, now_ms)
    for index in range(arranged.next_index, len(arranged.ids)):
        name = arranged.ids[index]
        live = scene.event(name).live and not is_so_already(scene, name, now_ms)
        if ahead is not None and not live:
            continue
        if scene.standing(name, now_ms).state not in _TO_COME:
            continue
        if off_ms is not None and not _is_before(scene, name, off_ms):
            break
        if open_of and scene.open_outcome(name) == open_of and name not in scene.pairs:
            continue
        if live:
            return index
        ahead = index
    return ahead


def _is_before(scene: Scene, name: str, end_ms: int) -> bool:
    at_ms = scene.brief(name).expected_ms
    return at_ms is None or at_ms < end_ms


def _waited_for(scene: Scene, arranged: Arranged, now_ms: int) -> int | None:
    """The last live return of an open outcome whose time has come, if nobody has heard them."""
    found = None
    for index in range(arranged.next_index, len(arranged.ids)):
        name = arranged.ids[index]
        state = scene.standing(name, now_ms).state
        if state is CardState.AHEAD:
            break
        if name in scene.pairs and state is CardState.DUE and _is_live_return(scene, name):
            found = index
    return None if found is None or scene.sight.is_back(now_ms) else found


def _is_live_return(scene: Scene, name: str) -> bool:
    event = scene.event(name)
    return event.live and is_return(event)


def _is_left(scene: Scene, name: str, now_ms: int) -> bool:
    """Whether one need not stay on the air for it any longer, were it as late as it may be."""
    line = scene.brief(name)
    stay_ms = scene.event(name).stay_ms + line.give_ms
    return line.expected_ms is None or now_ms >= floor_second_ms(line.expected_ms) + stay_ms


def _comes_again(scene: Scene, of: str, now_ms: int) -> bool:
    """Whether another return of that outcome is still ahead."""
    others = (name for name, each in scene.pairs.items() if each == of)
    return any(
        _is_live_return(scene, name) and scene.standing(name, now_ms).state is CardState.AHEAD
        for name in others
    )


def _calls(scene: Scene, name: str, of: str, now_ms: int) -> bool:
    """Whether it is a live moment of its own, and one has to be back for it."""
    event, at_ms = scene.event(name), scene.brief(name).expected_ms
    if not event.live or at_ms is None or scene.pairs.get(name) == of:
        return False
    return now_ms >= floor_second_ms(at_ms) - event.guard_ms
