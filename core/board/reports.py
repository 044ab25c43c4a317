"""What the desk has entered that changes no time, as cards and CONTACT tell of it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from core.entries.airing import Count, LaneDelay, PictureClock
from core.entries.model import Entry, Happened, Observe


@dataclass(frozen=True, slots=True)
class Reports:
    """The last word on each check-off and each picture's clock, and what was heard later.

    `heard_ms` is by edge of the signal, or by event where that is none: when it was heard at the
    desk, where a lane's delay was taken off its time. `delays_ms` is by lane, where the desk has
    found another delay than the plan's.
    """

    counts: Mapping[str, Count] = field(default_factory=dict)
    clocks: Mapping[str, PictureClock] = field(default_factory=dict)
    heard_ms: Mapping[str, int] = field(default_factory=dict)
    delays_ms: Mapping[str, int] = field(default_factory=dict)


NO_REPORTS = Reports()


def reports(entries: Iterable[Entry]) -> Reports:
    """What these entries say, which are those that stand, in their order."""
    counts: dict[str, Count] = {}
    clocks: dict[str, PictureClock] = {}
    heard_ms: dict[str, int] = {}
    delays_ms: dict[str, int] = {}
    for action in (entry.action for entry in entries):
        match action:
            case Count(checkoff):
                counts[checkoff] = action
            case PictureClock(lane):
                clocks[lane] = action
            case LaneDelay(lane, delay_ms):
                delays_ms[lane] = delay_ms
            case Happened() | Observe():
                of = action.edge or (action.event if isinstance(action, Happened) else "")
                heard_ms.pop(of, None)  # typed again, it corrects what was heard before
                if action.heard_ms is not None:
                    heard_ms[of] = action.heard_ms
            case _:
                pass
    return Reports(counts, clocks, heard_ms, delays_ms)
