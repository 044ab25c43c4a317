"""One event as the screens ask for it."""

from core.plan.model import Event
from core.schedule.effect import whole_ms
from core.schedule.explain import Picture, cause
from core.schedule.model import Brief, Cause, Floor, Kind, Line, State
from core.schedule.solve import INF
from core.schedule.standing import Standing, pinned
from core.schedule.works import Works

_FIXED = (Kind.FACT, Kind.PIN, Kind.FIGURE, Kind.EDGE)


def line(works: Works, event: Event, plan_ms: int | None) -> Line:
    """The line of an event. `plan_ms` is its time by the plan alone."""
    name = event.id
    standing = works.standing
    node = works.net.number.get(name)
    fact = standing.facts.get(name)
    figure = standing.figures.get(name)
    found = works.lookups.found.get(name)
    held = standing.holds.get(name)
    going = held is not None and held.resumed_ms is None
    time_ms = works.time_ms(name)
    return Line(
        event=name,
        planned_ms=standing.replanned.get(name, plan_ms),
        expected_ms=time_ms,
        happened_ms=fact.time_ms if fact is not None else None,
        earliest_ms=None if node is None else whole_ms(works.early()[node]),
        latest_ms=None if node is None else whole_ms(works.solver.latest[node]),
        give_ms=_give_ms(event, works),
        state=_state(works, name),
        cause=None if node is None or time_ms is None else cause(picture(works), node),
        left_ms=held.left_ms if held is not None and going else None,
        held_ms=held.at_ms if held is not None and going else None,
        slack_ms=None if node is None else _slack_ms(works, node),
        pinned=pinned(event, standing),
        figure_ms=figure.time_ms if figure is not None else None,
        edge=found.edge if found is not None else "",
        outcome=works.shape.outcome.get(name),
        plan_ms=plan_ms,
    )


def brief(works: Works, event: Event, plan_ms: int | None) -> Brief:
    """The line of an event without its causes and bounds: for all events at once."""
    standing = works.standing
    held = standing.holds.get(event.id)
    return Brief(
        expected_ms=works.time_ms(event.id),
        planned_ms=standing.replanned.get(event.id, plan_ms),
        give_ms=_give_ms(event, works),
        state=_state(works, event.id),
        left_ms=held.left_ms if held is not None and held.resumed_ms is None else None,
        outcome=works.shape.outcome.get(event.id),
    )


def floor(works: Works, name: str) -> Floor:
    """What holds an event up, and the earliest it may be, as in its line."""
    node = works.net.number.get(name)
    if node is None or works.time_ms(name) is None:
        return Floor(None, None)
    its = cause(picture(works), node)
    return Floor(None if its is None else its.kind, whole_ms(works.early()[node]))


def picture(works: Works) -> Picture:
    """The works as they are now, to explain them."""
    return Picture(works.net, works.own, works.solver.time, works.solver.latest)


def _state(works: Works, name: str) -> State:
    gone = works.shape.gone.get(name)
    if gone is not None:
        return gone
    if name in works.standing.facts:
        return State.HAPPENED
    held = works.standing.holds.get(name)
    if held is not None and held.resumed_ms is None:
        return State.HELD
    return State.AHEAD if works.time_ms(name) is not None else State.UNKNOWN


def _give_ms(event: Event, works: Works) -> int:
    standing: Standing = works.standing
    if event.id in standing.facts:
        return 0
    typed = standing.gives.get(event.id)
    if typed is not None:
        return typed
    found = works.lookups.found.get(event.id)
    return max(event.give_ms, found.give_ms if found is not None else 0)


def _slack_ms(works: Works, node: int) -> int | None:
    """How much what comes before an event may still slip.

    Until it clashes, for one that stands by a pin, a figure or an edge; until it moves, for one
    that waits for its planned time. None where that means nothing.
    """
    its: Cause | None = cause(picture(works), node)
    if its is None or its.of != works.net.ids[node] or its.kind is Kind.FACT:
        return None
    hard = its.kind in _FIXED
    before = works.early() if hard else works.solver.time
    needed = -INF
    for link in works.net.before[node]:
        after_ms = link.least_ms if hard else link.push_ms
        if after_ms is not None:
            needed = max(needed, before[link.before] + after_ms)
    return whole_ms(works.solver.time[node] - needed)
