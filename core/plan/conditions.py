"""What hangs on an outcome: its own `only_if`, or one inherited through ties."""

from collections.abc import Iterable, Mapping

from core.plan.model import Event, Plan


def conditions(plan: Plan) -> Mapping[str, str | None]:
    """The outcome each event depends on, by event id; None where it happens either way.

    An event inherits from what it is tied to and from the event its edge is counted from. Tied to
    several outcomes of one event it happens either way; of several events, the one that the plan
    names last decides.
    """
    events = {event.id: event for event in plan.events}
    rank = {outcome.id: place for place, outcome in enumerate(plan.outcomes)}
    parent = {outcome.id: outcome.of for outcome in plan.outcomes}
    found: dict[str, str | None] = {}
    for start in events:
        _settle(start, events, rank, parent, found)
    return found


def ruled_out(
    plan: Plan, chosen: Iterable[str], depends: Mapping[str, str | None] | None = None
) -> frozenset[str]:
    """The outcomes that can no longer be, once these are named.

    The others of the same event, and every outcome of an event that itself cannot happen.
    `depends` are the plan's `conditions`, where they are known already.
    """
    named = frozenset(chosen)
    decided = {outcome.of for outcome in plan.outcomes if outcome.id in named}
    out = {o.id for o in plan.outcomes if o.of in decided and o.id not in named}
    if depends is None:
        depends = conditions(plan)
    while True:
        more = {o.id for o in plan.outcomes if o.id not in out and depends.get(o.of) in out}
        if not more:
            return frozenset(out)
        out |= more


def _settle(
    start: str,
    events: Mapping[str, Event],
    rank: Mapping[str, int],
    parent: Mapping[str, str],
    found: dict[str, str | None],
) -> None:
    """Fill `found` for `start` and all before it, without recursion: chains can be long."""
    path = [start]
    open_ids: set[str] = set()
    while path:
        here = path[-1]
        event = events.get(here)
        if here in found or event is None:
            path.pop()
            continue
        if event.only_if is not None:
            found[here] = event.only_if
            continue
        before = _before(event)
        waiting = [b for b in before if b not in found and b in events]
        if waiting and here not in open_ids:
            open_ids.add(here)
            path.extend(waiting)
            continue
        outcomes = {outcome for b in before if (outcome := found.get(b)) is not None}
        found[here] = _joined(outcomes, rank, parent) if outcomes else None


def _before(event: Event) -> tuple[str, ...]:
    tied = tuple([tie.event for tie in event.ties])
    if event.edge is None:
        return tied
    return tied + tuple(e for e in (event.edge.after, event.edge.before) if e is not None)


def _joined(outcomes: set[str], rank: Mapping[str, int], parent: Mapping[str, str]) -> str | None:
    of = [parent.get(outcome) for outcome in outcomes]
    alone = [o for o in outcomes if of.count(parent.get(o)) == 1]
    return max(alone, key=lambda outcome: rank.get(outcome, -1)) if alone else None
