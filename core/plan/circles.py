"""What waits for itself: ties, edges of the signal, courses and blackouts in a circle."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.plan.driving import drivers, has_place
from core.plan.model import CourseKind, Event, Plan

MOST_TOLD = 20


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle: its path, first and last the same; and one event on it."""

    what: str
    event: str
    path: tuple[str, ...]


def circles(plan: Plan) -> tuple[Circle, ...]:
    """The circles in what waits for what, at most twenty; none in a good plan.

    An event waits for what it is tied to. An edge waits for the event it is counted from, and for
    every course and blackout of its lane; these wait for the events they follow or are bound by.
    An event under an outcome waits for the event that decides it.
    """
    place = {event.id: at for at, event in enumerate(plan.events)}
    return tuple(_told(loop, place) for loop in _loops(_needs(plan)))


def _told(loop: tuple[str, ...], place: Mapping[str, int]) -> Circle:
    """The circle from that of its events on which the file names first."""
    first = min(loop, key=lambda name: place.get(name, len(place)))
    at = loop.index(first)
    path = (*loop[at:], *loop[:at], first)
    ties_only = all(name in place for name in loop)
    return Circle("ties go" if ties_only else "what waits for what goes", first, path)


def in_order(plan: Plan) -> tuple[str, ...]:
    """The events in an order in which each stands after all it is tied to.

    Only for a plan without circles; of one with some, what is on a circle is left out.
    """
    waiting: dict[str, int] = {}
    followers: dict[str, list[str]] = {event.id: [] for event in plan.events}
    for event in plan.events:
        before = [tie.event for tie in event.ties if tie.event in followers]
        waiting[event.id] = len(before)
        for name in before:
            followers[name].append(event.id)
    ready = [name for name, count in waiting.items() if not count]
    for name in ready:
        for follower in followers[name]:
            waiting[follower] -= 1
            if not waiting[follower]:
                ready.append(follower)
    return tuple(ready)


def _needs(plan: Plan) -> dict[str, tuple[str, ...]]:
    needs: dict[str, tuple[str, ...]] = {}
    lanes: dict[str, list[str]] = {}
    placed = {lane: None for ground in plan.grounds if has_place(ground) for lane in ground.lanes}
    for course in plan.courses:
        node = f"course {course.id}"
        needs[node] = drivers(course)
        printed = course.kind is CourseKind.PASSES
        for lane in dict.fromkeys(row.lane for row in course.rows) if printed else placed:
            lanes.setdefault(lane, []).append(node)
    for blackout in plan.blackouts:
        node = f"blackout after {blackout.after}"
        needs[node] = (blackout.after,)
        for lane in blackout.lanes:
            lanes.setdefault(lane, []).append(node)
    for outcome in plan.outcomes:
        needs[f"outcome {outcome.id}"] = (outcome.of,)
    return {event.id: _of_event(event, lanes) for event in plan.events} | needs


def _of_event(event: Event, lanes: Mapping[str, list[str]]) -> tuple[str, ...]:
    needs = [tie.event for tie in event.ties]
    if event.only_if is not None:
        needs.append(f"outcome {event.only_if}")
    if (edge := event.edge) is not None:
        needs += [name for name in (edge.after, edge.before) if name is not None]
        needs += lanes.get(edge.lane, ())
    return tuple(dict.fromkeys(needs))


def _loops(needs: Mapping[str, tuple[str, ...]]) -> list[tuple[str, ...]]:
    """One circle for each step back into what is still open, without recursion."""
    found: list[tuple[str, ...]] = []
    done: set[str] = set()
    for start in needs:
        path: list[str] = []
        place: dict[str, int] = {}
        stack: list[tuple[str, int]] = [(start, 0)] if start not in done else []
        while stack and len(found) < MOST_TOLD:
            name, at = stack.pop()
            if at == 0:
                place[name] = len(path)
                path.append(name)
            if at == len(needs.get(name, ())):
                done.add(name)
                del place[path.pop()]
                continue
            stack.append((name, at + 1))
            following = needs[name][at]
            if following in place:
                found.append(tuple(path[place[following] :]))
            elif following not in done and following in needs:
                stack.append((following, 0))
    return found
