"""What is worth saying at a moment, the most urgent first.

By newsroom sense: that something is called off or held; what a source has named; the signal that is
back; the minute of a return; a live moment itself, from a minute before it; the silence after a
return; what is due and decides; what goes on unheard or has just happened far away; a loss within
ten minutes; the returns to watch for once what decides them is behind us; what has gone by unheard;
a silence and its end; the next live moment; how it all runs. A correction owed goes before
everything but the news of the same, and is kept apart. While what decides is due and nobody has
said how it went, nothing is said of what was to come, nor of how it runs; nor when there is no
launch. While a count is held no estimate is ours. In the last minute before a live moment the
countdown says when, and nothing else is told as next.
"""

from collections.abc import Sequence
from dataclasses import replace

from core.board.scene import Scene
from core.board.telling.ahead import is_close, is_live_now, loss_ahead, next_event
from core.board.telling.now_live import live_moment
from core.board.telling.reported import called_off, held, outcome_named
from core.board.telling.returning import (
    heard_again,
    is_decided_unseen,
    is_open,
    missed,
    two_returns,
    waiting,
    watch,
)
from core.board.telling.silences import far_away, gone_by, silence, under_way
from core.entries.model import Entry
from core.saying.model import Reach
from core.saying.sentences import Situation
from core.saying.situations import Late, LossAhead, Next, Silence
from core.times.writing import MINUTE_MS

QUIET_FROM_MS = 20 * MINUTE_MS
IN_SUSPENSE_MS = 45 * MINUTE_MS
"""So long one speaks of nothing that was to come, while what decides it is not known."""
NEWS_MS = 3 * MINUTE_MS
"""So long what has happened far away goes before all that is merely ahead."""


def situations(
    scene: Scene, entries: Sequence[Entry], now_ms: int, late: Late | None
) -> list[tuple[str, Situation]]:
    """Every situation there is, each with a word for what it is about, in order."""
    loss = loss_ahead(scene, now_ms)
    watching, missing = watch(scene, now_ms), missed(scene, now_ms)
    returns = None if watching is not None else two_returns(scene, now_ms)
    decided = returns is not None and is_decided_unseen(scene, returns, now_ms)
    going_on = under_way(scene, now_ms)
    waits, far = waiting(scene, now_ms), far_away(scene, now_ms)
    news = far is not None and now_ms - far.at_ms < NEWS_MS
    waited = waits is not None and now_ms - waits.at_ms < IN_SUSPENSE_MS
    in_silence = waited or (missing is not None and missing.then is None)
    heard = heard_again(scene, now_ms)
    came_back = () if heard is None else heard.stands_for
    gone = None if going_on is not None else gone_by(scene, now_ms)
    quiet = silence(scene, now_ms)
    told_silent = bool(returns or watching or missing or going_on or gone)
    hold, off = held(scene, entries), called_off(scene, entries, now_ms)
    no_launch = off is not None and off.launch
    close = is_close(scene, now_ms) or no_launch
    coming = None if in_silence or close else _next(scene, now_ms, loss, quiet)
    found: list[tuple[str, Situation | None]] = [
        ("scrub", off),
        ("hold", hold),
        ("outcome", outcome_named(scene, entries, now_ms)),
        ("heard", heard),
        ("watch", watching),
        ("moment", None if no_launch else live_moment(scene, now_ms, came_back)),
        ("missed", missing),
        ("waiting", None if missing is not None or watching is not None else waits),
        ("under way", going_on),
        ("far", far if news else None),
        ("loss", loss),
        ("returns", returns if decided else None),
        ("gone by", gone),
        ("far", None if news else far),
        *_next_in_silence(coming, None if told_silent else quiet),
        ("later returns", None if decided else returns),
        ("late", None if close or scene.held or is_open(scene, now_ms) else late),
    ]
    told = [(about, each) for about, each in found if each is not None]
    if told and not is_live_now(scene, now_ms):
        told[0] = (told[0][0], _quiet(told[0][1], now_ms))
    return told


def _next(scene: Scene, now_ms: int, loss: LossAhead | None, quiet: Silence | None) -> Next | None:
    """What comes next beside the loss or the return that is told already."""
    told = _told(loss) | ({quiet.event} if quiet is not None else set())
    return next_event(scene, now_ms, told)


def _next_in_silence(
    coming: Next | None, quiet: Silence | None
) -> list[tuple[str, Situation | None]]:
    """In a silence one says first where they are, unless what comes next falls into it."""
    told: list[tuple[str, Situation | None]] = [("silence", quiet), ("next", coming)]
    falls_in = coming is not None and quiet is not None and coming.at_ms < quiet.back_ms
    return told[::-1] if falls_in and coming is not None and coming.reach is Reach.OUT else told


def _quiet(situation: Situation, now_ms: int) -> Situation:
    """With nothing before it to speak of, what comes much later makes a quiet time."""
    if isinstance(situation, Next) and situation.at_ms - now_ms >= QUIET_FROM_MS:
        return replace(situation, quiet=True)
    return situation


def _told(loss: LossAhead | None) -> frozenset[str]:
    """The events a sentence on a loss speaks of already."""
    return frozenset() if loss is None else frozenset(lane.event for lane in loss.lanes)
