"""What is owed by when, what has no place, and the header's line about the programme."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from core.air.model import Conflict, Way
from core.air.running import Running, Stands
from core.air.spans import EVER_MS, NEVER_MS
from core.board.onair.losses import Lost, clash_words
from core.board.onair.places import Remedies, beside_words, is_gone
from core.board.onair.state import AirState, Figures
from core.board.words import listed
from core.board.written import Said, Tone
from core.plan.model import Item
from core.times.writing import MINUTE_MS, SECOND_MS, short_duration_words

_DEADLINES = 2
"""So many times by which something is owed are told at once."""

_NAMED = 3
"""So many of what is owed by the same time are named."""

_LEAD = "On the air; "

_STILL = frozenset({Stands.FLOATING, Stands.PLACED})


@dataclass(frozen=True, slots=True)
class Owing:
    """What is owed and has not run: what has no place, and what is not placed well but has one.

    `homeless` have none wherever the others go: one that has one only without others comes with
    those. `crowded_out` have one, but only if something placed moves for it. Panel, rows and header
    all speak of this, and say the same.
    """

    homeless: tuple[Conflict, ...]
    open_yet: tuple[Running, ...]
    crowded_out: tuple[Item, ...] = ()

    def moves_others(self, item: str) -> bool:
        """Whether the item has a place only if something placed moves."""
        return any(each.id == item for each in self.crowded_out)


def owing(
    state: AirState,
    figures: Figures,
    broken: Sequence[Lost],
    remedies: Remedies,
    now_ms: int,
) -> Owing:
    """What is owed as things stand; `broken` is what is lost.

    What has no place where all that is placed stays is looked at again with that set free.
    """
    losing = clash_words(broken)
    asked = {each.item for each in figures.fits} - {*figures.most, *figures.unproven}
    asked |= {each.item for each in broken if (Way.NONE, None) in each.loss.ways}
    still = _owed(state)
    asking = [one for one in still if one.item.id in asked]
    left = {each.items[0]: each for each in remedies.found(now_ms).left} if asking else {}
    homeless = tuple(left[one.item.id] for one in asking if one.item.id in left)
    open_yet = (one for one in still if one.stands is Stands.FLOATING or one.item.id in losing)
    return Owing(
        homeless,
        tuple(one for one in open_yet if one.item.id not in left),
        tuple(one.item for one in asking if one.item.id not in left),
    )


def owed_lines(state: AirState, figures: Figures, owes: Owing, now_ms: int) -> tuple[Said, ...]:
    """What has no place, then what is owed by when; of several, by when the next must begin.

    What is placed is told no more, but for items that lose something where they are.
    """
    lines = [_homeless(state, why) for why in owes.homeless]
    if owes.crowded_out:
        lines.append(_crowded_out(state, owes.crowded_out))
    told = islice(_deadlines(state, owes.open_yet, now_ms), _DEADLINES)
    lines += [Said(words) for words in told]
    if figures.unproven:
        lines.append(_crowded(figures))
    first_ms = figures.owed_first_ms
    several = len(figures.most) > 1 and figures.all_fit
    if several and first_ms is not None and first_ms < NEVER_MS:
        at = state.clock(first_ms, now_ms)
        lines.append(Said(f"all of it fits if the next begins by {at}", Tone.QUIET))
    return tuple(lines)


def _crowded(figures: Figures) -> Said:
    """What is known where too much is owed at once to try all orders of it."""
    over_ms = figures.crowd.over_ms
    if figures.crowd.all_fit:
        return Said("all of it has a place: place says where")
    if over_ms:
        by = short_duration_words(-(-over_ms // SECOND_MS) * SECOND_MS)
        return Said(f"{by} more is owed than there is time for", Tone.CLASH)
    count = f"{len(figures.unproven)} of what is owed"
    return Said(f"not sure of a place for {count}: too much at once", Tone.QUIET)


def _homeless(state: AirState, why: Conflict) -> Said:
    return Said(f"no place for {beside_words(state, why)}", Tone.CLASH)


def _crowded_out(state: AirState, items: Sequence[Item]) -> Said:
    names = listed([state.scene.roll.small(item.name) for item in items], most=_NAMED)
    fit = "fits" if len(items) == 1 else "fit"
    return Said(f"{names} {fit} only if others move: place says how", Tone.CHANGE)


def status(state: AirState, calls: Sequence[Lost], owes: Owing, now_ms: int) -> Said | None:
    """The header's line: 'On the air; break 3 is owed by 5:00 p.m.', or that it has no place.

    Where something on the air has to end for what is lost (`calls`), that instead. What can no
    longer run at all is left to the panel.
    """
    if state.scene.plan.air is None and not state.programme.items:
        return None
    on_ms, off_ms = state.day.on_ms, state.day.off_ms
    away = next((to for low, to in state.away if low <= now_ms < to), None)
    if away is not None:
        until = "" if away >= EVER_MS else f" until {_to_the_minute(state, away, now_ms)}"
        return Said(f"Off the air: the network has it{until}")
    if now_ms < on_ms:
        return Said(f"On the air from {state.clock(on_ms, now_ms)}", Tone.QUIET)
    if now_ms >= off_ms:
        return Said("Off the air", Tone.QUIET)
    if calls:
        return Said(f"{_LEAD}{_out(state, calls[0], now_ms)}", Tone.CLASH)
    until = "" if off_ms >= EVER_MS else f" until {state.clock(off_ms, now_ms)}"
    owed = _most_pressing(state, owes, now_ms)
    return Said(f"On the air{until}") if owed is None else replace(owed, text=_LEAD + owed.text)


def _most_pressing(state: AirState, owes: Owing, now_ms: int) -> Said | None:
    """What has no place and could still run, else what is owed next."""
    still = (why for why in owes.homeless if not is_gone(state, why.items[0], now_ms))
    lost = next(still, None)
    if lost is not None:
        return _homeless(state, lost)
    return next((Said(words) for words in _deadlines(state, owes.open_yet, now_ms)), None)


def _out(state: AirState, lost: Lost, now_ms: int) -> str:
    """The way out, short: one who rejoins is told no more than when."""
    rejoins = (at_ms for way, at_ms in lost.loss.ways if way is Way.REJOIN)
    at_ms = next(rejoins, None)
    if at_ms is None:
        return lost.ways[0]
    return f"you rejoin at {state.clock(at_ms, now_ms)}"


def _to_the_minute(state: AirState, at_ms: int, now_ms: int) -> str:
    """A clock time, without seconds where it is on the minute."""
    return state.clock(at_ms, now_ms, seconds=bool(at_ms % MINUTE_MS))


def _owed(state: AirState) -> list[Running]:
    still = (one for one in state.programme.items if one.item.owed and one.stands in _STILL)
    return [one for one in still if one.item.kind not in state.withheld]


def _deadlines(state: AirState, owed: Sequence[Running], now_ms: int) -> Iterator[str]:
    """'break 4 is owed by 5:00 p.m.', the nearest first; those without a time at the end.

    What is too late already has no place, and that is said elsewhere.
    """
    by_time: dict[int, list[Item]] = {}
    for one in owed:
        by_ms = _by_ms(state, one.item)
        if by_ms > now_ms:
            by_time.setdefault(by_ms, []).append(one.item)
    for by_ms in sorted(by_time):
        items = by_time[by_ms]
        names = listed([state.scene.roll.small(item.name) for item in items], most=_NAMED)
        what = f"{names} {'is' if len(items) == 1 else 'are'} owed"
        clock = "" if by_ms >= EVER_MS else _to_the_minute(state, by_ms, now_ms)
        yield f"{what} by {clock}" if clock else what


def _by_ms(state: AirState, item: Item) -> int:
    return min(EVER_MS if item.latest_ms is None else item.latest_ms, state.day.off_ms)
