"""The rows of clear time: each item still to run, and what may be done with it."""

from collections.abc import Callable, Sequence
from operator import itemgetter

from core.air.model import Against, Fits, Way
from core.air.running import Running, Stands
from core.air.spans import EVER_MS, NEVER_MS
from core.board.onair.losses import Lost, against_words, by_words, clash_words, pressing
from core.board.onair.owed import Owing
from core.board.onair.state import AirState, Figures, day_part
from core.board.programme import ItemRow, ItemState
from core.board.written import Said, Tone
from core.plan.model import Item
from core.times.writing import (
    MINUTE_MS,
    SECOND_MS,
    Hours,
    duration_words,
    short_duration_words,
)

_SOON_MS = MINUTE_MS
"""What fits in so short a while fits now, as one plans: only the leave-by time is of use."""


_FIRST, _CLASHES, _PLACED, _NOW, _THEN, _NONE, _LAST = range(7)
"""In which order the rows stand."""


class ItemRows:
    """The rows of one state; a row is written anew only when what it says has changed."""

    def __init__(self, state: AirState) -> None:
        self._state = state
        self._written: dict[str, tuple[object, ItemRow]] = {}

    def rows(
        self, figures: Figures, broken: Sequence[Lost], owes: Owing, now_ms: int
    ) -> tuple[ItemRow, ...]:
        """What is on the air, what clashes, what is placed, then the rest: what fits soonest first.

        What has not begun in the time it had comes last.
        """
        clashes = {**self._behind(broken), **clash_words(broken)}
        gone = {each.item: each for each in broken if each.gone}
        fits = {each.item: each for each in figures.fits}
        rows: list[tuple[tuple[int, int], ItemRow]] = []
        for number, one in enumerate(self._state.programme.items):
            fit = fits.get(one.item.id)
            if one.stands is Stands.ON_AIR:
                rows.append(((_FIRST, 0), _row(one, self._on_air(one, broken, now_ms))))
            elif one.item.id in gone:
                rows.append(((_LAST, number), self._placed(one, "", now_ms, gone=True)))
            elif one.stands is Stands.PLACED:
                clash = clashes.get(one.item.id, "")
                place = (_CLASHES if clash else _PLACED, one.from_ms)
                rows.append((place, self._placed(one, clash, now_ms)))
            elif fit is not None:
                row = self._floating(one, fit, figures, owes, now_ms)
                clash_first = row.words.tone in (Tone.CLASH, Tone.CHANGE)
                place = (_CLASHES, EVER_MS + number) if clash_first else _order(fit, number, now_ms)
                rows.append((place, row))
        rows.sort(key=itemgetter(0))
        return tuple(row for _, row in rows)

    def _behind(self, broken: Sequence[Lost]) -> dict[str, str]:
        """What is placed so that it would begin while another is on the air, or too soon after."""
        on_air = self._state.programme.on_air
        if on_air is None:
            return {}
        name = self._state.scene.roll.small(on_air.item.name)
        mine = (each for each in broken if each.item == on_air.item.id)
        near = (each.loss for each in mine if each.loss.against is Against.ITEM)
        return {loss.of: f"{by_words(loss.by_ms)} too near to {name}" for loss in near}

    def _on_air(self, one: Running, broken: Sequence[Lost], now_ms: int) -> Said:
        """How long it runs yet, or by when it has to end; if it cannot, when one is back."""
        mine = (each for each in pressing(self._state, broken) if each.item)
        loss = next((each.loss for each in mine), None)
        if loss is None:
            return _on_air(one, now_ms)
        way, at_ms = loss.ways[0]
        clock = "" if at_ms is None else _clock(self._state, at_ms, now_ms)
        if at_ms is not None and way is Way.REJOIN:
            told = f"you rejoin at {clock}{against_words(self._state, loss, at_ms)}"
        else:
            told = f"end it by {clock}" if at_ms is not None and at_ms > now_ms else "end it now"
        return Said(f"on the air, {told}", Tone.CLASH)

    def _placed(self, one: Running, clash: str, now_ms: int, *, gone: bool = False) -> ItemRow:
        """Where it is placed, or what it loses there; where it was, if it has not begun."""

        def words() -> Said:
            clock = _clock(self._state, one.from_ms, now_ms)
            if one.from_ms < now_ms and (clash or gone):
                tone = Tone.QUIET if gone else Tone.CLASH
                return Said(f"not begun; was at {clock}", tone)
            return Said(clash, Tone.CLASH) if clash else Said(f"at {clock}")

        return self._kept(one, (clash, gone, one.from_ms < now_ms, day_part(now_ms)), words)

    def _floating(
        self, one: Running, fit: Fits, figures: Figures, owes: Owing, now_ms: int
    ) -> ItemRow:
        first_ms, owed_by_ms = fit.first_start_ms, fit.owed_by_ms
        if first_ms is None:
            words = self._not_next(one.item, figures, owes, now_ms)
            return self._kept(one, words, lambda: words)
        held = self._held_up(figures, now_ms)
        if held:
            return self._kept(one, held, lambda: Said(held, Tone.QUIET))
        if first_ms > now_ms + _SOON_MS:
            key = (first_ms, day_part(now_ms))
            return self._kept(one, key, lambda: _later(self._state, first_ms, now_ms))
        if figures.unproven:  # by when, for all that is owed to have place, nobody can say
            return self._kept(one, "now", lambda: Said("fits now"))
        if owed_by_ms is None:
            return self._kept(one, "owed", lambda: Said("no room beside what is owed", Tone.QUIET))
        tight = fit.safe_until_ms is None or fit.safe_until_ms < max(now_ms, first_ms)
        leave = (owed_by_ms, tight, day_part(now_ms))
        return self._kept(one, leave, lambda: _leave(self._state, owed_by_ms, now_ms), tight=tight)

    def _not_next(self, item: Item, figures: Figures, owes: Owing, now_ms: int) -> Said:
        """Of an item that cannot come next: whether it can come after another, or in its place."""
        if item.id in figures.most:
            return Said("after another break", Tone.QUIET)
        if owes.moves_others(item.id):
            return Said("if others move", Tone.CHANGE)
        if not item.owed and self._state.has_room_alone(item.id, now_ms):
            return Said("no room beside what is placed", Tone.QUIET)
        return Said("no place", Tone.CLASH if item.owed else Tone.QUIET)

    def _held_up(self, figures: Figures, now_ms: int) -> str:
        """Until when nothing can begin, though nobody knows the time; '' where it can."""
        if figures.waiting:
            return "when there is word"
        return "when the air is back" if self._state.is_taken(now_ms) else ""

    def _kept(
        self, one: Running, key: object, words: Callable[[], Said], *, tight: bool = False
    ) -> ItemRow:
        """The row as written before if its key is the same."""
        known = self._written.get(one.item.id)
        if known is not None and known[0] == key:
            return known[1]
        row = _row(one, words(), tight=tight)
        self._written[one.item.id] = (key, row)
        return row


