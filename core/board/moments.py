"""What is worth saying at a moment, the most urgent first.

By newsroom sense: that something is called off or held; what a source has named; the signal that is
back; the minute of a return, and the silence after one; what goes on unheard; a loss within ten
minutes; the returns to watch for once what decides them is behind us; what is over far away; the
next live moment; how it all runs. A correction owed goes before everything, and is kept apart.
"""

from collections.abc import Iterator, Sequence

from core.board.ahead import loss_ahead, next_event
from core.board.reported import called_off, held, outcome_named
from core.board.scene import Scene
from core.board.silences import (
    far_away,
    gap,
    heard_again,
    is_decided_unseen,
    missed,
    two_returns,
    watch,
)
from core.entries.model import Entry
from core.saying.sentences import Situation
from core.saying.situations import Late, LossAhead


def situations(
    scene: Scene, entries: Sequence[Entry], now_ms: int, late: Late | None
) -> Iterator[tuple[str, Situation]]:
    """Every situation there is, each with a word for what it is about, in order."""
    loss = loss_ahead(scene, now_ms)
    returns = two_returns(scene, now_ms)
    decided = returns is not None and is_decided_unseen(scene, returns, now_ms)
    found: tuple[tuple[str, Situation | None], ...] = (
        ("scrub", called_off(scene, entries, now_ms)),
        ("hold", held(scene, entries)),
        ("outcome", outcome_named(scene, entries, now_ms)),
        ("heard", heard_again(scene, now_ms)),
        ("watch", watch(scene, now_ms)),
        ("missed", missed(scene, now_ms)),
        ("gap", gap(scene, now_ms)),
        ("loss", loss),
        ("returns", returns if decided else None),
        ("far", far_away(scene, now_ms)),
        ("next", next_event(scene, now_ms, _told(loss))),
        ("later returns", None if decided else returns),
        ("late", late),
    )
    return ((about, each) for about, each in found if each is not None)


def _told(loss: LossAhead | None) -> frozenset[str]:
    """The events a sentence on a loss speaks of already."""
    return frozenset() if loss is None else frozenset(lane.event for lane in loss.lanes)
