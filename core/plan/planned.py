"""When events are planned, as far as clock times and ties alone can tell."""

from collections.abc import Mapping, Sequence

from core.plan.model import Event, Plan


def planned_times(plan: Plan, order: Sequence[str]) -> Mapping[str, int]:
    """The planned instants that need no signal; events that hang on an edge are left out.

    A rough reckoning for checks: ties push, and bounds that pull back are not looked at.
    """
    events = {event.id: event for event in plan.events}
    times: dict[str, int] = {}
    for name in order:
        time_ms = _time_ms(events[name], times)
        if time_ms is not None:
            times[name] = time_ms
    return times


def _time_ms(event: Event, times: Mapping[str, int]) -> int | None:
    if event.edge is not None or any(tie.event not in times for tie in event.ties):
        return None
    if event.pinned and event.at_ms is not None:
        return event.at_ms
    floors = [time for time in (event.at_ms, _opens_ms(event)) if time is not None]
    for tie in event.ties:
        pushes = [push for push in (tie.offset_ms, tie.least_ms) if push is not None]
        if pushes:
            floors.append(times[tie.event] + max(pushes))
    return max(floors, default=event.happened_ms)


def _opens_ms(event: Event) -> int | None:
    return event.window.not_before_ms if event.window is not None else None
