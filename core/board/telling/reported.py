"""Situations that somebody has reported: a hold, a scrub, an outcome, the last confirmed word."""

from collections.abc import Sequence

from core.board.scene import Scene
from core.board.telling.namings import named, short_name
from core.entries.model import (
    Add,
    Choose,
    Entry,
    Happened,
    Hold,
    Note,
    Observe,
    Scrub,
)
from core.saying.numbers import capital
from core.saying.outcomes import confirmed
from core.saying.situations import CalledOff, Held, LastWord, OutcomeNamed
from core.saying.sources import is_named
from core.schedule.model import State
from core.times.writing import MINUTE_MS, floor_second_ms

REPORTS = (Add, Choose, Hold, Scrub)
"""What a situation of the moment may come of; a last word may be any entry's."""
_SCRUB_FOR_MS = 15 * MINUTE_MS
_OUTCOME_FOR_MS = 4 * MINUTE_MS


def held(scene: Scene, entries: Sequence[Entry]) -> Held | None:
    """The count that was held last and stands still."""
    for entry in reversed(entries):
        action = entry.action
        if not isinstance(action, Hold) or action.event not in scene.held:
            continue
        event, brief = scene.event(action.event), scene.brief(action.event)
        return Held(
            named(scene, action.event),
            floor_second_ms(brief.left_ms or 0),
            floor_second_ms(action.at_ms),
            launch=action.event == scene.plan.elapsed_from,
            limit_ms=event.window.not_after_ms if event.window is not None else None,
        )
    return None


def called_off(scene: Scene, entries: Sequence[Entry], now_ms: int) -> CalledOff | None:
    """What was called off last, and an attempt added since that has its name."""
    for place in range(len(entries) - 1, -1, -1):
        entry = entries[place]
        action = entry.action
        if not isinstance(action, Scrub) or action.event not in scene.known:
            continue
        off = scene.brief(action.event).state is State.SCRUBBED
        if not off or now_ms - entry.at_ms >= _SCRUB_FOR_MS:
            continue
        again = _attempt(scene, action.event, entries[place + 1 :])
        again_ms = scene.schedule.expected_ms(again) if again else None
        return CalledOff(
            named(scene, action.event),
            floor_second_ms(entry.at_ms),
            entry.source,
            launch=action.event == scene.plan.elapsed_from,
            again=again,
            again_ms=None if again_ms is None else floor_second_ms(again_ms),
        )
    return None


def _attempt(scene: Scene, event_id: str, later: Sequence[Entry]) -> str:
    """The event a source has added since under the same name: 'Liftoff, second attempt'."""
    name = scene.event(event_id).name.casefold()
    for entry in reversed(later):
        if isinstance(entry.action, Add) and is_named(entry.source):
            added = entry.action.event
            if name in added.name.casefold() and added.id in scene.known:
                return added.id
    return ""


def outcome_named(scene: Scene, entries: Sequence[Entry], now_ms: int) -> OutcomeNamed | None:
    """The outcome a source has named last, as long as that is news."""
    chosen = scene.schedule.chosen
    for entry in reversed(entries):
        if not isinstance(entry.action, Choose) or now_ms - entry.at_ms >= _OUTCOME_FOR_MS:
            continue
        outcome = entry.action.outcome
        of = next((o.of for o in scene.plan.outcomes if o.id == outcome), "")
        if chosen.get(of) == outcome and is_named(entry.source):
            name = scene.outcome_name(outcome)
            return OutcomeNamed(of, name, entry.source, floor_second_ms(entry.at_ms))
    return None


def last_word(scene: Scene, entries: Sequence[Entry]) -> LastWord | None:
    """The last that a named source has told: its words where they were noted, else what it was."""
    for entry in reversed(entries):
        if not is_named(entry.source):
            continue
        text = _confirmed(scene, entry)
        if text:
            quoted = isinstance(entry.action, Note)
            return LastWord(text, entry.source, floor_second_ms(entry.at_ms), quoted)
    return None


def _confirmed(scene: Scene, entry: Entry) -> str:
    match entry.action:
        case Note(text):
            return capital(text if text.endswith((".", "!", "?")) else f"{text}.")
        case Happened(event):
            return short_name(scene, event)
        case Choose(outcome):
            name = confirmed(scene.outcome_name(outcome)).removeprefix(":").strip()
            return f"{name}, confirmed"
        case Observe(lane, change):
            return f"{lane} {change.value}"
        case Scrub(event):
            return f"{short_name(scene, event)} called off"
    return ""
