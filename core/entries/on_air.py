"""The forms about the programme as a whole: who has the air, what is placed, said and owed."""

import re

from core.entries.airing import Grave, LeaveAir, MarkSaid, Place, TakeAir, Waive
from core.entries.clocktimes import Asking, Moment
from core.entries.context import Context
from core.entries.forms import nearest_form
from core.entries.formshape import About
from core.entries.readings import Reading
from core.entries.timed import Base, read_fact_time, read_length, read_timed, when_words
from core.entries.words import shown
from core.errors import EntryProblem
from core.times.writing import dated_clock_text

_TWO = re.compile(r"\d{1,2}:\d\d", re.ASCII)

AIR_WORDS = ("place", "air", "said", "waive", "grave")
"""The words that begin such a form."""


def read_on_air(word: str, tail: str, context: Context) -> tuple[Reading, ...]:
    """The readings of what follows one of these words; EntryProblem where there is none."""
    rest = tail.lower()
    match word:
        case "air":
            return _air(rest, context)
        case "grave":
            return (_grave(rest, context),)
        case _:
            if rest:
                raise EntryProblem(
                    f"'{shown(tail)}' is too much after '{word}'", tail, f"Write {word}"
                )
            return (_bare(word, context),)


def _bare(word: str, context: Context) -> Reading:
    if word == "place":
        return _place(context)
    return _said(context) if word == "said" else _waive(context)


# ------------------------------------------------------------------ the air


def _air(rest: str, context: Context) -> tuple[Reading, ...]:
    word, _, tail = rest.partition(" ")
    if word == "off":
        return _leave(tail, context)
    if word == "on":
        return _take(tail, context)
    what = f"'{shown(rest)}' does not say who has the air" if rest else "Who has the air?"
    raise EntryProblem(what, rest, "Write air off when the network takes it, or air on")


def _leave(tail: str, context: Context) -> tuple[Reading, ...]:
    """Off from now, or from so long ago; until a time, for so long, or nobody knows how long."""
    start = Moment(context.now_ms)
    word, _, more = tail.partition(" ")
    if not tail or word.startswith("now"):
        moments = _fact(tail or "now", context)
        how = "The network has the air from"
        return tuple(
            Reading(LeaveAir(each.at_ms), f"{how} {when_words(each, context)}") for each in moments
        )
    ends = _times(more, context) if word == "until" else (_after(tail, start),)
    later = [end for end in ends if end.at_ms > start.at_ms]
    if not later:
        clock = dated_clock_text(ends[0].at_ms, context.style, context.now_ms)
        raise EntryProblem(
            f"{clock} is past", more, "Write air off until a time to come, or air on"
        )
    return tuple(
        Reading(
            LeaveAir(start.at_ms, end.at_ms),
            f"The network has the air from now until {when_words(end, context)}",
        )
        for end in later
    )


def _after(tail: str, start: Moment) -> Moment:
    """So long after the start; figures that may be a clock time are refused."""
    if _TWO.fullmatch(tail):
        raise EntryProblem(
            f"'{tail}' may be a clock time or a length",
            tail,
            f"Write air off until {tail}, or the length with its units, as 5m 10s",
        )
    return Moment(start.at_ms + read_length(tail))


def _take(tail: str, context: Context) -> tuple[Reading, ...]:
    """The programme has the air again, now or at a time that is known."""
    if not context.aired.away:
        raise EntryProblem(
            "The network has not taken the air", f"on {tail}".strip(), "When it does: air off"
        )
    left_ms = context.aired.away[-1].from_ms
    near = not tail or tail.startswith("now")
    moments = _fact(tail or "now", context) if near else _times(tail, context)
    later = [moment for moment in moments if moment.at_ms >= left_ms]
    if not later:
        clock = dated_clock_text(left_ms, context.style, context.now_ms)
        raise EntryProblem(f"The network took the air at {clock}", tail, "It is back after that")
    return tuple(
        Reading(TakeAir(each.at_ms), f"On the air again at {when_words(each, context)}")
        for each in later
    )


def _fact(text: str, context: Context) -> tuple[Moment, ...]:
    return _or_refused(read_fact_time(text, _asking(context), context), text)


def _times(text: str, context: Context) -> tuple[Moment, ...]:
    timed = read_timed(text, Base(_asking(context)), context) if text else None
    return _or_refused(None if timed is None else timed.moments, text)


def _asking(context: Context) -> Asking:
    return Asking(context.now_ms, context.zones)


def _or_refused(moments: tuple[Moment, ...] | None, text: str) -> tuple[Moment, ...]:
    if moments is None:
        what = f"'{shown(text)}' is no time that is read here" if text else "Until when?"
        raise EntryProblem(what, text, nearest_form(About.BOARD, "", "air"))
    return moments


# ------------------------------------------------------------------ placed, said, owed


def _place(context: Context) -> Reading:
    proposal = context.proposal()
    if isinstance(proposal, str):
        why, _, most = proposal.partition("\n")
        raise EntryProblem(why, "place", most)
    if not proposal:
        raise EntryProblem("There is nothing to place", "place", "All that is owed has its place")
    names = {item.id: item.name for item in context.items}
    (first, at_ms), *others = proposal
    clock = dated_clock_text(at_ms, context.style, context.now_ms)
    more = f", and {len(others)} more" if others else ""
    return Reading(Place(proposal), f"Placed: {names.get(first, first)} at {clock}{more}")


def _said(context: Context) -> Reading:
    sentence = context.to_say()
    if sentence is None:
        raise EntryProblem("There is nothing to say now", "said")
    text, times = sentence
    return Reading(MarkSaid(text, times), f"Said on the air: {text}")


def _waive(context: Context) -> Reading:
    events = context.owed()
    if not events:
        raise EntryProblem("No correction is owed to the audience", "waive")
    names = "; ".join(context.name_of(event) for event in events)
    return Reading(Waive(events), f"Not to be corrected on the air: {names}")


def _grave(rest: str, context: Context) -> Reading:
    if rest not in {"", "over"}:
        raise EntryProblem(
            f"'{shown(rest)}' is too much after 'grave'", rest, "Write grave, or grave over"
        )
    if context.aired.grave is not bool(rest):
        what = "The board is not grave" if rest else "The board is grave already"
        raise EntryProblem(what, "grave", "" if rest else "To end it: grave over")
    if rest:
        ask = "The presenter window is as before; breaks, tapes and facts are proposed again"
        return Reading(Grave(on=False), "The board is grave no longer", asks=(ask,))
    ask = (
        "The presenter window keeps the clock, the last confirmed words and lines passed; "
        "breaks, tapes and facts are not proposed"
    )
    return Reading(Grave(on=True), "The board is grave", asks=(ask,))
