"""`limbwatch check`: what is wrong with a plan, else a one-screen summary."""

from collections.abc import Iterable, Sequence

from app.commands.signals import Part
from app.commands.writing import counted, shown_ms
from core.board.previewing import clash_words
from core.board.words import Names, capital
from core.errors import Problem
from core.plan.model import Plan
from core.session.desk import Desk
from core.signal.model import Total
from core.times.spoken import spoken_zone
from core.times.writing import Style, clock_text, date_text

_MOST_WARNINGS = 12
"""More than these are counted: the summary is to fit on one screen."""


def summary(desk: Desk, plan: Plan, warnings: Sequence[Problem], style: Style) -> str:
    """What the plan holds, in a screenful."""
    told = [f"{plan.title}{f', {plan.subtitle}' if plan.subtitle else ''}"]
    told.append(f"Zones: {', '.join(spoken_zone(zone) for zone in plan.zones)}")
    told += _events(desk, plan, style)
    told += _signal(desk, plan)
    on_air = (
        (len(plan.items), "item", ""),
        (len(plan.junctions), "junction", ""),
        (len(plan.checkoffs), "check-off", ""),
    )
    if parts := _parts(on_air):
        told.append(f"On the air: {parts}")
    names = Names({event.id: event.name for event in plan.events})
    now_ms = desk.clock.now_ms()
    told += [capital(clash_words(clash, names, style, now_ms)) for clash in desk.clashes]
    told += [f"Take note: {warning}" for warning in warnings[:_MOST_WARNINGS]]
    if len(warnings) > _MOST_WARNINGS:
        told.append(f"Take note: and {len(warnings) - _MOST_WARNINGS} more like these")
    return "\n".join(told)


def _parts(counts: Iterable[tuple[int, str, str]]) -> str:
    """'3 pinned, 1 live moment': what there is none of is not told."""
    return ", ".join(counted(count, one, more) for count, one, more in counts if count)


def _events(desk: Desk, plan: Plan, style: Style) -> list[str]:
    times = [at for e in plan.events if (at := shown_ms(desk.schedule.expected_ms(e.id)))]
    pins = sum(event.pinned for event in plan.events)
    live = sum(event.live for event in plan.events)
    happened = sum(event.happened_ms is not None for event in plan.events)
    kinds = (
        (pins, "pinned", "pinned"),
        (live, "live moment", ""),
        (happened, "happened", "happened"),
    )
    parts = _parts(kinds)
    told = [f"Events: {len(plan.events)}{f', of which {parts}' if parts else ''}"]
    if times:
        first, last = min(times), max(times)
        told.append(
            f"From {date_text(first, style.zone)}, {clock_text(first, style)}, "
            f"to {date_text(last, style.zone)}, {clock_text(last, style)}"
        )
    groups = dict.fromkeys(outcome.of for outcome in plan.outcomes)
    names = {event.id: event.name for event in plan.events}
    for group in groups:
        ways = "; ".join(o.name for o in plan.outcomes if o.of == group)
        told.append(f"Outcomes of {names.get(group, group)}: {ways}")
    return told


def _signal(desk: Desk, plan: Plan) -> list[str]:
    lanes = desk.signal()
    extent = Part().extent(lanes)
    totals = desk.totals(*extent) if extent is not None else ()
    told = [
        f"Lane {lane.lane}: {counted(len(lane.contacts), 'contact')}, "
        f"{_gaps([total for total in totals if total.lane == lane.lane], plan)}"
        for lane in lanes
    ]
    if plan.grounds:
        told.append(f"Ground stations: {', '.join(ground.name for ground in plan.grounds)}")
    return told


def _gaps(totals: Sequence[Total], plan: Plan) -> str:
    """Gaps from the plan's first edge to its last, as `signal` counts them; for each outcome."""
    names = {outcome.id: outcome.name for outcome in plan.outcomes}
    counts = {total.gaps for total in totals}
    if len(counts) < 2:
        return counted(max(counts, default=0), "gap")
    return ", ".join(
        f"{counted(total.gaps, 'gap')} {names.get(total.outcome or '', '')}".rstrip()
        for total in totals
    )
