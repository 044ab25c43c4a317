"""How late 'now' is typed on a lane: path and reaction, by the edges heard and typed on it.

Each loss and return that was typed with 'now' lies so long after its computed edge. What is told
of it is an offer: the desk's own line sets it, nothing else does.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from core.entries.at_desk import at_desk
from core.entries.model import Action, Entry, Happened, Observe, Shut
from core.entries.words import plain
from core.plan.model import Change, Lane
from core.signal.model import Computed
from core.signal.stretches import shut_times
from core.times.writing import SECOND_MS, short_duration_words

FEWEST, LAST = 3, 7
"""So many edges there have to be, and so many of the last count."""

_VAGUE_MS = 15_000
"""An edge less certain than this tells nothing of the ear."""
_WRONG_MS = 60_000
"""Further off than this it is the edge that is wrong, not the ear."""
_WORTH_MS = 2_000
"""Less than this is not worth a line."""

_ON = "now on "
_BY_EAR = re.compile(r"\bnow\b(?!\s*-)")

ComputedAt = Callable[[str], Computed | None]
"""What the courses alone say of an edge, by its id."""


@dataclass(frozen=True, slots=True)
class Lateness:
    """From a lane's computed edges to the first Enter, and how far apart those that count lie."""

    late_ms: int
    spread_ms: int
    count: int


def lateness(
    entries: Sequence[Entry], lanes: Iterable[Lane], computed: ComputedAt
) -> dict[str, Lateness]:
    """By lane, where whoever is at the desk has typed enough edges by ear.

    `entries` are those that stand. What another typed tells nothing of this one's ear.
    """
    who = at_desk(entries)
    shuts = [entry.action for entry in entries if isinstance(entry.action, Shut)]
    shut = {lane.id: shut_times(lane.id, shuts) for lane in lanes}
    mute = {lane.id for lane in lanes if lane.first_words_ms}
    found: dict[str, list[int]] = {}
    for entry, edge in _typed_last(entries).values():
        known = computed(edge) if entry.by == who else None
        if known is None or not _is_heard(entry.action, entry.typed, known, mute):
            continue
        late_ms = entry.at_ms - known.time_ms
        closed = any(a <= known.time_ms < b or a <= entry.at_ms < b for a, b in shut[known.lane])
        if not closed and abs(late_ms) <= _WRONG_MS:
            found.setdefault(known.lane, []).append(late_ms)
    return {
        lane: _of(lates[-LAST:]) for lane, lates in found.items() if len(lates[-LAST:]) >= FEWEST
    }


def _typed_last(entries: Iterable[Entry]) -> dict[str, tuple[Entry, str]]:
    """The entry that stands for each edge, in the order of typing, where it was typed by ear."""
    found: dict[str, tuple[Entry, str]] = {}
    for entry in entries:
        if not isinstance(entry.action, Observe | Happened) or not entry.action.edge:
            continue
        found.pop(entry.action.edge, None)  # typed again, it corrects what was heard before
        if is_by_ear(entry.typed):
            found[entry.action.edge] = (entry, entry.action.edge)
    return found


def is_by_ear(typed: str) -> bool:
    """Whether a line says now, and does not itself take some seconds off."""
    return _BY_EAR.search(plain(typed).casefold()) is not None


def _is_heard(action: Action, typed: str, known: Computed, mute: Iterable[str]) -> bool:
    """Whether the edge itself was heard, on its lane, and lies where one can tell.

    A return with first words is heard only with them, some while after it.
    """
    if isinstance(action, Happened) and not _is_on(action, typed, known.lane):
        return False
    silent = known.change is Change.BACK and known.lane in mute
    return not silent and known.give_ms <= _VAGUE_MS


def _is_on(action: Happened, typed: str, lane: str) -> bool:
    """Whether an event was heard on that lane: of one without a delay nothing else was kept."""
    if action.heard_on:
        return action.heard_on == lane
    return _ON not in plain(typed).casefold()


def _of(lates_ms: Sequence[int]) -> Lateness:
    middle_ms = round(median(lates_ms))
    spread_ms = round(median(abs(late - middle_ms) for late in lates_ms))
    return Lateness(middle_ms, spread_ms, len(lates_ms))


def offers(
    found: Mapping[str, Lateness], lanes: Iterable[Lane], delays_ms: Mapping[str, int]
) -> dict[str, str]:
    """By lane the line that offers to take it off, where that is worth it.

    `delays_ms` is by lane what the desk takes off by now, where that is not the plan's.
    """
    told = (
        (lane, _offer(lane, found[lane.id], delays_ms.get(lane.id, lane.delay_ms)))
        for lane in lanes
        if lane.id in found
    )
    return {lane.id: words for lane, words in told if words}


def _offer(lane: Lane, found: Lateness, delay_ms: int) -> str:
    """'Your now is about 6 s late on picture (± 2 s, the last 5); 'picture delay 15s' …'."""
    whole_ms = max(0, round(found.late_ms / SECOND_MS)) * SECOND_MS
    by_ms = whole_ms - delay_ms
    if abs(by_ms) < max(_WORTH_MS, found.spread_ms):
        return ""
    by = short_duration_words(abs(by_ms))
    how = f"about {by} late on" if by_ms > 0 else f"put about {by} too early on"
    spread = short_duration_words(-(-max(found.spread_ms, 1) // SECOND_MS) * SECOND_MS)
    name = lane.name.lower() if lane.name.isupper() else lane.name
    typed = f"'{lane.id} delay {whole_ms // SECOND_MS}s'"
    does = "takes it off" if by_ms > 0 else "mends it"
    return f"Your now is {how} {name} (± {spread}, the last {found.count}); {typed} {does}"
