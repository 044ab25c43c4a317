"""How lengths are rounded before they are said.

A chance left is rounded down: nobody looks away too long. A wait is rounded to the nearest. Neither
is finer than the give. Over five minutes whole minutes are said, below that half minutes, and under
one minute nothing: then the countdown itself is what one reads.
"""

from dataclasses import dataclass, replace

from core.times.writing import HOUR_MS, MINUTE_MS

HALF_MS = MINUTE_MS // 2
QUARTER_MS = MINUTE_MS // 4

HALVES_UNTIL_MS = 5 * MINUTE_MS
"""Waits are said in half minutes up to here."""
_DOWN_IN_HALVES_MS = 6 * MINUTE_MS
"""'Five and a half' is the last half of a chance: rounding down, it stands for less than six."""
LEAD_MS = 8_000
"""So far into a sentence a listener has understood a length: a chance is what is left then."""
_DOWN_MS = 20_000
"""A chance that is more than this above what it rounds down to is said otherwise."""

_STEPS_MS = (HALF_MS, *(n * MINUTE_MS for n in (1, 2, 5, 10, 15, 30)), HOUR_MS)


@dataclass(frozen=True, slots=True)
class Rounded:
    """A length as it is said, and between which real lengths it is true, both ends included.

    `under`: 'just under' it; `over`: 'more than' it; else about it.
    """

    said_ms: int
    low_ms: int
    high_ms: int
    under: bool = False
    over: bool = False


def step_ms(length_ms: int, give_ms: int = 0) -> int:
    """To what a wait of that length is rounded: never finer than its give."""
    finest_ms = HALF_MS if length_ms < HALVES_UNTIL_MS else MINUTE_MS
    wanted_ms = max(finest_ms, give_ms)
    return next((step for step in _STEPS_MS if step >= wanted_ms), _STEPS_MS[-1])


def wait(length_ms: int, give_ms: int = 0) -> Rounded | None:
    """A wait, to the nearest step. None under a minute."""
    if length_ms < MINUTE_MS:
        return None
    step = step_ms(length_ms, give_ms)
    said_ms = (length_ms + step // 2) // step * step
    if said_ms < MINUTE_MS:
        return None
    return Rounded(said_ms, said_ms - step // 2, said_ms + step // 2)


def chance(length_ms: int, give_ms: int = 0, lead_ms: int = LEAD_MS) -> Rounded | None:
    """What is left of something, rounded down as it will be when it is understood, `lead_ms` on.

    It stays true until a quarter of a minute is missing. Where that would be too far down, 'just
    under' the next half or whole minute is nearer the truth, or 'more than' a whole one. None
    under a minute.
    """
    then_ms = length_ms - lead_ms
    if then_ms < MINUTE_MS:
        return None
    if then_ms < _DOWN_IN_HALVES_MS and give_ms <= HALF_MS:
        return _in_halves(then_ms // HALF_MS * HALF_MS, length_ms, lead_ms)
    step = step_ms(max(then_ms, HALVES_UNTIL_MS), give_ms)
    said_ms = then_ms // step * step
    if step == MINUTE_MS and then_ms - said_ms >= HALF_MS:
        return _nearly(said_ms + MINUTE_MS, length_ms)
    if said_ms < MINUTE_MS:
        return None
    if step == MINUTE_MS and give_ms <= HALF_MS and length_ms - said_ms > _DOWN_MS:
        return Rounded(said_ms, said_ms + 1, said_ms + step + lead_ms, over=True)
    return Rounded(said_ms, said_ms - max(QUARTER_MS, give_ms // 2), said_ms + step + lead_ms)


def lengthened(rounded: Rounded, length_ms: int, needs_ms: int) -> Rounded:
    """The same chance, true for as long as that where it can be: up to half a minute short.

    'More than' a length cannot: it becomes about that.
    """
    if length_ms - rounded.low_ms >= needs_ms:
        return rounded
    low_ms = max(length_ms - needs_ms, rounded.said_ms - HALF_MS)
    return replace(rounded, low_ms=min(rounded.low_ms, low_ms), over=False)


def _in_halves(said_ms: int, length_ms: int, lead_ms: int) -> Rounded:
    """A chance rounded down to a half minute, or nearly the next one."""
    next_ms = said_ms + HALF_MS
    if length_ms - said_ms <= _DOWN_MS:
        return Rounded(said_ms, said_ms - QUARTER_MS, next_ms + lead_ms)
    if length_ms >= next_ms:
        return Rounded(next_ms, next_ms - QUARTER_MS, next_ms + lead_ms)
    return Rounded(next_ms, said_ms, next_ms - 1, under=True)


def at_least(length_ms: int) -> Rounded | None:
    """'More than' a length that grows or is fixed: rounded down. None under a minute."""
    if length_ms < MINUTE_MS:
        return None
    step = HALF_MS if length_ms < HALVES_UNTIL_MS else MINUTE_MS
    said_ms = (length_ms - 1) // step * step
    return Rounded(said_ms, said_ms + 1, said_ms + step) if said_ms >= MINUTE_MS else None


def _nearly(said_ms: int, length_ms: int) -> Rounded:
    """A chance that is about to fall below a whole minute, or is just below it."""
    if length_ms >= said_ms:
        return Rounded(said_ms, said_ms - QUARTER_MS, said_ms + HALF_MS)
    return Rounded(said_ms, said_ms - HALF_MS - QUARTER_MS, said_ms - 1, under=True)
