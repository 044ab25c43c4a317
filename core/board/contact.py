"""CONTACT: how each lane stands, for how long, through whom, and what comes then."""

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace

from core.board.model import ContactPanel, LaneNow
from core.board.scene import Scene
from core.board.sight import LaneSight, role
from core.board.words import (
    capital,
    either,
    gap_words,
    lane_names,
    rough_words,
    shifted_words,
    shown_figure,
)
from core.signal.model import Fill, Shifted, Stretch, Total
from core.signal.seen import Light
from core.times.writing import (
    MINUTE_MS,
    apart_ms,
    dated_clock_text,
    duration_words,
    floor_second_ms,
)

TOTALS_MS = 24 * 3_600_000
"""The totals look so far ahead."""
_OVER, _ALL = "Out of contact in the next 24 h", "all 24 h"
_SPELT_OUT = 2
"""So many different totals are told one by one; of more only the least and the most."""

_CLOSED = "closed by the ground"
_UNHEARD = "not heard yet"
_ENDLESS = {
    Fill.CONTACT: "in contact",
    Fill.GAP: "out of contact",
    Fill.EITHER: "either",
}
_AT_LATEST = {Fill.CONTACT: "until back, at the latest", Fill.GAP: "until lost, at the latest"}


def contact_panel(
    scene: Scene,
    totals: Iterable[Total],
    now_ms: int,
    closed: Collection[str] = (),
    shifted: Iterable[Shifted] = (),
    delays: tuple[str, ...] = (),
) -> ContactPanel:
    """The panel at that moment; `totals` are over the next `TOTALS_MS`.

    `closed` are the lanes shut by the ground now, also where there is no contact to shut. `delays`
    are the lines on how late lanes come.
    """
    names = lane_names(scene.plan)
    lanes = tuple(
        _told_closed(_lane(scene, lane, _spoken(names.get(lane.lane, lane.lane)), now_ms), closed)
        for lane in scene.sight.lanes
    )
    names = {lane.lane: lane.name for lane in lanes}
    return ContactPanel(
        lanes,
        _totals(totals, names, scene.outcome_name),
        ". ".join(
            said
            for said in (
                _distance(scene.light(now_ms)),
                *(capital(shifted_words(each, scene.roll.names)) for each in shifted),
            )
            if said
        ),
        delays,
    )


def _distance(light: Light | None) -> str:
    """'205 million km away; its signal needs 11 min 22 s', of a distant craft."""
    if light is None:
        return ""
    return f"{_far(light.distance_km)} away; its signal needs {duration_words(light.way_ms)}"


def _far(distance_km: float) -> str:
    """A distance to three figures, as one says it."""
    if distance_km < 999_500:
        return f"{round(distance_km, -3):,.0f} km"
    millions = distance_km / 1e6
    return f"{millions:.{2 if millions < 9.995 else 1 if millions < 99.95 else 0}f} million km"


def _spoken(name: str) -> str:
    """A lane's name in the panel: 'VOICE' on the strip is 'Voice' here."""
    return name.capitalize() if name.isupper() else name


def _lane(scene: Scene, lane: LaneSight, name: str, now_ms: int) -> LaneNow:
    if lane.lane in scene.sight.unheard(now_ms):
        return _unheard(lane, name)
    here = lane.stretch(now_ms)
    fill = here.fill if here is not None else Fill.GAP
    end_ms = _end_ms(lane, now_ms)
    figure = None if end_ms is None else shown_figure(apart_ms(end_ms, now_ms))
    return LaneNow(
        lane=lane.lane,
        name=name,
        colour=role(lane.lane),
        figure=figure,
        word=_word(lane, fill, end_ms, now_ms),
        through=_through(scene, lane, here, now_ms),
        then=_then(lane, end_ms),
    )


def _unheard(lane: LaneSight, name: str) -> LaneNow:
    """A lane that should be back by now, whatever the outcome, and that nobody has heard."""
    return LaneNow(
        lane=lane.lane,
        name=name,
        colour=role(lane.lane),
        figure=None,
        word=_UNHEARD,
        through="depends on the outcome",
        then="",
    )


def _told_closed(lane: LaneNow, closed: Collection[str]) -> LaneNow:
    """A lane shut while there is no contact says so at once, not only from the return on."""
    if lane.lane not in closed or lane.word == _CLOSED:
        return lane
    return replace(lane, through="; ".join(part for part in (_CLOSED, lane.through) if part))


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


def _word(lane: LaneSight, fill: Fill, end_ms: int | None, now_ms: int) -> str:
    if fill is Fill.CLOSED:
        return _CLOSED
    if end_ms is None:
        return _ENDLESS[fill]
    if fill is Fill.CONTACT:
        return "left"
    later = lane.stretch(end_ms)
    if fill is Fill.EITHER:
        return _AT_LATEST.get(later.fill if later is not None else fill, "either way")
    lengths_ms, sure = lane.gap_ms(now_ms)
    others = either(duration_words(each) for each in lengths_ms[1:])
    return "until back" + (f", or {others}" if others else "") + ("" if sure else ", or later")


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
    handed = [h for h in lane.signal.hand_overs if floor_second_ms(h.time_ms) > now_ms]
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
        lengths_ms, sure = lane.gap_ms(end_ms)
        lengths = gap_words(lengths_ms, sure=sure)
        return f"then {after.cause}{f' for {lengths}' if lengths else ''}"
    if after.fill is Fill.CONTACT:
        until_ms = _end_ms(lane, end_ms)
        if until_ms is not None:
            return f"then in contact for {rough_words(apart_ms(until_ms, end_ms))}"
        return "then in contact"
    return "then closed" if after.fill is Fill.CLOSED else "then as the outcome has it"


def _totals(
    totals: Iterable[Total], names: dict[str, str], outcome: Callable[[str], str]
) -> tuple[str, ...]:
    """What they are over, then one line a lane; where outcomes differ, what each brings."""
    by_lane: dict[str, list[Total]] = {}
    for total in totals:
        by_lane.setdefault(total.lane, []).append(total)
    lines = tuple(_total(names.get(lane, lane), each, outcome) for lane, each in by_lane.items())
    return (_OVER, *lines) if lines else ()


def _total(name: str, each: Sequence[Total], outcome: Callable[[str], str]) -> str:
    """'Voice: 1 gap, 24 min if no burn; 11 gaps, 12 h 57 min after the burn'."""
    told = dict.fromkeys((total.gaps, _out(total)) for total in each)
    if len(told) > _SPELT_OUT:
        ordered = sorted(each, key=lambda total: total.out_ms)
        counts = sorted({total.gaps for total in each})
        gaps = f"{counts[0]} to {counts[-1]} gaps" if len(counts) > 1 else _gaps(counts[0])
        ends = " to ".join(_out(total) for total in (ordered[0], ordered[-1]))
        return f"{capital(name)}: {gaps}, {ends}"
    if len(told) < 2:
        return f"{capital(name)}: {_gaps_and_length(each[0])}"
    parts = [f"{_gaps_and_length(total)} {outcome(total.outcome or '')}".rstrip() for total in each]
    return f"{capital(name)}: {'; '.join(parts)}"


def _gaps_and_length(total: Total) -> str:
    return f"{_gaps(total.gaps)}, {_out(total)}" if total.gaps else "no gap"


def _out(total: Total) -> str:
    return _ALL if total.out_ms > TOTALS_MS - MINUTE_MS // 2 else rough_words(total.out_ms)


def _gaps(count: int) -> str:
    return f"{count} gap{'' if count == 1 else 's'}"
