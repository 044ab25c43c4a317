"""An event called off, and what becomes of those tied to it; and brought back."""

from dataclasses import replace

from core.entries.model import Scrub, Way
from core.schedule.hold import over
from core.schedule.model import State
from core.schedule.shape import called_off_with, followers
from core.schedule.standing import Scrubbed, Standing, stands
from core.schedule.works import Works


def scrub(standing: Standing, action: Scrub, works: Works) -> Standing:
    """What stands when the event is called off that way."""
    return replace(
        standing,
        scrubs=(*standing.scrubs, Scrubbed(action.event, action.way, _kept(action, works))),
        back=standing.back - {action.event},
        holds=over(standing, action.event),
        figures={k: v for k, v in standing.figures.items() if k != action.event},
    )


def restore(standing: Standing, event: str) -> Standing:
    """What stands when an event that was called off gets a time again."""
    if any(scrubbed.event == event for scrubbed in standing.scrubs):
        left = tuple(s for s in standing.scrubs if s.event != event)
        return replace(standing, scrubs=left)
    return replace(standing, back=standing.back | {event})


def goes_with(event: str, works: Works) -> tuple[str, ...]:
    """Those that would be called off with an event and its followers."""
    shape = works.shape
    going = called_off_with(event, shape.events, shape.ties, works.standing)
    return tuple(name for name in going if name not in shape.gone)


def _kept(action: Scrub, works: Works) -> dict[str, int]:
    """The present times at which followers stay.

    Bridged across a gap with nothing before it, they stay too.
    """
    shape = works.shape
    if action.way is Way.WITH or (action.way is Way.BRIDGE and shape.ties[action.event]):
        return {}
    kept: dict[str, int] = {}
    for name in followers(shape.ties).get(action.event, ()):
        time_ms = works.time_ms(name)
        by_itself = stands(shape.events[name], works.standing)
        if time_ms is not None and not by_itself:
            kept[name] = time_ms
    return kept


def is_off(event: str, works: Works) -> bool:
    """Whether an event is called off."""
    return works.shape.gone.get(event) is State.SCRUBBED
