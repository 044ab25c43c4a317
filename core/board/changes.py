"""The change against the plan: said once where it is the same for all, else on the cards."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from core.board.model import Said, Tone
from core.board.scene import Scene
from core.board.words import listed
from core.plan.model import Event
from core.times.writing import apart_ms, difference_words

_SHARE = 0.6
"""So large a part of what is to come must run alike before it is said for all."""
_FIRST = 8
"""The same part of so many that come first: a day later is not what the audience sees next."""
_NAMED = 3


@dataclass(frozen=True, slots=True)
class Against:
    """How what is to come runs against the plan: `common_ms` is said once, for all but some."""

    common_ms: int
    words: Said


def change_ms(scene: Scene, event_id: str) -> int | None:
    """By how much the event differs from the plan, as shown; None where one of both is missing."""
    schedule = scene.schedule
    planned_ms, expected_ms = schedule.planned_ms(event_id), schedule.expected_ms(event_id)
    if planned_ms is None or expected_ms is None or event_id in scene.held:
        return None
    return apart_ms(expected_ms, planned_ms)


def against_plan(scene: Scene, ids: list[str], *, overdue: bool = False) -> Against:
    """What is said once of the events still to come; `ids` in the order of the cards.

    `overdue`: some that should have happened are not confirmed, so that not all is as planned.
    """
    planned_ms, held = scene.roll.planned_ms, scene.held
    # The scene has each expected time already, floored as it is shown.
    times_ms = dict(zip(scene.order, scene.times_ms, strict=True))
    known = {
        name: times_ms[name] - planned_ms[name]
        for name in ids
        if name in times_ms and name in planned_ms and name not in held
    }
    if not known:
        return Against(0, Said(""))
    changes = list(known.values())
    common_ms = Counter(changes).most_common(1)[0][0]
    if not common_ms or not _is_common(common_ms, changes):
        words = "" if any(changes) else _unchanged(scene, times_ms, overdue=overdue)
        return Against(0, Said(words, Tone.QUIET))
    others = [scene.event(name).name for name, by in known.items() if by != common_ms]
    words = f"{_who(others)} {difference_words(common_ms)} than the flight plan."
    return Against(common_ms, Said(words, Tone.CHANGE))


def _is_common(common_ms: int, changes: list[int]) -> bool:
    """Whether it may be said for all: of all that is to come, and of what comes first."""
    shares = (changes, changes[:_FIRST])
    return len(changes) > 1 and all(part.count(common_ms) >= _SHARE * len(part) for part in shares)


def _unchanged(scene: Scene, times_ms: Mapping[str, int], *, overdue: bool) -> str:
    """What is said where nothing to come has another time: no more than is so."""
    if overdue:
        return "Nothing to come has a new time."
    automatic, planned = scene.roll.automatic, scene.roll.planned_ms
    if any(name not in times_ms and name not in automatic for name in planned):
        return "What still comes is as in the flight plan."
    return "All that is to come is as in the flight plan."


def _who(others: list[str]) -> str:
    if not others:
        return "All that is to come runs"
    if len(others) > _NAMED:
        return "Most of what is to come runs"
    return f"All but {listed(others)} run"


def change_words(event: Event, by_ms: int | None, common_ms: int) -> Said:
    """What a card says of its own change: nothing where it is as said for all."""
    if by_ms is None or by_ms == common_ms:
        return Said("")
    if by_ms:
        return Said(difference_words(by_ms), Tone.CHANGE)
    return Said("stays" if event.pinned else "as planned", Tone.QUIET)
