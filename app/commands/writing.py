"""How the commands write what they give: JSON with RFC 3339 times, and plain columns."""

import json
from collections.abc import Iterable, Sequence

from core.times.instants import ms_to_rfc3339
from core.times.writing import Style, dated_clock_text

_FIRST_MS, _LAST_MS = -62_000_000_000_000, 253_000_000_000_000
"""Within the years that any calendar has, in any zone: from 5 to 9987."""


def shown_ms(instant_ms: int | None) -> int | None:
    """The instant, if a calendar has it: a bound beyond all calendars is as good as open."""
    if instant_ms is None or not _FIRST_MS <= instant_ms <= _LAST_MS:
        return None
    return instant_ms


def time_out(instant_ms: int | None) -> str | None:
    """An instant as RFC 3339 UTC with milliseconds; None stays None."""
    known_ms = shown_ms(instant_ms)
    return None if known_ms is None else ms_to_rfc3339(known_ms)


def clock_out(instant_ms: int | None, style: Style, now_ms: int, otherwise: str = "") -> str:
    """An instant as a clock time with its day where that is not today's; else other words."""
    known_ms = shown_ms(instant_ms)
    return otherwise if known_ms is None else dated_clock_text(known_ms, style, now_ms)


def seconds_out(length_ms: int | None) -> float | None:
    """A length in seconds; None stays None."""
    return None if length_ms is None else length_ms / 1000


def as_json(value: object) -> str:
    """JSON as the commands print it, in ASCII: it means the same in whatever encoding it lands."""
    return json.dumps(value, indent=2)


def counted(count: int, one: str, more: str = "") -> str:
    """'1 gap', '2 gaps'; `more` is the plural where it is not just an s."""
    return f"{count} {one if count == 1 else more or f'{one}s'}"


def columns(rows: Iterable[Sequence[str]]) -> str:
    """Rows of text in columns two spaces apart; the last column is left as long as it is."""
    table = [tuple(row) for row in rows]
    if not table:
        return ""
    widths = [max(len(row[column]) for row in table) for column in range(len(table[0]) - 1)]
    lines = (
        "  ".join((*(text.ljust(w) for text, w in zip(row, widths, strict=False)), row[-1]))
        for row in table
    )
    return "\n".join(line.rstrip() for line in lines)
