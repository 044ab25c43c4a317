"""Positions round a ring: which are evenly spread, and what a bare number of them proves.

On a ring of `count` positions, k of them are evenly spread when they stand count / k apart, all
the way round: so k divides the count. More than enough, evenly spread, is enough too.
"""

from collections.abc import Collection


def evenly_spread(positions: Collection[int], count: int, enough: int) -> tuple[int, ...]:
    """The fewest of the positions (1 to `count`) that are at least `enough` and evenly spread.

    Empty where none are. Of equal ones those that begin first.
    """
    heard = frozenset(positions)
    for many in _spreads(count, enough):
        apart = count // many
        for first in range(1, apart + 1):
            found = tuple(range(first, count + 1, apart))
            if heard.issuperset(found):
                return found
    return ()


def is_sure(heard: int, count: int, enough: int) -> bool:
    """Whether any so many positions of the ring have evenly spread ones among them.

    With as few as can be spread, k of them, the positions fall into count / k rings, each
    evenly spread. If fewer than that are missing, one of these is whole. If as many are missing,
    they may be a run of neighbours, and that breaks every spread one: none leaves longer gaps.
    """
    fewest = _spreads(count, enough)
    return bool(fewest) and count - heard < count // fewest[0]


def lacking(positions: Collection[int], count: int, enough: int) -> int | None:
    """The fewest further positions that would make evenly spread ones; None where none can be."""
    heard = frozenset(positions)
    missing = (
        sum(place not in heard for place in range(first, count + 1, count // many))
        for many in _spreads(count, enough)
        for first in range(1, count // many + 1)
    )
    return min(missing, default=None)


def _spreads(count: int, enough: int) -> tuple[int, ...]:
    """How many positions can be evenly spread and are enough, the fewest first."""
    return tuple(many for many in range(max(1, enough), count + 1) if count % many == 0)
