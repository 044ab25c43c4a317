"""A sentence as the screens show it, and whether it has been said."""

from collections.abc import Sequence

from core.board.programme import Sentence
from core.board.sounding import Sounding, sounds_in
from core.entries.airing import MarkSaid
from core.saying.model import Told
from core.times.writing import HOUR_MS, MINUTE_MS, short_duration_words

_LONG_MS = 12 * HOUR_MS


def is_of(said: MarkSaid, told: Told) -> bool:
    """Whether it was that sentence, or one like it with the same times: only the wait differs."""
    alike = said.text.split()[:1] == told.twenty.split()[:1]
    times = bool(told.times) and set(said.times) == set(told.times)
    return said.text in (told.line, told.twenty, told.long) or (alike and times)


def shown(told: Told, now_ms: int, names: Sequence[Sounding] = ()) -> Sentence:
    """With for how long it stays true from now on, and how those of the names sound it has."""
    return Sentence(
        told.line,
        told.twenty,
        told.long,
        _true_for(told.until_ms - now_ms),
        told.until_ms,
        told.times,
        sounds_in(told.twenty or told.line, names),
        sounds_in(told.line or told.twenty, names),
    )


def _true_for(left_ms: int) -> str:
    """'true for 40 s', 'true for 5 min'; nothing of what only a change can end."""
    if left_ms >= _LONG_MS:
        return ""
    if left_ms >= 2 * MINUTE_MS:
        left_ms = left_ms // MINUTE_MS * MINUTE_MS
    return f"true for {short_duration_words(max(0, left_ms))}"
