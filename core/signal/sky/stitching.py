"""One path after another, seen as one: contacts that only a seam cuts are whole again."""

from collections.abc import Iterable
from dataclasses import replace

from core.signal.seen import Hidden, Seen, Sighting

SEAM_MS = 1000
"""Ends without a cause that lie no further apart are two sides of one seam."""


def stitched(parts: Iterable[Seen]) -> Seen:
    """What was seen along paths that follow one another, in that order."""
    sightings: list[Sighting] = []
    hidden: list[Hidden] = []
    last: dict[str, int] = {}
    for part in parts:
        hidden += part.hidden
        for each in part.sightings:
            at = last.get(each.ground)
            if at is not None and _meet(sightings[at], each):
                sightings[at] = replace(
                    sightings[at],
                    to_ms=each.to_ms,
                    to_cause=each.to_cause,
                    to_give_ms=each.to_give_ms,
                )
            else:
                last[each.ground] = len(sightings)
                sightings.append(each)
    sightings.sort(key=lambda each: each.from_ms)
    hidden.sort(key=lambda each: each.from_ms)
    return Seen(tuple(sightings), tuple(hidden))


def before(seen: Seen, at_ms: int) -> Seen:
    """What was seen before an instant; what goes on there is cut, without a cause."""
    return Seen(
        tuple(
            each if each.to_ms <= at_ms else replace(each, to_ms=at_ms, to_cause="", to_give_ms=0)
            for each in seen.sightings
            if each.from_ms < at_ms
        ),
        tuple(
            replace(each, to_ms=min(each.to_ms, at_ms))
            for each in seen.hidden
            if each.from_ms < at_ms
        ),
    )


def _meet(one: Sighting, two: Sighting) -> bool:
    return not one.to_cause and not two.from_cause and two.from_ms - one.to_ms <= SEAM_MS
