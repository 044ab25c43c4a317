"""Stretches of time as sorted, disjoint pairs of instants; both ends belong to them."""

from bisect import bisect_right
from collections.abc import Iterable

EVER_MS = 2**62
NEVER_MS = EVER_MS // 2
"""What is reckoned back from the end of time by some lengths lies beyond it."""
"""Further off than any instant."""

Spans = tuple[tuple[int, int], ...]

ALWAYS: Spans = ((-EVER_MS, EVER_MS),)


def without(spans: Spans, from_ms: int, to_ms: int) -> Spans:
    """The stretches without what lies strictly between two instants."""
    if from_ms >= to_ms:
        return spans
    left: list[tuple[int, int]] = []
    for low, high in spans:
        if high <= from_ms or low >= to_ms:
            left.append((low, high))
            continue
        if low <= from_ms:
            left.append((low, from_ms))
        if to_ms <= high:
            left.append((to_ms, high))
    return tuple(left)


def within(spans: Spans, others: Iterable[tuple[int, int]]) -> Spans:
    """The stretches that both have; the others need no order."""
    both = [
        (max(low, first), min(high, last))
        for low, high in spans
        for first, last in others
        if max(low, first) <= min(high, last)
    ]
    return merged(both)


def merged(spans: Iterable[tuple[int, int]]) -> Spans:
    """The stretches in order, those that touch or overlap made one."""
    kept: list[tuple[int, int]] = []
    for low, high in sorted(spans):
        if kept and low <= kept[-1][1]:
            kept[-1] = (kept[-1][0], max(high, kept[-1][1]))
        else:
            kept.append((low, high))
    return tuple(kept)


def starts_inside(spans: Iterable[tuple[int, int]], length_ms: int) -> Spans:
    """The starts at which something of that length lies wholly in one of the stretches."""
    return tuple((low, high - length_ms) for low, high in spans if high - length_ms >= low)


def holding(spans: Spans, at_ms: int) -> tuple[int, int] | None:
    """The stretch that holds the instant."""
    place = bisect_right(spans, (at_ms, EVER_MS)) - 1
    return spans[place] if place >= 0 and at_ms <= spans[place][1] else None


def first_from(spans: Spans, at_ms: int) -> int | None:
    """The first instant of the stretches from that one on."""
    for low, high in spans:
        if high >= at_ms:
            return max(low, at_ms)
    return None


def last_until(spans: Spans, at_ms: int) -> int | None:
    """The last instant of the stretches up to that one."""
    place = bisect_right(spans, (at_ms, EVER_MS)) - 1
    return min(at_ms, spans[place][1]) if place >= 0 else None
