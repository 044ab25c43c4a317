"""A session that is opened again: when it was last alive, where its clock goes on, what is said."""

from core.entries.model import ClockStep, ClockTold
from core.session.keeping import Beat, Kept
from core.times.clocks import SimClock
from core.times.writing import MINUTE_MS, Style, clock_text, short_duration_words

ALIVE_MS = 12 * 3_600_000
"""A plan's session that was alive within so long is gone on with; an older one is another day's."""


def last_alive_ms(kept: Kept) -> int | None:
    """The machine's time of the last sign of life; None where there is none."""
    signs = (kept.kept_ms, None if kept.beat is None else kept.beat.machine_ms)
    return max((sign for sign in signs if sign is not None), default=None)


def is_of_today(kept: Kept, machine_ms: int) -> bool:
    """Whether a session is to be gone on with when its plan is opened."""
    alive_ms = last_alive_ms(kept)
    return alive_ms is not None and machine_ms - alive_ms < ALIVE_MS


def rehearsal_clock(kept: Kept) -> SimClock | None:
    """A rehearsal's clock where the session was left; None where no one can tell."""
    beat = kept.beat or Beat(0, 0)
    at_ms = beat.board_ms
    if kept.entries and (kept.kept_ms is None or kept.kept_ms > beat.machine_ms):
        at_ms = max(at_ms, kept.entries[-1].at_ms)
    return SimClock(at_ms, rate=beat.rate, paused=beat.paused) if at_ms else None


def back_words(kept: Kept, machine_ms: int, style: Style) -> str:
    """The line for the window: 'Back after 3 min: 14 entries, the last at 4:41:03 p.m.'."""
    alive_ms = last_alive_ms(kept)
    after = "" if alive_ms is None else f" after {_away(machine_ms - alive_ms)}"
    entries = [e for e in kept.entries if not isinstance(e.action, ClockStep | ClockTold)]
    if not entries:
        return f"Back{after}: nothing was entered"
    count = "1 entry, " if len(entries) == 1 else f"{len(entries)} entries, the last "
    return f"Back{after}: {count}at {clock_text(entries[-1].at_ms, style)}"


def _away(length_ms: int) -> str:
    """A length in whole minutes, below one in seconds; none where the machine's clock went back."""
    if length_ms >= MINUTE_MS:
        length_ms -= length_ms % MINUTE_MS
    return short_duration_words(max(0, length_ms))
