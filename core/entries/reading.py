"""Reading a line of the entry bar: from what was typed to what it means."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from core.entries.context import Context
from core.entries.forms import WORDS_READ, form_of, nearest_form
from core.entries.formshape import About
from core.entries.item_line import OnItem
from core.entries.model import Revise
from core.entries.on_board import begins_on_board, read_on_board
from core.entries.on_checkoffs import OnCheckOff, read_on_checkoff
from core.entries.on_events import EVENT_WORDS, OnEvent, read_on_event
from core.entries.on_items import read_on_item
from core.entries.on_signal import OnSignal, read_on_lane, read_on_outcome
from core.entries.readings import Reading, Target, TargetKind
from core.entries.targets import (
    Fit,
    Run,
    runs_of,
    selected_event,
    words_of,
)
from core.entries.things import Thing
from core.entries.words import Line, kept, nearest, plain, shown, split_source
from core.errors import EntryProblem

_MOST_NAMED = 4
"""More things than these that the words may name are no choice to be made in passing."""


def read(text: str, context: Context) -> tuple[Reading, ...]:
    """Every sensible reading of the line, the likeliest first.

    Raises EntryProblem, with the part at fault and what would be read, where there is none.
    """
    line = _sourced(text, context)
    if not line.text:
        what = "Only who said it is typed" if line.source else "Nothing is typed"
        raise EntryProblem(what, hint=nearest_form(About.EVENT, "", ""))
    found: list[Reading] = []
    for reading in _readings(line.text, context):
        if all(reading.action != other.action for other in found):
            found.append(replace(reading, source=line.source))
    return tuple(sorted(found, key=lambda each: _revises_the_past(each, context)))


def _revises_the_past(reading: Reading, context: Context) -> bool:
    """Whether it gives a new time to what has happened, which is refused: the others come first.

    So 'picture lost 6:40p' is about the lane, once the event 'Picture lost' has happened.
    """
    if not isinstance(reading.action, Revise):
        return False
    event = context.event(reading.action.event)
    return event is not None and event.happened


def _sourced(text: str, context: Context) -> Line:
    """The line without its source. A note and a promise are kept to the letter."""
    whole = kept(text)
    if not whole.casefold().startswith(("note ", "promise ")):
        return split_source(plain(text), context.sources)
    try:
        return split_source(whole, context.sources)
    except EntryProblem:
        return Line(whole)


def _readings(text: str, context: Context) -> list[Reading]:
    runs = runs_of(text, context.things)
    named, problems = _of_single_runs(runs, context)
    own, problem = _of_its_own(text, context)
    if named or own:
        sure = any(fit <= Fit.NAME for fit, _ in named)
        about = [reading for _, reading in named]
        return [*about, *own] if sure else [*own, *about]
    several = [run for run in runs if len(run.named) > 1]
    found = _of_several(several, context)
    if found:
        return found
    raise _likeliest_problem(text, problems, problem, several, context)


def _of_single_runs(
    runs: Sequence[Run], context: Context
) -> tuple[list[tuple[Fit, Reading]], list[EntryProblem]]:
    """The readings about one thing that leading words name, and why others are none."""
    found: list[tuple[Fit, Reading]] = []
    problems: list[EntryProblem] = []
    for run in runs:
        if len(run.named) == 1:
            try:
                found += [(run.fit, each) for each in _about(run.targets[0], run.rest, context)]
            except EntryProblem as problem:
                problems.append(problem)
    return found, problems


def _of_its_own(text: str, context: Context) -> tuple[list[Reading], EntryProblem | None]:
    """The readings of a line that names nothing: of the board, or of the selected card."""
    event = selected_event(context)
    try:
        if begins_on_board(text):
            return list(read_on_board(text, context)), None
        if event is not None:
            target = Target(TargetKind.EVENT, event.id, event.name)
            return list(_about(target, text, context)), None
    except EntryProblem as problem:
        return [], problem
    return [], None


def _of_several(several: Sequence[Run], context: Context) -> list[Reading]:
    """The readings about each of a few things that the words name alike; Enter asks which."""
    for run in several:
        found: list[Reading] = []
        many = Counter(thing.kind for thing in run.named)
        for target in (each for each in run.targets if many[each.kind] <= _MOST_NAMED):
            try:
                found += _about(target, run.rest, context)
            except EntryProblem:
                continue  # that kind of thing has no such form: it is not what was meant
        meant = dict.fromkeys(reading.target.name for reading in found if reading.target)
        if len(meant) > 1:
            found = [_which(reading, run.words, tuple(meant)) for reading in found]
        if found:
            return found
    return []


def _which(reading: Reading, words: str, names: Sequence[str]) -> Reading:
    mine = reading.target.name if reading.target else ""
    others = ", ".join(name for name in names if name != mine)
    return replace(reading, asks=(f"it takes {mine}; '{words}' is also {others}", *reading.asks))


def _about(target: Target, rest: str, context: Context) -> tuple[Reading, ...]:
    words = rest.lower()
    match target.kind:
        case TargetKind.EVENT:
            event = context.event(target.id)
            if event is None:
                return ()
            return read_on_event(OnEvent(event, target, words, context))
        case TargetKind.LANE:
            return read_on_lane(OnSignal(target, words, context))
        case TargetKind.OUTCOME:
            return read_on_outcome(OnSignal(target, words, context))
        case TargetKind.ITEM:
            items = (item for item in context.items if item.id == target.id)
            lines = (OnItem(item, target, words, context) for item in items)
            return next(map(read_on_item, lines), ())
        case TargetKind.CHECKOFF:
            known = (each for each in context.checkoffs if each.id == target.id)
            counts = (OnCheckOff(each, target, words, context) for each in known)
            return next(map(read_on_checkoff, counts), ())


# ------------------------------------------------------------------ why there is none


def _likeliest_problem(
    text: str,
    of_names: Sequence[EntryProblem],
    of_its_own: EntryProblem | None,
    several: Sequence[Run],
    context: Context,
) -> EntryProblem:
    """Of all that is wrong with the line, what the one who typed it needs to know."""
    if of_its_own is not None and (begins_on_board(text) or _begins_like_a_form(text)):
        return of_its_own
    if of_names:
        return of_names[0]
    if _begins_like_a_form(text):
        return EntryProblem(
            "No card is selected", text, "Begin with what it is about, as in 'ign 4:58p'"
        )
    if several:
        return _many(several[0])
    return _unknown(text, context)


def _begins_like_a_form(text: str) -> bool:
    word = text.lower().partition(" ")[0].partition("-")[0]
    return text[0].isdigit() or text[0] in "+-" or word in EVENT_WORDS


def _many(run: Run) -> EntryProblem:
    names = ", ".join(thing.name for thing in run.named[:_MOST_NAMED])
    more = " and others" if len(run.named) > _MOST_NAMED else ""
    what = f"'{shown(run.words)}' names {len(run.named)} things"
    return EntryProblem(what, run.words, f"Say which: {names}{more}")


def _unknown(text: str, context: Context) -> EntryProblem:
    word = text.partition(" ")[0]
    names = words_of(context.things)
    near = nearest(word, (*names, *WORDS_READ))
    hint = nearest_form(About.EVENT, "", "")
    if near in names:
        hint = _called(names[near])
    elif near == "clock":
        hint = nearest_form(About.CLOCK, "clock", "")
    elif near:
        hint = form_of(near)
    return EntryProblem(f"Nothing here is called '{shown(word)}'", word, hint)


def _called(thing: Thing) -> str:
    name = "" if thing.name == thing.id else f", {thing.name}"
    return f"The nearest is '{thing.id}'{name}"
