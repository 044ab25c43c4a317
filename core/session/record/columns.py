"""Calm columns of plain text that keep within a width: a cell too long for its column wraps."""

import textwrap
from collections.abc import Iterable, Iterator, Sequence

_BETWEEN = "  "
_LEAST = 8
"""No column is made narrower than this."""


def table(rows: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    """The rows as lines no longer than `width`; there is at least one row and one column."""
    widths = _widths(rows, width)
    for row in rows:
        cells = [_wrapped(cell, wide) for cell, wide in zip(row, widths, strict=True)]
        for at in range(max(len(cell) for cell in cells)):
            parts = (cell[at] if at < len(cell) else "" for cell in cells)
            padded = (part.ljust(wide) for part, wide in zip(parts, widths, strict=True))
            yield _BETWEEN.join(padded).rstrip()


def paragraph(text: str, width: int, indent: str = "") -> Iterator[str]:
    """The text in lines no longer than `width`, those after the first set in."""
    yield from textwrap.wrap(text, width, subsequent_indent=indent, break_on_hyphens=False) or ("",)


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, break_on_hyphens=False) or [""]


def _widths(rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """As wide as the longest cell; while that is too much, the widest column gives way."""
    widths = [max(1, *(len(row[at]) for row in rows)) for at in range(len(rows[0]))]
    room = width - len(_BETWEEN) * (len(widths) - 1)
    least = [_least(row[at] for row in rows) for at in range(len(widths))]
    while sum(widths) > room:
        spare = [wide - low for wide, low in zip(widths, least, strict=True)]
        if max(spare) <= 0:
            least = [min(low, _LEAST) for low in least]
            if all(wide <= _LEAST for wide in widths):
                break
            continue
        widest = max(range(len(widths)), key=lambda at: (spare[at] > 0, widths[at]))
        widths[widest] -= 1
    return widths


def _least(cells: Iterable[str]) -> int:
    """The longest word of a column: narrower than that it is broken. A firm space parts none."""
    return max((len(word) for cell in cells for word in cell.split(" ")), default=1)
