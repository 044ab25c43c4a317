"""What may be shown on a grave board: the last confirmed words, and lines the editor passed."""

from collections.abc import Iterable

from core.board.meaning import meaning
from core.board.scene import Scene
from core.board.words import Names
from core.entries.model import Choose, Entry, Happened, Observe, Scrub
from core.plan.model import Change
from core.times.writing import Style, floor_second_ms

_CONFIRMED = (Happened, Choose, Observe, Scrub)


def confirmed_words(entries: Iterable[Entry], names: Names, style: Style) -> str:
    """The last thing a source has confirmed, in words with that source; empty where none has.

    `entries` are those that stand, in their order.
    """
    last = None
    for entry in entries:
        if entry.source and isinstance(entry.action, _CONFIRMED):
            last = entry
    return "" if last is None else f"{meaning(last.action, names, style)}, per {last.source}"


def passed_lines(scene: Scene, now_ms: int) -> tuple[str, ...]:
    """The words the editor passed for so long after the last possible return; of one time all."""
    since_ms = last_return_ms(scene, now_ms)
    if since_ms is None:
        return ()
    due = [line for line in scene.plan.grave if floor_second_ms(since_ms) + line.after_ms <= now_ms]
    latest_ms = max((line.after_ms for line in due), default=0)
    return tuple(line.text for line in due if line.after_ms == latest_ms)


def last_return_ms(scene: Scene, now_ms: int) -> int | None:
    """When the signal could have come back at the latest, whatever the outcome.

    It is counted from the loss the desk has seen or heard, else from the last there was. None
    before any loss, and where nobody can say when it comes back.
    """
    if not scene.sight.lanes:
        return None
    lane = scene.sight.lanes[0]
    lost = [e for e in lane.signal.edges if e.change is Change.LOST and e.time_ms <= now_ms]
    if not lost:
        return None
    loss = next((edge for edge in reversed(lost) if edge.observed), lost[-1])
    lengths_ms, _ = lane.gap_ms(loss.time_ms)
    return loss.time_ms + lengths_ms[-1] if lengths_ms else None
