"""Lines the editor passed for a grave board: only while nobody has heard from the craft again."""

from bisect import bisect_right
from collections.abc import Iterator

from core.board.model import CardState
from core.board.scene import Scene
from core.board.sight import EVER_MS
from core.board.standing import is_automatic, is_return
from core.board.telling.whens import at_ms_of
from core.plan.model import Change
from core.schedule.model import State
from core.signal.model import Edge
from core.times.writing import floor_second_ms


def passed_lines(scene: Scene, now_ms: int) -> tuple[str, ...]:
    """The words the editor passed for so long after the last possible return; of one time all."""
    since_ms = last_return_ms(scene, now_ms)
    if since_ms is None:
        return ()
    due = [line for line in scene.plan.grave if floor_second_ms(since_ms) + line.after_ms <= now_ms]
    latest_ms = max((line.after_ms for line in due), default=0)
    return tuple(line.text for line in due if line.after_ms == latest_ms)


def last_return_ms(scene: Scene, now_ms: int) -> int | None:
    """When a return that nobody has confirmed could have come at the latest, whatever the outcome.

    It is counted from the loss before it, as seen or heard if it was. None where the first lane is
    in contact by all that is known: no return of the plan waits for word, or something was heard.
    """
    if not scene.sight.lanes:
        return None
    back_ms = _last_heard_ms(scene, now_ms)
    returns = [name for name in _unconfirmed(scene, now_ms) if at_ms_of(scene, name) > back_ms]
    lost = _losses(scene, back_ms, at_ms_of(scene, returns[0])) if returns else []
    if not lost:
        return None
    loss = next((edge for edge in reversed(lost) if edge.observed), lost[-1])
    if _is_word_since(scene, loss.time_ms, returns):
        return None
    lengths_ms, _ = scene.sight.lanes[0].gap_ms(loss.time_ms)
    return loss.time_ms + lengths_ms[-1] if lengths_ms else None


def _unconfirmed(scene: Scene, now_ms: int) -> Iterator[str]:
    """The plan's own returns of the first lane that are due, in order: nobody has had word."""
    first = scene.sight.lanes[0].lane
    for name in scene.order[: bisect_right(scene.times_ms, now_ms)]:
        event = scene.event(name)
        if event.edge is None or event.edge.lane != first or is_automatic(event):
            continue
        if is_return(event) and scene.standing(name, now_ms).state is CardState.DUE:
            yield name


def _last_heard_ms(scene: Scene, now_ms: int) -> int:
    """When a lane was last seen or heard to come back, whichever it was."""
    edges = (edge for lane in scene.sight.lanes for edge in lane.signal.edges)
    seen = (e.time_ms for e in edges if e.observed and e.change is Change.BACK)
    return max((at_ms for at_ms in seen if at_ms <= now_ms), default=-EVER_MS)


def _losses(scene: Scene, after_ms: int, before_ms: int) -> list[Edge]:
    edges = scene.sight.lanes[0].signal.edges
    lost = (edge for edge in edges if edge.change is Change.LOST)
    return [edge for edge in lost if after_ms < edge.time_ms <= before_ms]


def _is_word_since(scene: Scene, lost_ms: int, returns: list[str]) -> bool:
    """Whether something is told to have happened since that takes a signal to know of.

    What happens at the craft does, a return, and what comes so long after one.
    """
    later = scene.order[bisect_right(scene.times_ms, lost_ms) :]
    for name in later:
        event = scene.event(name)
        if scene.brief(name).state is State.HAPPENED and (
            event.at_craft or is_return(event) or any(tie.event in returns for tie in event.ties)
        ):
            return True
    return False
