"""The ON AIR lane: items as boxes, live stretches, junctions, and where others have the air."""

from collections.abc import Mapping

from core.air.running import Running, Stands
from core.air.spans import EVER_MS
from core.board.onair.state import AirState
from core.board.programme import AirBox, AirLane, ItemState, LiveSpan
from core.times.writing import DAY_MS, floor_second_ms

_FAR_MS = 366 * DAY_MS
"""How far a stretch without end is drawn, as the lanes of the signal are."""

_WITHOUT_BOX = frozenset({Stands.FLOATING, Stands.DROPPED})


def air_lane(state: AirState, now_ms: int, clashes: Mapping[str, str]) -> AirLane:
    """The lane at a second; `clashes` says of an item what it loses."""
    moments = state.day.moments
    return AirLane(
        boxes=_boxes(state, now_ms, clashes),
        live=tuple(
            LiveSpan(one.id, one.back_by_ms, one.until_ms) for one in moments if not one.junction
        ),
        junctions=tuple((one.at_ms, one.name) for one in moments if one.junction),
        away=_away(state),
    )


def _boxes(state: AirState, now_ms: int, clashes: Mapping[str, str]) -> tuple[AirBox, ...]:
    shown = (one for one in state.programme.items if one.stands not in _WITHOUT_BOX)
    boxes = (_box(one, now_ms, clashes) for one in shown)
    return tuple(sorted(boxes, key=lambda box: (box.from_ms, box.item)))


def _box(one: Running, now_ms: int, clashes: Mapping[str, str]) -> AirBox:
    item = one.item
    return AirBox(
        item=item.id,
        name=item.name,
        kind=item.kind,
        from_ms=one.from_ms,
        to_ms=floor_second_ms(one.end_ms(now_ms)),
        state=ItemState(one.stands),
        clash=clashes.get(item.id, ""),
        owed=item.owed,
    )


def _away(state: AirState) -> tuple[tuple[int, int], ...]:
    """What others have: the hours before and after the programme, and what the network took."""
    on_ms, off_ms = state.day.on_ms, state.day.off_ms
    spans = [(low, low + _FAR_MS if high >= EVER_MS else high) for low, high in state.away]
    if on_ms > -EVER_MS:
        spans.append((on_ms - _FAR_MS, on_ms))
    if off_ms < EVER_MS:
        spans.append((off_ms, off_ms + _FAR_MS))
    return tuple(sorted(spans))
