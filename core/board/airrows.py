"""The rows of clear time: each item still to run, and what may be done with it."""

from collections.abc import Mapping

from core.air.model import Fits
from core.air.running import Running, Stands
from core.board.airstate import AirState, Figures
from core.board.programme import ItemRow, ItemState
from core.board.written import Said, Tone
from core.times.writing import (
    MINUTE_MS,
    Hours,
    Style,
    dated_clock_text,
    duration_words,
    short_duration_words,
)

_SOON_MS = MINUTE_MS
"""What fits in so short a while fits now, as one plans: only the leave-by time is of use."""


def item_rows(
    state: AirState, figures: Figures, clashes: Mapping[str, str], now_ms: int
) -> tuple[ItemRow, ...]:
    """What is on the air, then what is placed, then the rest: those that fit soonest first."""
    fits = {each.item: each for each in figures.fits}
    rows: list[tuple[tuple[int, int], ItemRow]] = []
    for number, one in enumerate(state.programme.items):
        if one.stands is Stands.ON_AIR:
            rows.append(((0, 0), _row(one, _on_air(one, now_ms))))
        elif one.item.id in fits and one.stands is Stands.FLOATING:
            fit = fits[one.item.id]
            rows.append((_order(fit, number, now_ms), _floating(state, figures, one, fit, now_ms)))
        elif one.stands is Stands.PLACED:
            words = _placed(state, one, clashes, now_ms)
            rows.append(((1, one.from_ms), _row(one, words)))
    rows.sort(key=lambda row: row[0])
    return tuple(row for _, row in rows)


def _order(fit: Fits, number: int, now_ms: int) -> tuple[int, int]:
    if fit.first_start_ms is None:
        return 4, number
    if fit.first_start_ms <= now_ms + _SOON_MS:
        return 2, number
    return 3, fit.first_start_ms


def _row(one: Running, words: Said, *, tight: bool = False) -> ItemRow:
    item = one.item
    return ItemRow(
        item=item.id,
        name=item.name,
        length=short_duration_words(item.length_ms),
        words=words,
        state=ItemState(one.stands),
        owed=item.owed,
        tight=tight,
    )


def _on_air(one: Running, now_ms: int) -> Said:
    over_ms = one.over_ms(now_ms)
    if over_ms >= 1_000:
        return Said(f"on the air, over by {duration_words(over_ms)}", Tone.CHANGE)
    return Said(f"on the air, over in {duration_words(-over_ms)}")


def _placed(state: AirState, one: Running, clashes: Mapping[str, str], now_ms: int) -> Said:
    clash = clashes.get(one.item.id)
    if clash is not None:
        return Said(clash, Tone.CLASH)
    return Said(f"at {_clock(one.from_ms, state.scene.style, now_ms)}")


def _floating(state: AirState, figures: Figures, one: Running, fit: Fits, now_ms: int) -> ItemRow:
    first_ms = fit.first_start_ms
    style = state.scene.style
    if first_ms is None or fit.leave_by_ms is None:
        return _row(one, Said("no place", Tone.CLASH if one.item.owed else Tone.QUIET))
    if figures.waiting:
        return _row(one, Said("when there is word", Tone.QUIET))
    if state.is_taken(now_ms):
        return _row(one, Said("when the air is back", Tone.QUIET))
    if first_ms > now_ms + _SOON_MS:
        return _row(one, Said(f"fits {_after(first_ms, style, now_ms)}", Tone.QUIET))
    leave_by_ms = fit.leave_by_ms
    if figures.all_fit:
        if fit.owed_by_ms is None:
            return _row(one, Said("no room beside what is owed", Tone.QUIET))
        leave_by_ms = fit.owed_by_ms
    tight = fit.safe_until_ms is None or fit.safe_until_ms < max(now_ms, first_ms)
    return _row(one, Said(f"leave by {_clock(leave_by_ms, style, now_ms)}"), tight=tight)


def _after(at_ms: int, style: Style, now_ms: int) -> str:
    """'after 4:50' where that is the minute; else to the second, rounded up."""
    whole_ms = -(-at_ms // 1_000) * 1_000
    return f"after {_clock(whole_ms, style, now_ms, seconds=bool(whole_ms % MINUTE_MS))}"


def _clock(at_ms: int, style: Style, now_ms: int, *, seconds: bool = True) -> str:
    """A clock time in a narrow row: without its half of the day where that is the present one."""
    text = dated_clock_text(at_ms, style, now_ms, seconds=seconds)
    if style.hours is not Hours.TWELVE:
        return text
    half = dated_clock_text(now_ms, style, now_ms)[-5:]
    return text.removesuffix(half) if text[:1].isdigit() else text
