"""What is noted of a desk while its rehearsal runs: all that the score is made from.

The same for a scripted desk and for people.
"""

from core.board.model import View
from core.board.onair.now import AirNow
from core.board.programme import AirBox, AirLane, ItemState, ToSay
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.record import Correction, OnAir, Record
from core.times.writing import SECOND_MS, floor_second_ms


class Judge:
    """Stands beside a desk with the one that is right, and notes what the first shows."""

    def __init__(self, plan: Plan, right: OpenDesk) -> None:
        self._known = {event.id for event in plan.events}
        self._right = right
        self.owed: frozenset[str] = frozenset()
        """The events of which a correction is owed to the audience now."""

    def note_owed(self, to_say: ToSay | None, record: Record, now_ms: int) -> None:
        """Note corrections that are owed, and were not when this was last shown."""
        told = to_say.owed if to_say is not None else ()
        owed = frozenset(event for each in told for event, _ in each.times)
        record.corrections += [Correction(event, now_ms) for event in sorted(owed - self.owed)]
        for each in record.corrections:
            if each.until_ms is None and each.event not in owed:
                each.until_ms = now_ms
        self.owed = owed

    def passed(self, view: View, record: Record, now_ms: int, for_ms: int) -> None:
        """So long the board stood as it is in that view."""
        if not is_live(view.air, now_ms):
            return
        record.on_air_ms += for_ms
        if view.big_index is not None:
            card = view.cards[view.big_index]
            if card.id in self._known and self._is_wrong(card.id, card.at_ms, view.now_ms):
                record.was_wrong(now_ms, for_ms)

    def _is_wrong(self, event: str, shown_ms: int | None, now_ms: int) -> bool:
        """Whether the big countdown is not to what the ground has said by now."""
        self._right.schedule.tick(now_ms)
        right_ms = self._right.schedule.expected_ms(event)
        if right_ms is None or shown_ms is None:
            return (right_ms is None) is not (shown_ms is None)
        return abs(floor_second_ms(right_ms) - floor_second_ms(shown_ms)) >= SECOND_MS


def is_live(lane: AirLane, now_ms: int) -> bool:
    """Whether the presenter is on the air."""
    if any(_is_running(box, now_ms) for box in lane.boxes):
        return False
    return not any(from_ms <= now_ms < to_ms for from_ms, to_ms in lane.away)


def _is_running(box: AirBox, now_ms: int) -> bool:
    """Whether an item is on the air, one whose end was typed ahead till then."""
    if box.state is ItemState.RUN:
        return box.from_ms <= now_ms < box.to_ms
    return box.state is ItemState.ON_AIR


def note_on_air(air: AirNow, plan: Plan, record: Record, now_ms: int) -> OnAir | None:
    """Note what is on the air, the first word of anything that it loses, what has no place.

    Gives what has just begun.
    """
    for said in air.panel.owed:
        for item in plan.items:
            if item.owed and item.name.lower() in said.text.lower():
                record.places_left[item.id] = said.text
    on = next((box for box in air.lane.boxes if box.state is ItemState.ON_AIR), None)
    if on is None:
        return None
    begun = None
    known = record.airings
    if not known or known[-1].item != on.item:
        clean = not any(lost.item == on.item for lost in air.broken)
        can_cut = next(item.can_cut for item in plan.items if item.id == on.item)
        begun = OnAir(on.item, on.from_ms, clean, can_cut)
        known.append(begun)
    for lost in air.broken:
        if lost.item == on.item and lost.of:
            known[-1].news_ms.setdefault(lost.of, now_ms)
    return begun
