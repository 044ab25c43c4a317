"""What is owed by when, what has no place, and the header's line about the programme."""

from collections.abc import Iterator, Sequence
from itertools import islice

from core.air.running import Running, Stands
from core.air.spans import EVER_MS, NEVER_MS
from core.board.onair.state import AirState, Figures
from core.board.words import listed
from core.board.written import Said, Tone
from core.plan.model import Item
from core.times.writing import MINUTE_MS, Style, dated_clock_text

_DEADLINES = 2
"""So many times by which something is owed are told at once."""

_STILL = frozenset({Stands.FLOATING, Stands.PLACED})


def owed_lines(state: AirState, figures: Figures, now_ms: int) -> tuple[Said, ...]:
    """What has no place, then what is owed by when; of several, by when the next must begin."""
    small = state.scene.roll.small
    asked = {each.item for each in figures.fits} - {*figures.most, *figures.unproven}
    still = _owed(state)
    homeless = [one.item for one in still if one.item.id in asked]
    lines = [Said(f"no place for {small(item.name)}", Tone.CLASH) for item in homeless]
    lines += [Said(words) for words in islice(_deadlines(state, still, now_ms), _DEADLINES)]
    if figures.unproven:
        count = f"{len(figures.unproven)} of what is owed"
        lines.append(Said(f"not sure of a place for {count}: too much at once", Tone.QUIET))
    first_ms = figures.owed_first_ms
    several = len(figures.most) > 1 and figures.all_fit
    if several and first_ms is not None and first_ms < NEVER_MS:
        at = dated_clock_text(first_ms, state.scene.style, now_ms)
        lines.append(Said(f"all of it fits if the next begins by {at}", Tone.QUIET))
    return tuple(lines)


def status(state: AirState, now_ms: int) -> Said | None:
    """The header's line: 'On the air; a break is owed by 5:00 p.m.'."""
    if state.scene.plan.air is None and not state.programme.items:
        return None
    style, on_ms, off_ms = state.scene.style, state.day.on_ms, state.day.off_ms
    away = next((to for low, to in state.away if low <= now_ms < to), None)
    if away is not None:
        until = "" if away >= EVER_MS else f" until {_to_the_minute(away, style, now_ms)}"
        return Said(f"Off the air: the network has it{until}")
    if now_ms < on_ms:
        return Said(f"On the air from {dated_clock_text(on_ms, style, now_ms)}", Tone.QUIET)
    if now_ms >= off_ms:
        return Said("Off the air", Tone.QUIET)
    owed = next(_deadlines(state, _owed(state), now_ms), "")
    if owed:
        return Said(f"On the air; {owed}")
    until = "" if off_ms >= EVER_MS else f" until {dated_clock_text(off_ms, style, now_ms)}"
    return Said(f"On the air{until}")


def _to_the_minute(at_ms: int, style: Style, now_ms: int) -> str:
    """A clock time, without seconds where it is on the minute."""
    return dated_clock_text(at_ms, style, now_ms, seconds=bool(at_ms % MINUTE_MS))


def _owed(state: AirState) -> list[Running]:
    still = (one for one in state.programme.items if one.item.owed and one.stands in _STILL)
    return [one for one in still if one.item.kind not in state.withheld]


def _deadlines(state: AirState, owed: Sequence[Running], now_ms: int) -> Iterator[str]:
    """'a break is owed by 5:00 p.m.', the nearest first; those without a time at the end.

    What is too late already has no place, and that is said elsewhere.
    """
    by_time: dict[int, list[Item]] = {}
    for one in owed:
        by_ms = _by_ms(state, one.item)
        if by_ms > now_ms:
            by_time.setdefault(by_ms, []).append(one.item)
    for by_ms in sorted(by_time):
        items = by_time[by_ms]
        what = f"{_what(items)} {'is' if len(items) == 1 else 'are'} owed"
        clock = "" if by_ms >= EVER_MS else _to_the_minute(by_ms, state.scene.style, now_ms)
        yield f"{what} by {clock}" if clock else what


def _by_ms(state: AirState, item: Item) -> int:
    return min(EVER_MS if item.latest_ms is None else item.latest_ms, state.day.off_ms)


_ONE = {"break": "a break", "remote": "a remote", "tape": "a tape", "studio": "a studio talk"}
_MANY = {"break": "breaks", "remote": "remotes", "tape": "tapes", "studio": "studio talks"}


def _what(items: Sequence[Item]) -> str:
    """'a break', 'a break and a remote', '2 breaks'."""
    counts: dict[str, int] = {}
    for item in items:
        counts[item.kind] = counts.get(item.kind, 0) + 1
    return listed(
        [_ONE[kind] if count == 1 else f"{count} {_MANY[kind]}" for kind, count in counts.items()]
    )
