"""A count that is held, and goes on again."""

from dataclasses import replace

from core.entries.model import Hold, Resume
from core.schedule.shape import followers
from core.schedule.standing import Held, Standing, pinned
from core.schedule.works import Works


def hold(standing: Standing, action: Hold, number: int, works: Works) -> dict[str, Held]:
    """Who is held, and with what left: the event and all of its count still to come.

    The count is what is tied before it and neither pinned nor on an edge of the signal, has not
    happened, and is not due.
    """
    held = {action.event: Held(action.event, action.at_ms, action.left_ms, number)}
    time_ms = works.time_ms(action.event)
    late_ms = 0
    if time_ms is not None and time_ms > action.at_ms:
        late_ms = action.left_ms - (time_ms - action.at_ms)
    for name in count_of(action.event, standing, works):
        its_ms = works.time_ms(name)
        if its_ms is not None and its_ms > action.at_ms:
            left_ms = max(0, its_ms - action.at_ms + late_ms)
            held[name] = Held(action.event, action.at_ms, left_ms, number)
    return held


def count_of(event: str, standing: Standing, works: Works) -> list[str]:
    """What is tied before an event, up to what has happened or has its time by the clock."""
    events, gone, ties = works.shape.events, works.shape.gone, works.shape.ties
    found: list[str] = []
    seen = {event}
    stack = [event]
    while stack:
        for tie in ties[stack.pop()]:
            name = tie.event
            if name in seen or name not in events or name in gone:
                continue
            seen.add(name)
            by_clock = events[name].edge is not None or pinned(events[name], standing)
            if name not in standing.facts and not by_clock:
                found.append(name)
                stack.append(name)
    return found


def resume(standing: Standing, action: Resume, number: int) -> dict[str, Held]:
    """The holds when the count of an event goes on."""
    main = standing.holds[action.event].main
    return {
        name: Held(h.main, h.at_ms, h.left_ms, h.number, action.at_ms, number)
        if h.main == main
        else h
        for name, h in standing.holds.items()
    }


def over(standing: Standing, event: str) -> dict[str, Held]:
    """The holds when an event has happened or is called off: its own count is no longer held."""
    return {name: held for name, held in standing.holds.items() if event not in (name, held.main)}


def overtaken(standing: Standing, event: str, time_ms: int, works: Works) -> dict[str, Held]:
    """The holds when an event gets a newer time: its count, if it went on, is what was said before.

    Those of the same count that are tied after it come forward with it, all but the one that was
    named: what was left on theirs came of its hold. A count that is still held stays so.
    """
    own = standing.holds.get(event)
    if own is None or own.resumed_ms is None:
        return dict(standing.holds)
    was_ms = works.time_ms(event)
    by_ms = 0 if was_ms is None else min(0, time_ms - was_ms)
    later = _after(event, own, standing, works) if by_ms else frozenset[str]()
    return {
        name: replace(held, left_ms=held.left_ms + by_ms) if name in later else held
        for name, held in standing.holds.items()
        if name != event
    }


def _after(event: str, own: Held, standing: Standing, works: Works) -> frozenset[str]:
    """Those of the event's count that are tied after it, without the one that was named."""
    tied = followers(works.shape.ties)
    found: set[str] = set()
    stack = [event]
    while stack:
        for name in tied.get(stack.pop(), ()):
            held = standing.holds.get(name)
            if held is None or held.main != own.main or name in (own.main, *found):
                continue
            found.add(name)
            stack.append(name)
    return frozenset(found)
