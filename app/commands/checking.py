"""`limbwatch check`: what is wrong with a plan, else a one-screen summary."""

from collections.abc import Sequence

from core.board.previewing import clash_words
from core.board.words import Names
from core.errors import Problem
from core.plan.model import Plan
from core.session.desk import Desk
from core.signal.tables import uncomputed
from core.times.spoken import spoken_zone
from core.times.writing import Style, clock_text, date_text


def summary(desk: Desk, plan: Plan, warnings: Sequence[Problem], style: Style) -> str:
    """What the plan holds, in a screenful."""
    told = [f"{plan.title}{f', {plan.subtitle}' if plan.subtitle else ''}"]
    told.append(f"Zones: {', '.join(spoken_zone(zone) for zone in plan.zones)}")
    told += _events(desk, plan, style)
    told += _signal(desk, plan)
    told.append(
        f"On the air: {len(plan.items)} items, {len(plan.junctions)} junctions, "
        f"{len(plan.checkoffs)} check-offs"
    )
    names = Names({event.id: event.name for event in plan.events})
    now_ms = desk.clock.now_ms()
    told += [f"Clash: {clash_words(clash, names, style, now_ms)}" for clash in desk.clashes]
    told += [f"Take note: {warning}" for warning in warnings]
    return "\n".join(told)


def _events(desk: Desk, plan: Plan, style: Style) -> list[str]:
    times = [at for e in plan.events if (at := desk.schedule.expected_ms(e.id)) is not None]
    pins = sum(event.pinned for event in plan.events)
    live = sum(event.live for event in plan.events)
    happened = sum(event.happened_ms is not None for event in plan.events)
    counts = f"{pins} pinned, {live} live moments, {happened} happened"
    told = [f"Events: {len(plan.events)}, of which {counts}"]
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
    told = [
        f"Lane {lane.lane}: {len(lane.contacts)} contacts, {len(lane.gaps)} gaps"
        for lane in desk.signal()
    ]
    if plan.grounds:
        told.append(f"Ground stations: {', '.join(ground.name for ground in plan.grounds)}")
    left = uncomputed(plan)
    if left:
        told.append(f"Kept, but not computed by this version: course {', '.join(left)}")
    return told
