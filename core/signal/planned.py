"""When the plan alone has an event, as far as a printed table needs it to be laid beside a day.

A table in clock times was printed for the planned time of the event it follows. This reads that
time from the plan: its clock time, its ties' offsets, its edge. It knows no limits: where a plan
presses an event against one, `Tables.printed_for` takes the schedule's own planned times.
"""

from collections.abc import Callable

from core.plan.model import EdgeRef, Event, Plan

Lookup = Callable[[EdgeRef, str, int | None], int | None]
"""The time of an edge for an event, counted from an instant, in the tables as printed."""


class Planned:
    """The planned time of each event, worked out when first asked for."""

    def __init__(self, plan: Plan, lookup: Lookup) -> None:
        self._events = {event.id: event for event in plan.events}
        self._lookup = lookup
        self._known: dict[str, int | None] = {}
        self._open: set[str] = set()
        self._settling: set[str] = set()

    def __call__(self, event_id: str) -> int | None:
        """The planned time of an event; None where the plan gives none, or only in a circle."""
        path = [event_id]
        while path:
            here = path[-1]
            event = self._events.get(here)
            waiting = [] if event is None else self._before(event)
            if here in self._known or here in self._settling or event is None:
                path.pop()
            elif waiting and here not in self._open:
                self._open.add(here)
                path.extend(waiting)
            else:
                self._settling.add(here)  # looking up its edge may ask for it again
                self._known[here] = self._settled(event)
        return self._known.get(event_id)

    def _before(self, event: Event) -> list[str]:
        """What must be known first and is neither known nor already being worked out."""
        named = [tie.event for tie in event.ties]
        if event.edge is not None:
            named += [e for e in (event.edge.after, event.edge.before) if e is not None]
        return [e for e in named if e not in self._known and e not in self._open]

    def _settled(self, event: Event) -> int | None:
        if event.pinned and event.at_ms is not None:
            return event.at_ms
        if event.edge is not None:
            return self._edge(event.edge, event.id)
        times = []
        for tie in event.ties:
            pulls = [pull for pull in (tie.offset_ms, tie.least_ms) if pull is not None]
            known = self._known.get(tie.event)
            if pulls and known is not None:
                times.append(known + max(pulls))
        if event.at_ms is not None:
            times.append(event.at_ms)
        if event.window is not None and event.window.not_before_ms is not None:
            times.append(event.window.not_before_ms)
        return max(times, default=None)

    def _edge(self, ref: EdgeRef, event_id: str) -> int | None:
        counted = ref.after or ref.before
        if counted is None:
            return self._lookup(ref, event_id, None)
        from_ms = self._known.get(counted)
        return None if from_ms is None else self._lookup(ref, event_id, from_ms + ref.offset_ms)