def _order(fit: Fits, number: int, now_ms: int) -> tuple[int, int]:
    if fit.first_start_ms is None:
        return _NONE, number
    if fit.first_start_ms <= now_ms + _SOON_MS:
        return _NOW, number
    return _THEN, fit.first_start_ms


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
    if over_ms >= SECOND_MS:
        return Said(f"on the air, over by {duration_words(over_ms)}", Tone.CHANGE)
    return Said(f"on the air, over in {duration_words(-over_ms)}")


def _leave(state: AirState, at_ms: int, now_ms: int) -> Said:
    if at_ms >= NEVER_MS:
        return Said("at any time")
    return Said(f"leave by {_clock(state, at_ms, now_ms)}")


def _later(state: AirState, at_ms: int, now_ms: int) -> Said:
    """'fits after 4:50' where that is the minute; else to the second, rounded up."""
    whole_ms = -(-at_ms // SECOND_MS) * SECOND_MS
    clock = _clock(state, whole_ms, now_ms, seconds=bool(whole_ms % MINUTE_MS))
    return Said(f"fits after {clock}", Tone.QUIET)


def _clock(state: AirState, at_ms: int, now_ms: int, *, seconds: bool = True) -> str:
    """A clock time in a narrow row: without its half of the day where that is the present one."""
    text = state.clock(at_ms, now_ms, seconds=seconds)
    if state.scene.style.hours is not Hours.TWELVE:
        return text
    half = state.clock(now_ms - now_ms % MINUTE_MS, now_ms)[-5:]
    return text.removesuffix(half) if text[:1].isdigit() else text
