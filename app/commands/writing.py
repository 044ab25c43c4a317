"""How the commands write what they give: JSON with RFC 3339 times, and plain columns."""

import json
from collections.abc import Iterable, Sequence

from core.times.instants import ms_to_rfc3339


def time_out(instant_ms: int | None) -> str | None:
    """An instant as RFC 3339 UTC with milliseconds; None stays None."""
    return None if instant_ms is None else ms_to_rfc3339(instant_ms)


def seconds_out(length_ms: int | None) -> float | None:
    """A length in seconds; None stays None."""
    return None if length_ms is None else length_ms / 1000


def as_json(value: object) -> str:
    """JSON as the commands print it."""
    return json.dumps(value, ensure_ascii=False, indent=2)


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
