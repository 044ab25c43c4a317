"""While away: what has changed between somebody's leaving and coming back."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.board.scene import Scene
from core.board.standing import is_automatic
from core.board.telling.namings import list_words, named, short_name
from core.entries.airing import LeaveAir, MarkSaid, TakeAir
from core.entries.at_desk import turns
from core.entries.model import Choose, Entry, Hold, Pin, Revise, Scrub
from core.saying.audience import Audience
from core.saying.outcomes import confirmed
from core.saying.rejoining import rejoining
from core.saying.situations import Moved, WhileAway
from core.saying.sources import is_named, spoken_source
from core.times.writing import MINUTE_MS, apart_ms

TimesAt = Callable[[int], Mapping[str, int | None]]
"""When each event was expected, as the board had it at an instant."""

SHOWN_MS = 5 * MINUTE_MS
"""So long after somebody has come back the line stands, unless it is said."""


_FEW = 3


@dataclass(frozen=True, slots=True)
class Back:
    """Somebody is back at `at_ms`, away since then. `left`: it is we who had left."""

    at_ms: int
    since_ms: int
    left: bool


def back_at(scene: Scene, entries: Sequence[Entry], now_ms: int) -> Back | None:
    """Who has come back last, while that is news."""
    handed = handed_back(entries)
    backs = [*_ours(entries), *_junctions(scene), *([] if handed is None else [handed])]
    fresh = [back for back in backs if back.at_ms <= now_ms < back.at_ms + SHOWN_MS]
    return max(fresh, key=lambda back: back.at_ms, default=None)


def handed_back(entries: Sequence[Entry]) -> Back | None:
    """When whoever is at the desk has taken it again, if they had left it for a while."""
    found = turns(entries)
    if not found or found[-1].until_ms is not None:
        return None
    here, earlier = found[-1], reversed(found[:-1])
    left_ms = next((turn.until_ms for turn in earlier if turn.who == here.who), None)
    if left_ms is None or here.from_ms - left_ms < MINUTE_MS:
        return None
    return Back(here.from_ms, left_ms, left=True)


def _ours(entries: Sequence[Entry]) -> list[Back]:
    """Each time we took the air again after the network had it."""
    found, left_ms = [], None
    for entry in entries:
        match entry.action:
            case LeaveAir(at_ms):
                left_ms = at_ms
            case TakeAir(at_ms) if left_ms is not None:
                found.append(Back(at_ms, left_ms, left=True))
                left_ms = None
    return found


def _junctions(scene: Scene) -> list[Back]:
    """Each junction since the one before it, the first since the programme began."""
    times = sorted(junction.at_ms for junction in scene.plan.junctions)
    air = scene.plan.air
    begins = [air.on_ms] if air is not None and air.on_ms is not None else []
    ends = [*begins, *times]
    return [Back(at, since, left=False) for since, at in pairwise(ends)]


def away_line(
    scene: Scene,
    entries: Sequence[Entry],
    back: Back,
    before: Mapping[str, int | None],
    audience: Audience,
) -> str:
    """The line, empty once it has been said."""
    moved, along = _moved(scene, before, entries, back.since_ms)
    away = WhileAway(
        None if back.left else back.since_ms,
        moved,
        along,
        _happened(scene, back.since_ms),
        _other(scene, entries, back.since_ms),
    )
    line = rejoining(away, audience)
    since = line.partition(":")[0]
    said = (
        entry.action.text.startswith(since)
        for entry in entries
        if isinstance(entry.action, MarkSaid) and entry.at_ms >= back.at_ms
    )
    return "" if any(said) else line


def _moved(
    scene: Scene, before: Mapping[str, int | None], entries: Sequence[Entry], since_ms: int
) -> tuple[tuple[Moved, ...], int]:
    """What moved by a word given for it, and how many more moved along.

    All of them are named where they are few and moved alike; what has happened is told on its own.
    """
    happened = scene.schedule.happened
    by_ms: dict[str, int] = {}
    for name in scene.order:
        old_ms, new_ms = before.get(name), scene.brief(name).expected_ms
        if old_ms is not None and new_ms is not None and name not in happened:
            by_ms[name] = 0 if is_automatic(scene.event(name)) else apart_ms(new_ms, old_ms)
    moved = [name for name, by in by_ms.items() if by]
    alike = len({by_ms[name] for name in moved}) == 1 and len(moved) <= _FEW
    actions = [entry.action for entry in _since(entries, since_ms)]
    given = {a.event for a in actions if isinstance(a, (Revise, Pin)) and a.event in moved}
    told = moved if alike or not moved else [n for n in moved if n in given] or moved[:1]
    groups: dict[int, list[str]] = {}
    for name in told:
        groups.setdefault(by_ms[name], []).append(list_words(scene, name))
    return tuple(Moved(tuple(n), by) for by, n in groups.items()), len(moved) - len(told)


def _since(entries: Sequence[Entry], since_ms: int) -> list[Entry]:
    return [entry for entry in entries if entry.at_ms > since_ms]


def _happened(scene: Scene, since_ms: int) -> tuple[str, ...]:
    """What has happened since: live moments first, then what the plan has words for."""
    names = [
        name
        for name, at_ms in zip(scene.order, scene.times_ms, strict=True)
        if name in scene.schedule.happened and at_ms > since_ms
    ]
    names.sort(key=lambda name: (not scene.event(name).live, not scene.event(name).say))
    return tuple(list_words(scene, name) for name in names)


def _words(scene: Scene, event: str) -> str:
    return named(scene, event).words if event in scene.known else short_name(scene, event)


def _other(scene: Scene, entries: Sequence[Entry], since_ms: int) -> tuple[str, ...]:
    """What was called off, held or named since."""
    found = []
    for entry in _since(entries, since_ms):
        match entry.action:
            case Scrub(event):
                found.append(f"{_words(scene, event)} is called off")
            case Hold(event) if event in scene.held:
                found.append(f"the count to {named(scene, event).words} is holding")
            case Choose(outcome) if is_named(entry.source):
                name = scene.outcome_name(outcome)
                found.append(f"{spoken_source(entry.source)} confirms{confirmed(name)}")
    return tuple(found)
