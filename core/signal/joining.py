"""A lane's worlds joined into what the screens are told: each thing once, with its outcome."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TypeVar

from core.plan.model import Change
from core.signal.book import LaneBook
from core.signal.cuts import EVER_MS
from core.signal.lane import Brink, InWorld
from core.signal.model import Contact, Edge, Gap, HandOver
from core.signal.tiles import Tile

Names = Callable[[int], tuple[str | None, ...]]
"""What to call a set of worlds, given as bits."""

_Key = TypeVar("_Key")


def ends(ms: int) -> int | None:
    """An instant, or None where time has no end."""
    return None if abs(ms) >= EVER_MS else ms


def contacts(lane: str, worlds: Sequence[InWorld], names: Names) -> tuple[Contact, ...]:
    """All contacts, in order of time."""
    kept = _joined(worlds, lambda world: (t for t in world.tiles if t.contact), _span, names)
    return tuple(
        Contact(lane, tile.ground, ends(tile.from_ms), ends(tile.to_ms), tile.course, outcome)
        for tile, outcome in kept
    )


def gaps(lane: str, worlds: Sequence[InWorld], names: Names) -> tuple[Gap, ...]:
    """All gaps, in order of time; a gap under two causes is two that meet."""
    kept = _joined(worlds, lambda world: (t for t in world.tiles if not t.contact), _span, names)
    return tuple(
        Gap(lane, ends(tile.from_ms), ends(tile.to_ms), tile.cause, outcome)
        for tile, outcome in kept
    )


def edges(
    lane: LaneBook,
    worlds: Sequence[InWorld],
    names: Names,
    told: Callable[[Brink], tuple[int, int | None, bool]],
) -> tuple[Edge, ...]:
    """All edges, in order of time; `told` gives the last three fields of each."""
    kept = _joined(worlds, _edges_of, lambda edge: (edge[0].time_ms,), names)
    return tuple(
        Edge(
            brink.id,
            brink.time_ms,
            lane.lane,
            change,
            brink.ground,
            brink.cause,
            lane.courses.get(brink.id, ""),
            outcome,
            *told(brink),
        )
        for (brink, change), outcome in kept
    )


def hand_overs(lane: str, worlds: Sequence[InWorld], names: Names) -> tuple[HandOver, ...]:
    """All hand-overs between two named stations, in order of time."""
    kept = _joined(worlds, _hand_overs_of, lambda key: (key[0],), names)
    return tuple(HandOver(lane, *key, outcome) for key, outcome in kept)


def _joined(
    worlds: Sequence[InWorld],
    keys_of: Callable[[InWorld], Iterable[_Key]],
    order: Callable[[_Key], tuple[int, ...]],
    names: Names,
) -> list[tuple[_Key, str | None]]:
    """Everything in any world, in order, once for each outcome it is to be called by."""
    if len(worlds) == 1:
        return [(key, None) for key in keys_of(worlds[0])]
    found: dict[_Key, int] = {}
    for place, world in enumerate(worlds):
        bit = 1 << place
        for key in keys_of(world):
            found[key] = found.get(key, 0) | bit
    return [(key, outcome) for key in sorted(found, key=order) for outcome in names(found[key])]


def _span(tile: Tile) -> tuple[int, int]:
    return tile.from_ms, tile.to_ms


def _edges_of(world: InWorld) -> list[tuple[Brink, Change]]:
    return sorted(
        ((brink, change) for change, brinks in world.edges.items() for brink in brinks),
        key=lambda edge: edge[0].time_ms,
    )


def _hand_overs_of(world: InWorld) -> Iterator[tuple[int, str, str]]:
    for before, after in pairwise(world.tiles):
        if not (before.contact and after.contact and before.ground and after.ground):
            continue
        if before.ground != after.ground:
            yield after.from_ms, before.ground, after.ground
