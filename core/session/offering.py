"""A plan whose file has changed while the board runs: offered in a line, never taken silently."""

from collections.abc import Set
from dataclasses import dataclass

from core.board.model import Said, Tone
from core.board.scene import Scene
from core.board.standing import is_automatic
from core.entries.model import Entry, TakePlan
from core.errors import PlanProblems
from core.plan.model import Plan
from core.session.ground import SkiesFor, make_ready
from core.session.previews import told_moves


@dataclass(frozen=True, slots=True)
class Offer:
    """The plan that waits to be taken over, and what the window says of the file."""

    plan: Plan | None = None
    said: tuple[Said, ...] = ()
    trouble: str = ""
    """Why the file cannot be taken over."""


def offer(found: Plan | PlanProblems, scene: Scene, now_ms: int, skies_for: SkiesFor) -> Offer:
    """What the file on disk comes to. Problems leave the last good plan on the board."""
    if isinstance(found, PlanProblems):
        return _troubled(found)
    plan = make_ready(found, skies_for).plan
    if plan == scene.plan:
        return Offer()
    effect = scene.schedule.preview(Entry(0, now_ms, "plan", TakePlan(plan)), now_ms)
    count = len(told_moves(effect, scene))
    others = _changed(scene.plan, plan, {move.event for move in effect.moves})
    also = f", {others} more {'is' if others == 1 else 'are'} changed" if others else ""
    words = f"Plan changed on disk: {count} would move{also}. Type plan to take it over"
    return Offer(plan, (Said(words, Tone.CHANGE),))


def _changed(old: Plan, new: Plan, moved: Set[str]) -> int:
    """How many events that do not move are new, gone, or written otherwise."""
    before = {event.id: event for event in old.events if not is_automatic(event)}
    after = {event.id: event for event in new.events if not is_automatic(event)}
    every = before.keys() | after.keys()
    return sum(before.get(name) != after.get(name) for name in every - moved)


def _troubled(found: PlanProblems) -> Offer:
    count = len(found.problems)
    words = f"The plan on disk has {count} problem{'' if count == 1 else 's'}"
    last_good = "the board keeps the last good one"
    said = Said(f"{words}; {last_good}. First: {found.problems[0]}", Tone.CLASH)
    return Offer(None, (said,), f"{words}: {found.problems[0]}")
