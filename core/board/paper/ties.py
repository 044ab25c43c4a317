"""What an event's time hangs on, in words: ties, edges of the signal, windows, pins, limits."""

from collections.abc import Iterator, Sequence

from core.board.paper.clocks import Clocks
from core.board.words import Names
from core.plan.model import Change, EdgeRef, Event, Limit, Tie
from core.times.writing import short_duration_words

_ORDINALS = ("", "first", "second", "third", "fourth", "fifth", "sixth")
_ENDINGS = {1: "st", 2: "nd", 3: "rd"}
_EDGES = {Change.BACK: "return", Change.LOST: "loss"}


def hangs_on(
    event: Event, limits: Sequence[Limit], names: Names, lanes: Names, clocks: Clocks
) -> Iterator[str]:
    """Each thing its time hangs on; nothing for a plain clock time or an edge nobody named."""
    if event.ties:
        ties = [tie_words(tie, names) for tie in event.ties]
        yield ties[0] if len(ties) == 1 else f"the later of: {'; '.join(ties)}"
        if event.at_ms is not None:
            yield f"not before {clocks.short(event.at_ms)}"
    if event.edge is not None and not event.edge.row:
        yield edge_words(event.edge, names, lanes)
    if event.pinned:
        yield "pinned"
    if event.window is not None:
        yield from _window(event.window.not_before_ms, event.window.not_after_ms, clocks)
    for limit in limits:
        if limit.after == event.id:
            yield from _limit(limit, names)


def tie_words(tie: Tie, names: Names) -> str:
    """'6 min 14 s after Ignition, fixed'; bounds that the format gives by itself are not told."""
    of = names(tie.event)
    offset_ms = tie.offset_ms
    if offset_ms is not None and offset_ms == tie.least_ms == tie.most_ms:
        return f"{_apart(offset_ms, of)}, fixed"
    bounds = list(_bounds(tie))
    if offset_ms is None:
        return ", ".join([f"after {of}", *bounds])
    return ", ".join([_apart(offset_ms, of), *bounds])


def edge_words(edge: EdgeRef, names: Names, lanes: Names) -> str:
    """'first return of voice after Ignition', 'last loss of picture before Closest'."""
    what = f"{_EDGES[edge.change]} of {lanes(edge.lane).lower()}"
    nth = _ordinal(edge.nth)
    if edge.before is not None:
        nth = "last" if edge.nth == 1 else f"{nth} to last"
        return f"{nth} {what} {_beside('before', 'earlier', edge.before, edge.offset_ms, names)}"
    if edge.after is not None:
        return f"{nth} {what} {_beside('after', 'later', edge.after, edge.offset_ms, names)}"
    return f"{nth} {what}"


def _beside(word: str, than: str, event: str, offset_ms: int, names: Names) -> str:
    """'after Ignition', or 'later than 30 min after Ignition'."""
    of = names(event)
    return f"{than} than {_apart(offset_ms, of)}" if offset_ms else f"{word} {of}"


def _ordinal(nth: int) -> str:
    if nth < len(_ORDINALS):
        return _ORDINALS[nth]
    teen = 10 < nth % 100 < 20
    return f"{nth}{'th' if teen else _ENDINGS.get(nth % 10, 'th')}"


def _apart(offset_ms: int, of: str) -> str:
    if not offset_ms:
        return f"with {of}"
    return f"{short_duration_words(offset_ms)} {'after' if offset_ms > 0 else 'before'} {of}"


def _bounds(tie: Tie) -> Iterator[str]:
    """How far the gap may shrink or grow, where that is not what the format takes for granted."""
    ahead = tie.offset_ms is None or tie.offset_ms >= 0
    least_ms, most_ms = tie.least_ms, tie.most_ms
    if ahead and least_ms is None:
        yield "or as early as may be"
    elif least_ms is not None and (least_ms or not ahead):
        words = short_duration_words(least_ms)
        yield f"at least {words}" if least_ms > 0 else f"no more than {words} before it"
    if most_ms is not None and (most_ms or ahead):
        words = short_duration_words(most_ms)
        after = "" if ahead else " after it"
        yield f"at most {words}{after}" if most_ms >= 0 else f"at least {words} before it"


def _window(from_ms: int | None, to_ms: int | None, clocks: Clocks) -> Iterator[str]:
    if from_ms is not None and to_ms is not None:
        yield f"window {clocks.span(from_ms, to_ms)}"
    elif from_ms is not None:
        yield f"not before {clocks.short(from_ms)}"
    elif to_ms is not None:
        yield f"not after {clocks.short(to_ms)}"


def _limit(limit: Limit, names: Names) -> Iterator[str]:
    of = names(limit.before)
    if limit.least_ms is not None:
        yield f"at least {short_duration_words(limit.least_ms)} after {of}"
    if limit.most_ms is not None:
        yield f"at most {short_duration_words(limit.most_ms)} after {of}"
