"""The forms about an item of the programme: on the air, placed, over, off."""

from core.entries.airing import Begin, Drop, Finish, Place, Unplace
from core.entries.clocktimes import Asking
from core.entries.item_line import OnItem, check_not_run, not_read, was_dropped
from core.entries.questions import ahead_words, past_words
from core.entries.readings import Reading
from core.entries.timed import Base, nearer_half, read_fact_time, read_timed, when_words
from core.entries.words import shown
from core.errors import EntryProblem
from core.times.writing import SECOND_MS, apart_ms, short_duration_words


def read_on_item(line: OnItem) -> tuple[Reading, ...]:
    """The readings of a line about an item; EntryProblem where there is none."""
    word, _, tail = line.rest.partition(" ")
    match word:
        case "over":
            return _over(line, tail)
        case "off" | "free":
            if tail:
                what = f"'{shown(tail)}' is too much after '{word}'"
                raise EntryProblem(what, tail, f"Write {line.example(word)}")
            return (_dropped(line) if word == "off" else _freed(line),)
        case "at":
            return _placed(line, tail)
        case _ if line.rest.startswith("now"):
            return _begun(line)
        case _:
            return _placed(line, line.rest)


# ------------------------------------------------------------------ on the air


def _begun(line: OnItem) -> tuple[Reading, ...]:
    check_not_run(line)
    asking = Asking(line.context.now_ms, line.context.zones)
    moments = read_fact_time(line.rest, asking, line.context)
    if moments is None:
        raise not_read(line)
    return tuple(
        line.reading(
            Begin(line.item.id, moment.at_ms),
            f"on the air at {when_words(moment, line.context)},"
            f" over at {line.clock(moment.at_ms + line.item.length_ms)}",
            was_dropped(line),
            _another(line),
        )
        for moment in moments
    )


def _another(line: OnItem) -> str:
    """The question where an item is on the air already, or empty."""
    on_air = line.context.aired.on_air
    others = (item for item in line.context.items if item.id == on_air != line.item.id)
    return "".join(f"{item.name} is still on the air" for item in others)


def _over(line: OnItem, tail: str) -> tuple[Reading, ...]:
    begun_ms, over_ms = line.ran.begun_ms, line.ran.over_ms
    if begun_ms is None:
        hint = f"Write {line.example('now')} when it begins, or {line.example('now-12s')}"
        raise line.refused("is not on the air", hint)
    if over_ms is not None and not tail:
        hint = f"To correct that: {line.example('over 4:48:10p')}"
        raise line.refused(f"was over at {line.clock(over_ms)}", hint)
    asking = Asking(begun_ms + line.item.length_ms, line.context.zones)
    moments = read_fact_time(tail or "now", asking, line.context)
    if moments is None:
        what = f"'{shown(tail)}' is not when it was over"
        raise EntryProblem(what, tail, f"Write {line.example('over 4:48:10p')}")
    after = [moment for moment in moments if moment.at_ms >= begun_ms]
    if not after:
        raise line.refused(f"began at {line.clock(begun_ms)}", "It cannot be over before that")
    return tuple(
        line.reading(
            Finish(line.item.id, moment.at_ms),
            f"over at {when_words(moment, line.context)}",
            ahead_words(moment.at_ms, line.context),
            _cut_short(line, begun_ms + line.item.length_ms, moment.at_ms),
        )
        for moment in nearer_half(after)
    )


def _cut_short(line: OnItem, due_ms: int, at_ms: int) -> str:
    """The question at the end of what cannot be cut before it is due to end, or empty.

    An end within a second of that is its end: whoever types the second that is shown is right.
    """
    left_ms = apart_ms(due_ms, at_ms)
    if line.item.can_cut or left_ms <= SECOND_MS:
        return ""
    return f"It cannot be cut, and has {short_duration_words(left_ms)} to run"


# ------------------------------------------------------------------ placed, or not


def _placed(line: OnItem, text: str) -> tuple[Reading, ...]:
    if line.ran.begun_ms is not None:
        check_not_run(line)
        hint = f"It began at {line.clock(line.ran.begun_ms)}; {line.example('over')} ends it"
        raise line.refused("is on the air", hint)
    base = Base(Asking(_anchor_ms(line), line.context.zones), line.start_ms, told="placed")
    timed = read_timed(text, base, line.context) if text else None
    if timed is None:
        raise not_read(line)
    if timed.give_ms is not None:
        raise line.refused("is placed to the second", f"Write {line.example('at 4:46p')}")
    return tuple(
        line.reading(
            Place(((line.item.id, moment.at_ms),)),
            f"placed at {when_words(moment, line.context)},"
            f" over at {line.clock(moment.at_ms + line.item.length_ms)}",
            past_words(moment.at_ms, line.context),
            was_dropped(line),
        )
        for moment in nearer_half(timed.moments)
    )


def _anchor_ms(line: OnItem) -> int:
    """What a clock time is near to: where the item is, else the first place it may have."""
    if line.start_ms is not None:
        return line.start_ms
    return max(line.context.now_ms, line.item.earliest_ms or line.context.now_ms)


def _dropped(line: OnItem) -> Reading:
    check_not_run(line)
    if line.ran.begun_ms is not None:
        raise line.refused("is on the air", f"{line.example('over')} ends it")
    if line.ran.dropped:
        raise line.refused("is off already", f"To have it back: {line.example('free')}")
    ask = "It is owed, and would have to be made good" if line.item.owed else ""
    return line.reading(Drop(line.item.id), "will not run", ask)


def _freed(line: OnItem) -> Reading:
    check_not_run(line)
    ran, planned_ms = line.ran, line.item.at_ms
    if ran.begun_ms is not None:
        raise line.refused("is on the air", f"{line.example('over')} ends it")
    if ran.placed_ms is None and not ran.dropped:
        raise line.refused("was given no place here", f"To give it one: {line.example('at 4:46p')}")
    where = "floats again" if planned_ms is None else f"is back at {line.clock(planned_ms)}"
    return line.reading(Unplace(line.item.id), "may run again" if ran.dropped else where)
