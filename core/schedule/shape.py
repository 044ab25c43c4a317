"""The shape of the network now: which events are there, and what each is tied to.

Events called off, ruled out with their outcome, or hanging on an edge that is not there are gone;
ties and limits to them neither pull nor bind.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from core.entries.model import Way
from core.plan.conditions import conditions, ruled_out
from core.plan.model import Event, Limit, Plan, Tie
from core.schedule.model import State
from core.schedule.standing import Scrubbed, Standing, pinned, stands


@dataclass(frozen=True, slots=True)
class Shape:
    """Which events are there. `kept`: clock times at which followers of a scrub stay."""

    events: Mapping[str, Event]
    gone: Mapping[str, State]
    ties: Mapping[str, tuple[Tie, ...]]
    limits: tuple[Limit, ...]
    kept: Mapping[str, int]
    outcome: Mapping[str, str | None]

    def present(self) -> list[str]:
        """The events that are there, in the plan's order, added ones last."""
        if not self.gone:
            return list(self.events)
        return [name for name in self.events if name not in self.gone]


def shape(standing: Standing, unknown: Iterable[str]) -> Shape:
    """The shape, where the edges of these events cannot be found."""
    plan = standing.plan
    events = {event.id: event for event in (*plan.events, *standing.added)}
    ties = {name: event.ties for name, event in events.items()}
    gone: dict[str, State] = {}
    whole = replace(plan, events=tuple(events.values())) if standing.added else plan
    outcome = conditions(whole) if plan.outcomes else dict.fromkeys(events)
    _drop(whole, standing, outcome, gone)
    kept: dict[str, int] = {}
    for scrub in standing.scrubs:
        if scrub.event in events:
            _scrub(scrub, events, standing, ties, gone, kept)
    for name in unknown:
        gone.setdefault(name, State.UNKNOWN)
    _lose(events, standing, ties, gone)
    _lean_on_most(events, ties)
    return Shape(events, gone, ties, plan.limits, kept, outcome)


def followers(ties: Mapping[str, tuple[Tie, ...]]) -> dict[str, list[str]]:
    """By event, those tied to it."""
    after: dict[str, list[str]] = {}
    for name, its in ties.items():
        for tie in its:
            after.setdefault(tie.event, []).append(name)
    return after


def called_off_with(
    event: str,
    events: Mapping[str, Event],
    ties: Mapping[str, tuple[Tie, ...]],
    standing: Standing,
) -> list[str]:
    """Those that go when an event is called off with its followers.

    Pinned and happened events stay, and what is tied only to them.
    """
    after = followers(ties)
    going: list[str] = []
    seen = {event}
    stack = [event]
    while stack:
        for name in after.get(stack.pop(), ()):
            if name in seen:
                continue
            seen.add(name)
            stays = name in standing.facts or name in standing.back
            if stays or pinned(events[name], standing):
                continue
            going.append(name)
            stack.append(name)
    return going


def _drop(
    plan: Plan, standing: Standing, outcome: Mapping[str, str | None], gone: dict[str, State]
) -> None:
    if not standing.chosen:
        return
    out = ruled_out(plan, standing.chosen.values(), outcome)
    for name, on in outcome.items():
        if on in out and name not in standing.facts:
            gone[name] = State.DROPPED


def _scrub(
    scrub: Scrubbed,
    events: Mapping[str, Event],
    standing: Standing,
    ties: dict[str, tuple[Tie, ...]],
    gone: dict[str, State],
    kept: dict[str, int],
) -> None:
    if scrub.way is Way.WITH:
        for name in called_off_with(scrub.event, events, ties, standing):
            gone[name] = State.SCRUBBED
    if scrub.way is Way.BRIDGE:
        for name in followers(ties).get(scrub.event, ()):
            ties[name] = _bridged(ties[name], scrub.event, ties[scrub.event])
    kept.update(scrub.kept)
    gone[scrub.event] = State.SCRUBBED


def _bridged(own: tuple[Tie, ...], across: str, before: tuple[Tie, ...]) -> tuple[Tie, ...]:
    """The ties with those to `across` laid on to what it was tied to, offsets added."""
    laid: list[Tie] = []
    for tie in own:
        if tie.event == across:
            laid.extend(_joined(first, tie) for first in before)
        else:
            laid.append(tie)
    return tuple(laid)


def _joined(first: Tie, second: Tie) -> Tie:
    return Tie(
        first.event,
        None
        if first.offset_ms is None and second.offset_ms is None
        else _pull_ms(first) + _pull_ms(second),
        _sum(first.least_ms, second.least_ms),
        _sum(first.most_ms, second.most_ms),
    )


def _pull_ms(tie: Tie) -> int:
    if tie.offset_ms is not None:
        return tie.offset_ms
    return tie.least_ms if tie.least_ms is not None else 0


def _sum(first: int | None, second: int | None) -> int | None:
    return None if first is None or second is None else first + second


def _lose(
    events: Mapping[str, Event],
    standing: Standing,
    ties: Mapping[str, tuple[Tie, ...]],
    gone: dict[str, State],
) -> None:
    """What waits for an unknown event is unknown too, unless it stands by itself."""
    lost = [name for name, state in gone.items() if state is State.UNKNOWN]
    if not lost:
        return
    after = followers(ties)
    while lost:
        for name in after.get(lost.pop(), ()):
            if name not in gone and not stands(events[name], standing):
                gone[name] = State.UNKNOWN
                lost.append(name)


def _lean_on_most(events: Mapping[str, Event], ties: dict[str, tuple[Tie, ...]]) -> None:
    """An event that knows only how long after another it may be at most is put just there."""
    for name, its in ties.items():
        if not its or its[0].offset_ms is not None or its[0].least_ms is not None:
            continue
        if any(t.offset_ms is not None or t.least_ms is not None for t in its):
            continue
        event = events[name]
        if event.at_ms is None and event.edge is None and its[0].most_ms is not None:
            ties[name] = (replace(its[0], offset_ms=its[0].most_ms), *its[1:])
