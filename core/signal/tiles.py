"""One lane in one world as tiles: contacts and gaps that cover all of time without overlap."""

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from itertools import islice
from operator import attrgetter
from typing import NamedTuple

from core.plan.model import Change
from core.signal.cuts import EVER_MS, NO_STATION, UNKNOWN, Cut
from core.signal.told import Fact

TOUCH_MS = 1000
"""Two stations whose contacts are no further apart hand over without a loss."""

NOT_IN_PLAN = "loss not in the plan"


class Tile(NamedTuple):
    """A contact or, unless it says so, a gap. `back` and `lost` name the edges at its ends.

    `cause` of a gap is why; of a contact, why there is none after it.
    """

    from_ms: int
    to_ms: int
    contact: bool = False
    ground: str | None = None
    course: str = ""
    back: str = ""
    lost: str = ""
    cause: str = ""


_from = attrgetter("from_ms")


def carried(pieces: Sequence[Tile]) -> list[Tile]:
    """Who carries the lane when: the present station as long as it lasts, then the longest.

    `pieces` are contacts sorted by their beginning, the longest first. Stations that overlap or
    touch give contacts that meet exactly.
    """
    spans: list[Tile] = []
    place, count = 0, len(pieces)
    while place < count:
        present = pieces[place]
        place += 1
        while True:
            best: Tile | None = None
            while place < count and pieces[place].from_ms <= present.to_ms + TOUCH_MS:
                piece = pieces[place]
                place += 1
                if piece.to_ms <= present.to_ms:
                    continue
                if piece.ground == present.ground:
                    present = present._replace(
                        to_ms=piece.to_ms, lost=piece.lost, cause=piece.cause
                    )
                elif best is None or piece.to_ms > best.to_ms:
                    best = piece
            if best is None or best.to_ms <= present.to_ms:
                break
            at_ms = max(present.to_ms, best.from_ms)
            spans.append(present._replace(to_ms=at_ms))
            present = best._replace(from_ms=at_ms)
        spans.append(present)
    return spans


def tiled(spans: Sequence[Tile], closed: Sequence[Cut]) -> list[Tile]:
    """The contacts with the gaps between them; `closed` says where a gap has a cause of its own."""
    tiles: list[Tile] = []
    at_ms, past = -EVER_MS, 0
    cause = spans[0].cause if spans else NO_STATION
    for span in spans:
        if span.from_ms > at_ms:
            while past < len(closed) and closed[past].to_ms <= at_ms:
                past += 1
            _gap(tiles, at_ms, span.from_ms, cause, islice(closed, past, None))
        tiles.append(span)
        at_ms, cause = span.to_ms, span.cause
    _gap(tiles, at_ms, EVER_MS, cause, closed)
    return tiles


def cut(tiles: list[Tile], cuts: Iterable[Cut]) -> None:
    """Take the contacts out of the tiles where something cuts them, in place."""
    for each in cuts:
        if each.from_ms < each.to_ms:
            first = place_of(tiles, each.from_ms)
            last = place_of(tiles, each.to_ms - 1)
            tiles[first : last + 1] = [
                part for tile in tiles[first : last + 1] for part in _without(tile, each)
            ]


def enforce(tiles: list[Tile], facts: Sequence[Fact], due: Mapping[str, int]) -> None:
    """Make the edges that the desk has placed stand in the tiles, in place.

    A loss ends the contact, a return begins one, each until the next edge or the next such word
    to the contrary. `facts` are sorted by time; `due` is when their edges were to come by rows.
    """
    ids = {fact.edge for fact in facts}
    for place, fact in enumerate(facts):
        until_ms = next(
            (f.time_ms for f in facts[place + 1 :] if f.change is not fact.change), EVER_MS
        )
        if fact.change is Change.LOST:
            _lose(tiles, fact, until_ms)
            _go_early(tiles, fact, due.get(fact.edge, fact.time_ms))
        else:
            _return(tiles, fact, until_ms, ids)
            _wait(tiles, fact, due.get(fact.edge, fact.time_ms))


def settled(tiles: Iterable[Tile]) -> list[Tile]:
    """The tiles with neighbouring gaps of one cause made one."""
    kept: list[Tile] = []
    for tile in tiles:
        last = kept[-1] if kept else None
        if last and not last.contact and not tile.contact and last.cause == tile.cause:
            kept[-1] = last._replace(to_ms=tile.to_ms)
        else:
            kept.append(tile)
    return kept


def place_of(tiles: Sequence[Tile], at_ms: int) -> int:
    """The index of the tile that holds at that instant and just after it."""
    return max(0, bisect_right(tiles, at_ms, key=_from) - 1)


