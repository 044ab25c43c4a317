"""How often and how long a lane is out of contact."""

from collections.abc import Iterable

from core.signal.cuts import EVER_MS, UNKNOWN
from core.signal.model import Gap, LaneSignal, Total
from core.signal.worlds import World


def total(lane: LaneSignal, outcome: str | None, world: World, from_ms: int, to_ms: int) -> Total:
    """The gaps of a lane within a stretch of time, in one world; gaps that meet are one."""
    lengths = [
        end_ms - begin_ms for begin_ms, end_ms in _absences(lane.gaps, world, from_ms, to_ms)
    ]
    unknown_ms = sum(
        min(to_ms, EVER_MS if gap.to_ms is None else gap.to_ms)
        - max(from_ms, -EVER_MS if gap.from_ms is None else gap.from_ms)
        for gap in lane.gaps
        if gap.cause == UNKNOWN and (gap.outcome is None or gap.outcome in world)
        if (gap.to_ms is None or gap.to_ms > from_ms)
        and (gap.from_ms is None or gap.from_ms < to_ms)
    )
    return Total(
        lane.lane, outcome, len(lengths), max(lengths, default=0), sum(lengths), unknown_ms
    )


def _absences(gaps: Iterable[Gap], world: World, from_ms: int, to_ms: int) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for gap in gaps:
        if gap.cause == UNKNOWN or (gap.outcome is not None and gap.outcome not in world):
            continue
        begin_ms = max(from_ms, -EVER_MS if gap.from_ms is None else gap.from_ms)
        end_ms = min(to_ms, EVER_MS if gap.to_ms is None else gap.to_ms)
        if begin_ms >= end_ms:
            continue
        if found and begin_ms <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end_ms))
        else:
            found.append((begin_ms, end_ms))
    return found
