"""The forms that begin with their own word: a note, a new event, the plan, the air, the clock."""

import re
import unicodedata

from core.entries.clocktimes import Asking
from core.entries.context import Context
from core.entries.forms import WORDS_READ, nearest_form
from core.entries.formshape import About
from core.entries.model import Add, Note, Replan, TakePlan
from core.entries.on_air import AIR_WORDS, read_on_air
from core.entries.on_clock import read_on_clock
from core.entries.on_promises import read_kept, read_promise
from core.entries.on_signing import read_sign
from core.entries.questions import past_words
from core.entries.readings import Reading, Target, TargetKind
from core.entries.targets import runs_of, selected_event
from core.entries.timed import Base, Timed, read_give, read_shift, read_timed, when_words
from core.entries.words import shown
from core.errors import EntryProblem
from core.plan.model import Event, Tie
from core.times.writing import ABOUT_GIVE_MS, short_duration_words

BOARD_WORDS = ("note", "new", "sign", "promise", "kept", "replan", "plan", "clock", *AIR_WORDS)
"""The words that begin such a form."""

_NEW = re.compile(r'"(?P<name>[^"]*)"\s*(?P<rest>.*)', re.S)
_SHIFT = re.compile(r"(?P<shift>[+-](?!-).*?)\s*(?P<give>\+-.*)?", re.S)


def begins_on_board(text: str) -> bool:
    """Whether the line begins with the word of such a form."""
    return _split(text)[0] in BOARD_WORDS


def read_on_board(text: str, context: Context) -> tuple[Reading, ...]:
    """The readings of a line that begins with a word of its own; none where it does not.

    Raises EntryProblem where it does, but cannot be read.
    """
    word, tail = _split(text)
    match word:
        case "note":
            return (_note(tail),)
        case "new":
            return _new(tail, context)
        case "sign" | "promise" | "kept":
            return _at_the_desk(word, tail, context)
        case "replan" | "plan":
            _alone(word, tail)
            return (_replan() if word == "replan" else _plan(context),)
        case "clock":
            return read_on_clock(tail, context)
        case _:
            return read_on_air(word, tail, context) if word in AIR_WORDS else ()


def _split(text: str) -> tuple[str, str]:
    word, _, tail = text.partition(" ")
    return word.casefold(), tail.strip()


# ------------------------------------------------------------------ the record and the plan


def _at_the_desk(word: str, tail: str, context: Context) -> tuple[Reading, ...]:
    """Who is there, and what was promised to the audience."""
    if word == "kept":
        return read_kept(tail, context)
    return (read_sign(tail, context) if word == "sign" else read_promise(tail),)


def _note(words: str) -> Reading:
    if not words:
        raise EntryProblem("The note is empty", hint="Write note and what is to be kept")
    return Reading(Note(words), f"Into the record: {shown(words)}")


def _replan() -> Reading:
    return Reading(Replan(), "The present times become the planned ones")


def _plan(context: Context) -> Reading:
    if context.plan_trouble:
        raise EntryProblem(
            context.plan_trouble, hint="Mend the file: a whole plan is offered again at once"
        )
    if context.plan_waiting is None:
        raise EntryProblem(
            "There is no plan to take over", hint="One that has changed on disk is offered here"
        )
    return Reading(TakePlan(context.plan_waiting), "The plan as changed on disk is taken over")


def _alone(word: str, tail: str) -> None:
    if tail:
        raise EntryProblem(f"'{shown(tail)}' is too much after '{word}'", tail, f"Write {word}")


# ------------------------------------------------------------------ an event added


