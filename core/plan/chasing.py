"""Offsets that would chase themselves for ever: longer than a `most` that is laid across them."""

from collections import deque
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass

from core.plan.model import Plan
from core.times.durations import write_duration

_STEPS_EACH = 400


@dataclass(frozen=True, slots=True)
class Chase:
    """Ties and limits that push one another on: what to tell, and one event among them."""

    event: str
    what: str
    hint: str


@dataclass(frozen=True, slots=True)
class _Push:
    """`to` comes at least `by_ms` after `start`."""

    start: str
    to: str
    by_ms: int
    word: str

    def __str__(self) -> str:
        """The tie or limit as it is written; a most pushes from the later to the earlier."""
        first, last = (self.to, self.start) if self.word == "most" else (self.start, self.to)
        written_ms = -self.by_ms if self.word == "most" else self.by_ms
        return f"{self.word} {write_duration(written_ms)} from '{first}' to '{last}'"


def chase(plan: Plan, order: Sequence[str]) -> Chase | None:
    """The first chain of offsets that would chase itself for ever, or None.

    That is a circle of pushes, by max(offset, least) and by -most, whose sum is more than nothing;
    pinned and happened events, and edges of the signal, stand and are not pushed. Where the leasts
    alone already make one, the plan cannot be met at all: that is a clash, and not told here.
    Nor is a chase that stops because one of its events has a latest time: see `stopped_chase`.
    `order` has each event after those it is tied to.
    """
    found = _chased(plan, order, _standing(plan) | _ending(plan))
    return None if found is None else _told(found, "these push one another on for ever")


def stopped_chase(plan: Plan, order: Sequence[str]) -> Chase | None:
    """A chase that ends only at a window, a pin or a fact: it can be reckoned, but is odd."""
    found = _chased(plan, order, _standing(plan))
    said = "these push one another on until a pin or a window stops them"
    return None if found is None else _told(found, said)


def _chased(plan: Plan, order: Sequence[str], stands: Set[str]) -> list[_Push] | None:
    if _find(_pushes(plan, _standing(plan), soft=False), order) is not None:
        return None
    return _find(_pushes(plan, stands, soft=True), order)


def _told(found: Sequence[_Push], how: str) -> Chase:
    over = write_duration(sum(push.by_ms for push in found))
    said = ", ".join(str(push) for push in found[:8])
    more = f", and {len(found) - 8} more" if len(found) > 8 else ""
    what = f"{how}, {over} too long: {said}{more}"
    return Chase(found[0].to, what, "Make an offset shorter, or the most longer")


def _standing(plan: Plan) -> frozenset[str]:
    """The events that nothing pushes."""
    return frozenset(
        event.id
        for event in plan.events
        if event.pinned or event.happened_ms is not None or event.edge is not None
    )


def _ending(plan: Plan) -> frozenset[str]:
    """The events that the hard limits let come no later than some time."""
    holds: dict[str, list[str]] = {}
    for before, after, least_ms, most_ms in _bounds(plan):
        if least_ms is not None:
            holds.setdefault(after, []).append(before)
        if most_ms is not None:
            holds.setdefault(before, []).append(after)
    windows = (e.id for e in plan.events if e.window and e.window.not_after_ms is not None)
    found = {*_standing(plan), *windows}
    left = list(found)
    while left:
        for name in holds.get(left.pop(), ()):
            if name not in found:
                found.add(name)
                left.append(name)
    return frozenset(found)


def _bounds(plan: Plan) -> Iterator[tuple[str, str, int | None, int | None]]:
    """Before, after, least and most of every tie and limit."""
    for event in plan.events:
        for tie in event.ties:
            yield tie.event, event.id, tie.least_ms, tie.most_ms
    for limit in plan.limits:
        yield limit.before, limit.after, limit.least_ms, limit.most_ms


def _pushes(plan: Plan, stands: Set[str], *, soft: bool) -> list[_Push]:
    """Every push between events, but on those that stand; with `soft`, offsets push too."""
    known = {event.id for event in plan.events}
    pushes: list[_Push] = []
    for event in plan.events:
        for tie in event.ties:
            offset_ms = tie.offset_ms if soft else None
            longest = [ms for ms in (offset_ms, tie.least_ms) if ms is not None]
            if longest:
                by_ms = max(longest)
                word = "offset" if by_ms == offset_ms else "least"
                pushes.append(_Push(tie.event, event.id, by_ms, word))
            pushes += _pull(tie.event, event.id, tie.most_ms)
    for limit in plan.limits:
        if limit.least_ms is not None:
            pushes.append(_Push(limit.before, limit.after, limit.least_ms, "least"))
        pushes += _pull(limit.before, limit.after, limit.most_ms)
    return [push for push in pushes if push.to not in stands and {push.start, push.to} <= known]


def _pull(before: str, after: str, most_ms: int | None) -> list[_Push]:
    """What follows within `most` pushes what is before it."""
    if most_ms is None:
        return []
    return [_Push(after, before, -most_ms, "most")]


def _find(pushes: Sequence[_Push], order: Sequence[str]) -> list[_Push] | None:
    """A circle of pushes with a sum above nothing, in order; None where there is none."""
    leaving: dict[str, list[_Push]] = {name: [] for name in order}
    for push in pushes:
        leaving[push.start].append(push)
    least_ms = dict.fromkeys(order, 0)
    by: dict[str, _Push] = {}
    queue, queued = deque(order), set(order)
    steps, bound = 0, _STEPS_EACH * (len(order) + len(pushes))
    while queue and steps < bound:
        name = queue.popleft()
        queued.discard(name)
        for push in leaving[name]:
            if least_ms[name] + push.by_ms <= least_ms[push.to]:
                continue
            least_ms[push.to] = least_ms[name] + push.by_ms
            by[push.to] = push
            steps += 1
            if steps % len(order) == 0 and (circle := _circle(by)):
                return circle
            if push.to not in queued:
                queue.append(push.to)
                queued.add(push.to)
    return _circle(by)


def _circle(by: dict[str, _Push]) -> list[_Push] | None:
    """A circle among the last pushes that each event got, if there is one."""
    seen: dict[str, str] = {}
    for start in by:
        name = start
        while name in by and name not in seen:
            seen[name] = start
            name = by[name].start
        if name in by and seen.get(name) == start:
            circle = [by[name]]
            while circle[-1].start != name:
                circle.append(by[circle[-1].start])
            return circle[::-1]
    return None