def _gap(tiles: list[Tile], from_ms: int, to_ms: int, cause: str, closed: Iterable[Cut]) -> None:
    """A gap, or several: `closed`, sorted by their beginning, have causes of their own."""
    for each in closed:
        if each.from_ms >= to_ms:
            break
        if max(from_ms, each.from_ms) < min(to_ms, each.to_ms):
            if each.from_ms > from_ms:
                tiles.append(Tile(from_ms, each.from_ms, cause=cause))
            begin_ms = max(from_ms, each.from_ms)
            from_ms = min(to_ms, each.to_ms)
            tiles.append(Tile(begin_ms, from_ms, cause=each.cause))
    if from_ms < to_ms:
        tiles.append(Tile(from_ms, to_ms, cause=cause))


def _without(tile: Tile, each: Cut) -> list[Tile]:
    """A tile without what is cut from it."""
    if not tile.contact:
        return [tile]
    parts = []
    if tile.from_ms < each.from_ms:
        parts.append(tile._replace(to_ms=each.from_ms, lost=each.lost))
    begin_ms, end_ms = max(tile.from_ms, each.from_ms), min(tile.to_ms, each.to_ms)
    parts.append(Tile(begin_ms, end_ms, cause=each.cause))
    if tile.to_ms > each.to_ms:
        parts.append(tile._replace(from_ms=each.to_ms, back=each.back))
    return parts


def _lose(tiles: list[Tile], fact: Fact, until_ms: int) -> None:
    here = place_of(tiles, fact.time_ms)
    if not tiles[here].contact:
        return
    last = _run(tiles, here, 1)
    cause = tiles[last].cause if fact.planned else NOT_IN_PLAN
    end_ms = min(tiles[last].to_ms, until_ms)
    cut(tiles, [Cut(fact.time_ms, end_ms, cause, lost=fact.edge)])


def _return(tiles: list[Tile], fact: Fact, until_ms: int, ids: set[str]) -> None:
    here = place_of(tiles, fact.time_ms)
    tile = tiles[here]
    if not tile.contact:
        _open(tiles, here, fact, until_ms)
        return
    first = tiles[_run(tiles, here, -1)]
    if first.from_ms == fact.time_ms:
        tiles[here] = tile._replace(back=fact.edge)
    elif fact.planned and first.back not in ids:
        cause = tiles[_run(tiles, here, -1) - 1].cause
        cut(tiles, [Cut(first.from_ms, fact.time_ms, cause, back=fact.edge)])


def _wait(tiles: list[Tile], fact: Fact, due_ms: int) -> None:
    """The gap before a late return goes on for what kept the signal away until it was due."""
    here = place_of(tiles, fact.time_ms) - 1
    first = here
    while first > 0 and not tiles[first].contact and tiles[first].from_ms >= due_ms:
        first -= 1
    if first < 0 or tiles[first].contact or tiles[first].cause == UNKNOWN:
        return
    for place in range(first + 1, here + 1):
        tiles[place] = tiles[place]._replace(cause=tiles[first].cause)


def _go_early(tiles: list[Tile], fact: Fact, due_ms: int) -> None:
    """The gap after an early loss has from its beginning the cause of the loss that it was."""
    here = place_of(tiles, fact.time_ms)
    last = place_of(tiles, due_ms)
    if due_ms <= fact.time_ms or any(tile.contact for tile in tiles[here : last + 1]):
        return
    cause = tiles[last].cause
    if cause != UNKNOWN:
        for place in range(here, last):
            tiles[place] = tiles[place]._replace(cause=cause)


def _open(tiles: list[Tile], here: int, fact: Fact, until_ms: int) -> None:
    """Contact from a fact on to the end of the gap it falls into."""
    last = _run(tiles, here, 1)
    end_ms = min(tiles[last].to_ms, until_ms)
    opened = Tile(
        fact.time_ms,
        end_ms,
        contact=True,
        ground=fact.ground,
        back=fact.edge,
        cause=tiles[last].cause,
    )
    parts = []
    if tiles[here].from_ms < fact.time_ms:
        parts.append(tiles[here]._replace(to_ms=fact.time_ms))
    parts.append(opened)
    parts += [
        gap._replace(from_ms=max(gap.from_ms, end_ms))
        for gap in tiles[here : last + 1]
        if gap.to_ms > end_ms
    ]
    tiles[here : last + 1] = parts


def _run(tiles: Sequence[Tile], here: int, step: int) -> int:
    """The last tile of the same sort in that direction."""
    while 0 <= here + step < len(tiles) and tiles[here + step].contact == tiles[here].contact:
        here += step
    return here