def _new(tail: str, context: Context) -> tuple[Reading, ...]:
    match = _NEW.fullmatch(tail)
    name = match["name"].strip() if match else ""
    if match is None and tail:
        what = "The name is not between quotation marks"
        raise EntryProblem(what, tail, nearest_form(About.BOARD, "", "new"))
    if match is None or not name:
        raise EntryProblem("The new event has no name", "", nearest_form(About.BOARD, "", "new"))
    rest = match["rest"]
    if not rest:
        raise EntryProblem(
            f"When is {shown(name)}?", hint=f'Write new "{shown(name)}" 6:10p, or in 10m'
        )
    if rest[0] in "+-":
        return _tied(name, rest, context)
    base = Base(Asking(context.now_ms, context.zones, ahead=True))
    timed = read_timed(rest.lower(), base, context)
    if timed is None:
        return _tied(name, rest, context)
    return _at_a_time(name, timed, context)


def _at_a_time(name: str, timed: Timed, context: Context) -> tuple[Reading, ...]:
    new_id = _free_id(name, context)
    give = f", give or take {short_duration_words(timed.give_ms)}" if timed.give_ms else ""
    return tuple(
        Reading(
            Add(Event(new_id, name, at_ms=moment.at_ms, give_ms=timed.give_ms or 0)),
            f"{name}, a new event, at {when_words(moment, context)}{give}",
            asks=tuple(filter(None, (past_words(moment.at_ms, context),))),
        )
        for moment in timed.moments
    )


def _tied(name: str, rest: str, context: Context) -> tuple[Reading, ...]:
    """The new event so long after, or before, the one that is named, else the selected one."""
    to, shift = _tie_end(rest, context)
    about = shift.startswith("about ")
    match = _SHIFT.fullmatch(shift.removeprefix("about ").lower())
    offset_ms = read_shift(match["shift"]) if match else None
    if match is None or offset_ms is None:
        raise _no_tie(shift or rest)
    give_ms = read_give(match["give"]) if match["give"] else ABOUT_GIVE_MS if about else 0
    tie = Tie(to.id, offset_ms, *((0, None) if offset_ms >= 0 else (None, 0)))
    event = Event(_free_id(name, context), name, ties=(tie,), give_ms=give_ms or 0)
    side = "after" if offset_ms >= 0 else "before"
    how = f"{name}, a new event, {short_duration_words(offset_ms)} {side} {to.name}"
    return (Reading(Add(event), how),)


def _tie_end(rest: str, context: Context) -> tuple[Target, str]:
    """The event that the new one is tied to, and the rest of the line."""
    if rest[0] in "+-":
        event = selected_event(context)
        if event is None:
            raise EntryProblem(
                "No card is selected to tie it to", rest, 'Write new "Crew sleeps" ign +4h'
            )
        return Target(TargetKind.EVENT, event.id, event.name), rest
    events = [thing for thing in context.things if thing.kind is TargetKind.EVENT]
    runs = runs_of(rest, events)
    fitting = [run for run in runs if _SHIFT.fullmatch(run.rest.lower().removeprefix("about "))]
    single = next((run for run in fitting or runs if len(run.named) == 1), None)
    if single is not None:
        return single.targets[0], single.rest
    if not runs:
        raise _no_tie(rest)
    names = ", ".join(thing.name for thing in runs[0].named[:4])
    raise EntryProblem(
        f"'{runs[0].words}' names {len(runs[0].named)} events", runs[0].words, f"Say which: {names}"
    )


def _no_tie(part: str) -> EntryProblem:
    hint = nearest_form(About.BOARD, "", "new")
    return EntryProblem(f"'{shown(part)}' is neither a time nor a tie", part, hint)


def _free_id(name: str, context: Context) -> str:
    """An id made from the name that nothing else has, and that is no word of the bar."""
    ascii_name = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    slug = re.sub(r"[^a-z0-9]+", "-", ascii_name.lower()).strip("-")[:40].rstrip("-") or "event"
    taken = {thing.id.casefold() for thing in context.things} | set(WORDS_READ)
    if slug not in taken:
        return slug
    return next(each for n in range(2, len(taken) + 3) if (each := f"{slug}-{n}") not in taken)
