"""CONTACT: how each lane stands, for how long, through whom, and what comes then."""

from collections.abc import Iterable, Sequence

from core.board.model import ContactPanel, LaneNow
from core.board.scene import Scene
from core.board.sight import LaneSight, role
from core.board.words import capital, either, lane_names, shown_figure
from core.signal.model import Fill, Stretch, Total
from core.times.writing import apart_ms, dated_clock_text, duration_words, short_duration_words


def contact_panel(scene: Scene, totals: Iterable[Total], now_ms: int) -> ContactPanel:
    """The panel at that moment; `totals` are over what is still to come."""
    names = lane_names(scene.plan)
    lanes = tuple(
        _lane(scene, lane, _spoken(names.get(lane.lane, lane.lane)), now_ms)
        for lane in scene.sight.lanes
    )
    return ContactPanel(lanes, _totals(totals, {lane.lane: lane.name for lane in lanes}))


def _spoken(name: str) -> str:
    """A lane's name in the panel: 'VOICE' on the strip is 'Voice' here."""
    return name.capitalize() if name.isupper() else name


def _lane(scene: Scene, lane: LaneSight, name: str, now_ms: int) -> LaneNow:
    here = lane.stretch(now_ms)
    fill = here.fill if here is not None else Fill.GAP
    end_ms = _end_ms(lane, now_ms)
    figure = None if end_ms is None else shown_figure(apart_ms(end_ms, now_ms))
    return LaneNow(
        lane=lane.lane,
        name=name,
        colour=role(lane.lane),
        figure=figure,
        word=_word(fill, end_ms),
        through=_through(scene, lane, here, now_ms),
        then=_then(lane, end_ms),
    )


def _end_ms(lane: LaneSight, now_ms: int) -> int | None:
    """When what holds now ends: hand-overs and changes of cause end nothing."""
    stretches = lane.signal.stretches
    if not stretches:
        return None
    place = lane.place(now_ms)
    fill = stretches[place].fill
    while place + 1 < len(stretches) and stretches[place + 1].fill is fill:
        place += 1
    return stretches[place].to_ms


def _word(fill: Fill, end_ms: int | None) -> str:
    match fill:
        case Fill.CONTACT:
            return "left" if end_ms is not None else "in contact"
        case Fill.EITHER:
            return "either, until" if end_ms is not None else "either"
        case Fill.CLOSED:
            return "closed by the ground"
    return "until back" if end_ms is not None else "out of contact"


def _through(scene: Scene, lane: LaneSight, here: Stretch | None, now_ms: int) -> str:
    if here is None:
        return ""
    if here.fill is Fill.GAP:
        return here.cause
    if here.fill is Fill.EITHER:
        return "depends on the outcome"
    if here.ground is None:
        return ""
    names = {ground.id: ground.name for ground in scene.plan.grounds}
    words = f"through {names.get(here.ground, here.ground)}"
    handed = [h for h in lane.signal.hand_overs if h.time_ms > now_ms]
    end_ms = _end_ms(lane, now_ms)
    if handed and (end_ms is None or handed[0].time_ms < end_ms):
        to = names.get(handed[0].to_ground, handed[0].to_ground)
        at = dated_clock_text(handed[0].time_ms, scene.style, now_ms, seconds=False)
        words += f"; hand-over to {to} {at}"
    return words


def _then(lane: LaneSight, end_ms: int | None) -> str:
    """The gap that follows a contact, with its cause and length; or when contact ends again."""
    if end_ms is None:
        return ""
    after = lane.stretch(end_ms)
    if after is None:
        return ""
    if after.fill is Fill.GAP:
        waits = [at for at in lane.next_contacts(end_ms) if at > end_ms]
        lengths = either(_rough(apart_ms(at, end_ms)) for at in waits)
        return f"then {after.cause}{f' for {lengths}' if lengths else ''}"
    if after.fill is Fill.CONTACT:
        until_ms = _end_ms(lane, end_ms)
        if until_ms is not None:
            return f"then in contact for {_rough(apart_ms(until_ms, end_ms))}"
        return "then in contact"
    return f"then {after.fill.value}"


def _rough(length_ms: int) -> str:
    if length_ms < 600_000:
        return duration_words(length_ms)
    return short_duration_words((length_ms + 30_000) // 60_000 * 60_000)


def _totals(totals: Iterable[Total], names: dict[str, str]) -> tuple[str, ...]:
    """One line a lane; where outcomes differ, both."""
    by_lane: dict[str, list[Total]] = {}
    for total in totals:
        by_lane.setdefault(total.lane, []).append(total)
    return tuple(_total(names.get(lane, lane), each) for lane, each in by_lane.items())


def _total(name: str, each: Sequence[Total]) -> str:
    gaps = either(f"{total.gaps} gap{'' if total.gaps == 1 else 's'}" for total in each)
    out = either(_rough(total.out_ms) for total in each)
    if not any(total.gaps for total in each):
        return f"{capital(name)}: no gap to come"
    longest = _rough(max(total.longest_ms for total in each))
    return f"{capital(name)}: {gaps} to come, {out} in all, the longest {longest}"
