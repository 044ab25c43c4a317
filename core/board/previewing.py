"""What an entry would do, in lines: moves upstream, figures that yield and squeezed gaps first."""

from collections.abc import Sequence
from itertools import groupby

from core.board.model import Said, Tone
from core.board.words import (
    Names,
    bound_words,
    broken_event,
    broken_words,
    capital,
    cause_words,
    listed,
)
from core.schedule.model import Clash, Effect, Kind, Move, MoveKind, Squeeze, Stay
from core.times.writing import (
    Style,
    apart_ms,
    dated_clock_text,
    difference_words,
    short_duration_words,
)

_STAYS = {
    Kind.PIN: "pinned",
    Kind.FACT: "it has happened",
    Kind.FIGURE: "its own figure",
    Kind.HOLD: "held",
    Kind.RESUMED: "its count, which goes on",
    Kind.EDGE: "the signal's edge",
    Kind.PLANNED: "its planned time",
}
_MOST_STAYS = 3


def moved_words(move: Move, style: Style, now_ms: int) -> str:
    """'4:57:20 p.m. → 4:58:05 p.m.   45 s later' for one event."""
    if move.new_ms is None:
        return "no time any more"
    new = dated_clock_text(move.new_ms, style, now_ms)
    if move.old_ms is None:
        return f"at {new}"
    old = dated_clock_text(move.old_ms, style, now_ms)
    by = difference_words(apart_ms(move.new_ms, move.old_ms))
    return f"{old} → {new}   {by}".rstrip()


def effect_lines(
    effect: Effect, moves: Sequence[Move], names: Names, style: Style, now_ms: int
) -> tuple[Said, ...]:
    """The lines under the headline; `moves` are those of the effect's that are told."""
    upstream = [m for m in moves if m.kind is MoveKind.UPSTREAM]
    followers = [m for m in moves if m.kind is MoveKind.FOLLOWS]
    lines = [
        Said(f"Takes along {names(m.event)}: {moved_words(m, style, now_ms)}", Tone.CHANGE)
        for m in upstream
    ]
    lines += [
        Said(f"The older figure for {names(e)} gives way", Tone.CHANGE) for e in effect.yielded
    ]
    lines += [Said(_squeezed(squeeze, names), Tone.CHANGE) for squeeze in effect.squeezed]
    lines += [
        Said(f"Overruled: {names(broken_event(b))} {broken_words(b, names)}", Tone.CLASH)
        for b in effect.broken
    ]
    lines += _follow(followers, names)
    lines += _stay(effect.stays, names)
    lines += [Said(capital(note), Tone.QUIET) for note in effect.notes]
    return tuple(lines)


def _squeezed(squeeze: Squeeze, names: Names) -> str:
    """A tie shorter than its offset; where that turns it round, each distance with its side."""
    gap, offset = short_duration_words(squeeze.gap_ms), short_duration_words(squeeze.offset_ms)
    before, after = names(squeeze.before), names(squeeze.after)
    if squeeze.gap_ms >= 0:
        return f"{before} to {after} down to {gap} from {offset}"
    side = " after it" if squeeze.offset_ms > 0 else ""
    return f"{after} is {gap} before {before}, instead of {offset}{side}"


def _by_ms(move: Move) -> int | None:
    if move.old_ms is None or move.new_ms is None:
        return None
    return apart_ms(move.new_ms, move.old_ms)


def _follow(moves: Sequence[Move], names: Names) -> list[Said]:
    """Followers, those that move by the same amount together."""
    lines: list[Said] = []
    # What stays within its second is no move to anybody who reads clocks.
    timed = [(by, m) for m in moves if (by := _by_ms(m))]
    timed.sort(key=lambda each: each[0], reverse=True)
    for by_ms, group in groupby(timed, key=lambda each: each[0]):
        together = [move for _, move in group]
        named = listed([names(move.event) for move in together])
        verb = "follows" if len(together) == 1 else "follow"
        cause = f", {cause_words(together[0].cause, names)}" if len(together) == 1 else ""
        lines.append(Said(f"{named} {verb}, {difference_words(by_ms)}{cause}"))
    gone = [names(m.event) for m in moves if m.new_ms is None]
    back = [names(m.event) for m in moves if m.old_ms is None and m.new_ms is not None]
    if gone:
        lines.append(Said(f"{listed(gone)}: no time any more"))
    if back:
        lines.append(Said(f"{listed(back)}: back on the board"))
    return lines


def _stay(stays: Sequence[Stay], names: Names) -> list[Said]:
    lines = []
    for stay in stays[:_MOST_STAYS]:
        why = _STAYS.get(stay.kind, "there is room") if stay.kind else "there is room"
        slack = f", slack {short_duration_words(stay.slack_ms)} left" if stay.slack_ms else ""
        lines.append(Said(f"{names(stay.event)} stays: {why}{slack}", Tone.QUIET))
    more = len(stays) - _MOST_STAYS
    if more > 0:
        lines.append(Said(f"{more} more stay", Tone.QUIET))
    return lines


def clash_words(clash: Clash, names: Names, style: Style, now_ms: int) -> str:
    """The clash in words: the excess, what it is between, and what would fit."""
    between = "; ".join(bound_words(bound, names) for bound in clash.set)
    words = f"{_over(clash.over_ms)}: {between}"
    fits = _fits(clash, style, now_ms)
    return f"{words}. {fits}" if fits else words


def _over(over_ms: int) -> str:
    """By how much."""
    return f"clash by {short_duration_words(over_ms) if over_ms >= 1000 else 'under a second'}"


def _fits(clash: Clash, style: Style, now_ms: int) -> str:
    low, high = clash.fits_from_ms, clash.fits_until_ms
    if low is None and high is None:
        return ""
    name = [dated_clock_text(at, style, now_ms) if at is not None else "" for at in (low, high)]
    if low is not None and high is not None:
        return f"{name[0]} to {name[1]} would fit" if low < high else f"Only {name[0]} would fit"
    return f"{name[0]} or later would fit" if low is not None else f"{name[1]} or earlier would fit"
