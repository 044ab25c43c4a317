"""The programme as a scripted desk keeps it: what is to be typed about items at a moment."""

from dataclasses import dataclass

from core.air.model import Against, Way
from core.board.onair.now import AirNow
from core.board.programme import AirBox, ItemState
from core.rehearsal.desk import OpenDesk

_MOVES_ON = frozenset({Against.PAST})
_REPLACE_MS = 30_000
"""Places are not looked for more often than this, unless something was heard."""
_PATIENCE_MS = 180_000
"""So long nothing is begun when a live moment's time has come and nobody has heard of it yet."""
_LATE_MS = 15_000
"""An item placed so long ago begins all the same, if it still fits; else it is placed anew."""


@dataclass(slots=True)
class Keeper:
    """What has been asked of the programme, so that it is not asked every second again."""

    acts_ms: int = 0
    placed_ms: int | None = None

    def lines(self, desk: OpenDesk, air: AirNow, now_ms: int, *, news: bool) -> tuple[str, ...]:
        """The lines to be typed now; `news` says that something was heard."""
        on = next((box for box in air.lane.boxes if box.state is ItemState.ON_AIR), None)
        if on is not None:
            over = self._is_over(air, on, now_ms, _due_ms(desk, on))
            return (f"{on.item} over",) if over else ()
        begins = self._begins(desk, air, now_ms)
        if begins:
            return (begins,)
        asks = news or self.placed_ms is None or now_ms - self.placed_ms >= _REPLACE_MS
        if asks and (air.broken or self._homeless(desk, air)):
            self.placed_ms = now_ms
            if desk.proposed(now_ms).places:
                return ("place",)
        return ()

    def wakes_ms(self, desk: OpenDesk, air: AirNow, now_ms: int) -> list[int]:
        """When something is to be done next, as things stand."""
        acts = self.acts_ms
        on = (box for box in air.lane.boxes if box.state is ItemState.ON_AIR)
        found = [_due_ms(desk, box) + acts for box in on]
        found += [box.from_ms + acts for box in air.lane.boxes if box.state is ItemState.PLACED]
        ways = [at for lost in air.broken for _, at in lost.loss.ways if at is not None]
        found += [at_ms + acts for at_ms in ways]
        if self.placed_ms is not None:
            found.append(self.placed_ms + _REPLACE_MS)
        return [at_ms for at_ms in found if at_ms > now_ms]

    def _is_over(self, air: AirNow, on: AirBox, now_ms: int, due_ms: int) -> bool:
        if now_ms >= due_ms + self.acts_ms:
            return True
        ends = [
            at_ms
            for lost in air.broken
            if lost.item == on.item
            for way, at_ms in lost.loss.ways
            if way is Way.END and at_ms is not None
        ]
        return any(at_ms + self.acts_ms <= now_ms for at_ms in ends)

    def _begins(self, desk: OpenDesk, air: AirNow, now_ms: int) -> str:
        """The line that puts an item on the air whose place has come, or empty."""
        for box in air.lane.boxes:
            if box.state is not ItemState.PLACED or box.from_ms + self.acts_ms > now_ms:
                continue
            lost = {one.loss.against for one in air.broken if one.item == box.item}
            if lost - _MOVES_ON or now_ms - box.from_ms > _LATE_MS + self.acts_ms:
                continue
            if self._would_lose(desk, box.item, now_ms) or _is_waited_for(desk, air, now_ms):
                continue
            return f"{box.item} now"
        return ""

    def _would_lose(self, desk: OpenDesk, item: str, now_ms: int) -> bool:
        """Whether the bar warns of something that it would lose, begun now."""
        supposed = desk.consider(f"{item} now", "", now_ms).supposed
        if supposed is None:
            return False
        return any(lost.item == item for lost in supposed.then.broken)

    def _homeless(self, desk: OpenDesk, air: AirNow) -> bool:
        """Whether something owed has no place and has not run."""
        owed = {item.id for item in desk.plan.items if item.owed}
        rows = air.panel.rows
        return any(row.item in owed and row.state is ItemState.FLOATING for row in rows)


def _due_ms(desk: OpenDesk, box: AirBox) -> int:
    """When an item that has begun is over by its length."""
    return box.from_ms + next(i.length_ms for i in desk.plan.items if i.id == box.item)


def _is_waited_for(desk: OpenDesk, air: AirNow, now_ms: int) -> bool:
    """Whether the time of a live moment has just come, and it has not: no desk leaves it then."""
    if air.figures.waiting:
        return True
    live = {event.id for event in desk.plan.events if event.live}
    times = (desk.schedule.expected_ms(event) for event in desk.due(now_ms) if event in live)
    return any(at_ms is not None and now_ms - at_ms < _PATIENCE_MS for at_ms in times)
