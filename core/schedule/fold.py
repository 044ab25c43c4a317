"""One entry folded into what stands: which events it speaks of, and whether the shape changes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from core.entries.model import (
    Add,
    Choose,
    Entry,
    Free,
    Give,
    Happened,
    Hold,
    Observe,
    Pin,
    Replan,
    Resume,
    Revise,
    Scrub,
    TakePlan,
    Undecide,
)
from core.errors import EntryRefused
from core.plan.model import Event, Plan
from core.schedule import hold, scrub
from core.schedule.standing import Held, Standing, Word, pin_of_plan, without
from core.schedule.works import Works


@dataclass(frozen=True, slots=True)
class Folded:
    """What stands after an entry.

    `touched` are the events whose own bounds may have changed, `typed` the one the entry is
    about. `reshaped`: which events are there, or what they are tied to, may have changed.
    `insists`: a fact, which needs no second Enter. `tells`: the signal must hear of it. `idle`: it
    says nothing of any event, and moves no time.
    """

    standing: Standing
    typed: str = ""
    touched: tuple[str, ...] = ()
    reshaped: bool = False
    insists: bool = False
    tells: bool = False
    idle: bool = False
    asks: str = ""
    notes: tuple[str, ...] = ()


def fold(entry: Entry, works: Works) -> Folded:
    """What stands once the entry is taken. Raises EntryRefused where it cannot be."""
    standing = works.standing
    standing = replace(standing, entries=(*standing.entries, entry))
    return (
        _fold_time(standing, entry, works)
        or _fold_count(standing, entry, works)
        or _fold_plan(standing, entry, works)
        or Folded(standing, idle=True)
    )


def _fold_time(standing: Standing, entry: Entry, works: Works) -> Folded | None:
    """An entry that says when an event is."""
    number = entry.number
    match entry.action:
        case Revise(time_ms=time_ms):
            return _revise(standing, entry.action, Word(time_ms, number, entry.forced), works)
        case Happened(event, time_ms):
            _known(event, works)
            return _happened(standing, event, Word(time_ms, number), works)
        case Pin(event, time_ms):
            return _pin(standing, event, Word(time_ms, number, entry.forced), works)
        case Free(event):
            return _free(standing, event, works, forced=entry.forced)
        case Observe():
            return _observe(standing, entry.action, number, works)
        case _:
            return None


def _fold_count(standing: Standing, entry: Entry, works: Works) -> Folded | None:
    """An entry about a count, a call-off or an outcome."""
    match entry.action:
        case Hold():
            return _hold(standing, entry.action, entry.number, works)
        case Resume():
            return _resume(standing, entry.action, entry.number, works)
        case Scrub():
            return _scrub(standing, entry.action, works)
        case Choose(outcome) | Undecide(outcome):
            return _choose(standing, outcome, chosen=isinstance(entry.action, Choose))
        case _:
            return None


def _fold_plan(standing: Standing, entry: Entry, works: Works) -> Folded | None:
    """An entry that changes what is on the plan, or what is known of it."""
    match entry.action:
        case Give(event, give_ms):
            _known(event, works)
            return Folded(replace(standing, gives={**standing.gives, event: give_ms}), event)
        case Add(event):
            return _add(standing, event, works)
        case Replan():
            times = {name: works.time_ms(name) for name in works.shape.events}
            return Folded(replace(standing, replanned=times))
        case TakePlan(plan):
            return _take_plan(standing, plan, works)
        case _:
            return None


def _add(standing: Standing, event: Event, works: Works) -> Folded:
    if event.id in works.shape.events:
        raise EntryRefused(f"there is an event '{event.id}' already", "Give it another id")
    standing = replace(standing, added=(*standing.added, event))
    return Folded(standing, event.id, (), reshaped=True)


def _known(event: str, works: Works) -> None:
    if event not in works.shape.events:
        raise EntryRefused(f"there is no event '{event}' in the plan")


def _not_happened(event: str, standing: Standing, works: Works, verb: str) -> None:
    _known(event, works)
    if event in standing.facts:
        raise EntryRefused(
            f"'{works.event(event).name}' has happened, so it cannot be {verb}",
            f"Correct the fact: '{event} happened' and the time",
        )


def _restored(standing: Standing, event: str, works: Works) -> tuple[Standing, bool]:
    """An event that gets a time is there again; whether that changes the shape."""
    if scrub.is_off(event, works):
        return scrub.restore(standing, event), True
    return standing, event in works.shape.gone


def _on_edge(event: str, works: Works) -> bool:
    return works.event(event).edge is not None


def _revise(standing: Standing, action: Revise, word: Word, works: Works) -> Folded:
    event = action.event
    _not_happened(event, standing, works, "revised")
    standing, reshaped = _restored(standing, event, works)
    holds = standing.holds
    standing = replace(standing, holds=hold.overtaken(standing, event, word.time_ms, works))
    if event in standing.pins:
        standing = replace(standing, pins={**standing.pins, event: word})
    else:
        standing = replace(standing, figures={**standing.figures, event: word})
    if action.give_ms is not None:
        standing = replace(standing, gives={**standing.gives, event: action.give_ms})
    tells = bool(action.edge) or _on_edge(event, works)
    touched = (event, *_changed(holds, standing.holds))
    return Folded(standing, event, touched, reshaped=reshaped, tells=tells)


def _changed(before: Mapping[str, Held], after: Mapping[str, Held]) -> tuple[str, ...]:
    """Whose count has other figures now."""
    return tuple(name for name, held in after.items() if held != before.get(name))


def _happened(standing: Standing, event: str, word: Word, works: Works) -> Folded:
    standing, reshaped = _restored(standing, event, works)
    released = hold.over(standing, event)
    touched = (event, *(name for name in standing.holds if name not in released))
    standing = replace(
        standing,
        facts={**standing.facts, event: word},
        figures=without(standing.figures, event),
        holds=released,
    )
    return Folded(
        standing,
        event,
        touched,
        reshaped=reshaped,
        insists=True,
        tells=_on_edge(event, works),
    )


def _pin(standing: Standing, event: str, word: Word, works: Works) -> Folded:
    _not_happened(event, standing, works, "pinned")
    standing, reshaped = _restored(standing, event, works)
    holds = standing.holds
    standing = replace(
        standing,
        pins={**standing.pins, event: word},
        figures=without(standing.figures, event),
        holds=hold.overtaken(standing, event, word.time_ms, works),
    )
    touched = (event, *_changed(holds, standing.holds))
    return Folded(standing, event, touched, reshaped=reshaped, tells=_on_edge(event, works))


def _free(standing: Standing, event: str, works: Works, *, forced: bool) -> Folded:
    _not_happened(event, standing, works, "freed")
    if pin_of_plan(works.event(event), standing):
        if not forced:
            return Folded(standing, event, asks="the plan itself pins it")
        standing = replace(standing, freed=standing.freed | {event})
    standing = replace(
        standing,
        pins=without(standing.pins, event),
        figures=without(standing.figures, event),
    )
    return Folded(
        standing,
        event,
        (event,),
        reshaped=event in works.shape.gone,
        tells=_on_edge(event, works),
    )


def _hold(standing: Standing, action: Hold, number: int, works: Works) -> Folded:
    _not_happened(action.event, standing, works, "held")
    if action.event in works.shape.gone:
        raise EntryRefused(f"'{works.event(action.event).name}' has no time to hold")
    held = hold.hold(standing, action, number, works)
    standing = replace(standing, holds={**standing.holds, **held})
    notes = (
        *_told_of("held with it", [name for name in held if name != action.event], works),
        "what is tied after it slides, a second each second",
    )
    return Folded(standing, action.event, tuple(held), insists=True, notes=notes)


def _told_of(words: str, others: Sequence[str], works: Works) -> tuple[str, ...]:
    """Who else of the count stops or goes on."""
    if not others:
        return ()
    named = "; ".join(works.event(name).name for name in others)
    return (f"{words}: {named}",)


def _resume(standing: Standing, action: Resume, number: int, works: Works) -> Folded:
    _not_happened(action.event, standing, works, "resumed")
    if action.event not in standing.holds:
        raise EntryRefused(f"'{works.event(action.event).name}' is not held")
    holds = hold.resume(standing, action, number)
    touched = tuple(name for name, held in holds.items() if held != standing.holds[name])
    standing = replace(standing, holds=holds, figures=without(standing.figures, action.event))
    notes = _told_of("going on with it", [name for name in touched if name != action.event], works)
    return Folded(standing, action.event, touched, insists=True, notes=notes)


def _scrub(standing: Standing, action: Scrub, works: Works) -> Folded:
    _not_happened(action.event, standing, works, "called off")
    if scrub.is_off(action.event, works):
        raise EntryRefused(f"'{works.event(action.event).name}' is called off already")
    standing = scrub.scrub(standing, action, works)
    return Folded(standing, action.event, (), reshaped=True, insists=True)


def _choose(standing: Standing, outcome: str, *, chosen: bool) -> Folded:
    of = {o.id: o.of for o in standing.plan.outcomes}.get(outcome)
    if of is None:
        raise EntryRefused(f"there is no outcome '{outcome}' in the plan")
    named = without(standing.chosen, of)
    if chosen:
        named[of] = outcome
    standing = replace(standing, chosen=named)
    return Folded(standing, "", (), reshaped=True, insists=True, tells=True)


def _observe(standing: Standing, action: Observe, number: int, works: Works) -> Folded:
    """An edge observed is a fact for every event that stands for it now."""
    plain = Folded(standing, "", (), insists=True, tells=True)
    if not action.edge:
        return plain
    names = [
        name
        for name, found in works.lookups.found.items()
        if found.edge == action.edge and name not in works.shape.gone
    ]
    for name in names:
        done = _happened(plain.standing, name, Word(action.time_ms, number), works)
        plain = replace(
            done,
            typed=plain.typed or name,
            touched=plain.touched + done.touched,
            tells=True,
            reshaped=plain.reshaped or done.reshaped,
        )
    return plain


def _take_plan(standing: Standing, plan: Plan, works: Works) -> Folded:
    """The new plan, with all that was said so far; what was said of vanished events is kept."""
    there = {event.id for event in (*plan.events, *standing.added)}
    said = _said_of(standing)
    notes = tuple(
        f"what was typed on '{_name(event, works)}' is kept: the plan no longer has it"
        for event in said
        if event not in there
    )
    typed_facts = {name: word for name, word in standing.facts.items() if word.number}
    standing = replace(
        standing,
        plan=plan,
        facts={**facts_of(plan), **typed_facts},
        replanned={},
        added=tuple(e for e in standing.added if e.id not in {p.id for p in plan.events}),
    )
    return Folded(standing, "", (), reshaped=True, tells=True, notes=notes)


def facts_of(plan: Plan) -> dict[str, Word]:
    """What the plan itself says has happened."""
    return {e.id: Word(e.happened_ms, 0) for e in plan.events if e.happened_ms is not None}


def _said_of(standing: Standing) -> list[str]:
    said: dict[str, None] = {}
    words: tuple[Mapping[str, object], ...] = (
        {name: word for name, word in standing.facts.items() if word.number},
        standing.figures,
        standing.pins,
        standing.holds,
        standing.gives,
        {scrubbed.event: None for scrubbed in standing.scrubs},
    )
    for named in words:
        said.update(dict.fromkeys(named))
    return list(said)


def _name(event: str, works: Works) -> str:
    known = works.shape.events.get(event)
    return known.name if known is not None else event
