"""Clear time: how long until the presenter must be back, at a moment."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from core.air.losing import must_end_ms
from core.air.model import Day, Moment
from core.air.running import Running
from core.air.spans import EVER_MS


class Phase(StrEnum):
    """What the presenter is in the middle of."""

    CLEAR = "clear"
    LIVE = "live"
    """Within a live moment's stretch."""
    ITEM = "item"
    """An item is on the air."""
    AWAY = "away"
    """The network has the air."""
    BEFORE = "before"
    AFTER = "after"
    """The programme is over."""


@dataclass(frozen=True, slots=True)
class Clear:
    """Where the presenter stands.

    `until_ms` is when the phase ends: clear, that is back by, or the hard off-air time where no
    live moment comes before it; on an item, when the presenter is back after it; away, when
    the network gives back the air (None: nobody has said); live, when the stretch ends (None: it
    waits for word). `moment` is the live moment or junction that is, or comes next, `back_by_ms`
    its. `back_in_time` says of an item on the air, whose id is `on_air`, that the presenter is
    back by then; `over_ms` by how much it has outrun its length. `wrap_ms` is when it wraps: by
    its length, or sooner where it must end sooner and can be cut.
    """

    phase: Phase
    until_ms: int | None
    moment: Moment | None = None
    back_by_ms: int | None = None
    on_air: str = ""
    over_ms: int = 0
    back_in_time: bool = True
    wrap_ms: int | None = None


def clear_time(day: Day, on_air: Running | None, now_ms: int, waiting: Sequence[str] = ()) -> Clear:
    """Where the presenter stands at `now_ms`.

    `waiting` are live moments whose time has come and of which nobody has said that they happened:
    they last.
    """
    away = next((to_ms for from_ms, to_ms in day.away if from_ms <= now_ms < to_ms), None)
    ours = [one for one in day.moments if one.until_ms > day.on_ms]
    here = [one for one in ours if one.id in waiting or one.back_by_ms <= now_ms < one.until_ms]
    ahead = [one for one in ours if one.back_by_ms > now_ms and not _theirs(one, away)]
    following = min(ahead, key=lambda one: one.back_by_ms, default=None)
    moment = min(here, key=lambda one: one.back_by_ms, default=following)
    back_by_ms = None if moment is None else moment.back_by_ms
    if on_air is not None:
        return _on_item(on_air, moment, day, now_ms)
    if away is not None:
        return Clear(Phase.AWAY, None if away == EVER_MS else away, moment, back_by_ms)
    if here:
        until_ms = max(one.until_ms for one in here)
        lasts = any(one.id in waiting for one in here)
        return Clear(Phase.LIVE, None if lasts else until_ms, moment, back_by_ms)
    if now_ms < day.on_ms:
        return Clear(Phase.BEFORE, day.on_ms, moment, back_by_ms)
    if now_ms >= day.off_ms:
        return Clear(Phase.AFTER, None, moment, back_by_ms)
    ends = [at_ms for at_ms in (back_by_ms, day.off_ms) if at_ms is not None and at_ms < EVER_MS]
    return Clear(Phase.CLEAR, min(ends, default=None), moment, back_by_ms)


def _theirs(moment: Moment, away_ms: int | None) -> bool:
    """Whether it is a junction that passes while the network has the air until then."""
    return moment.junction and away_ms is not None and moment.at_ms <= away_ms < EVER_MS


def _on_item(on_air: Running, moment: Moment | None, day: Day, now_ms: int) -> Clear:
    turnaround_ms = on_air.item.turnaround_ms
    back_by_ms = None if moment is None else moment.back_by_ms
    in_time = back_by_ms is None or on_air.end_ms(now_ms) + turnaround_ms <= back_by_ms
    over_ms = max(0, on_air.over_ms(now_ms))
    end_ms = must_end_ms(on_air, day, now_ms)
    wrap_ms = on_air.due_ms if end_ms is None else min(on_air.due_ms, end_ms)
    wrap_ms = max(wrap_ms, on_air.from_ms)
    back_ms, name = wrap_ms + turnaround_ms, on_air.item.id
    return Clear(Phase.ITEM, back_ms, moment, back_by_ms, name, over_ms, in_time, wrap_ms)
