"""Planned against happened over the day: a line an event, down the page in the plan's order.

The plan is the upright line; how far a mark lies from it is how late or early the event was. Near
the plan a second is wide, far from it an hour is narrow, by the inverse hyperbolic sine.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.record.svg import Ink, dot, fitted, line, path, picture, width_of, words
from core.session.record.model import DayRecord, EventRow, Stood
from core.session.record.words import REHEARSAL, against, stood
from core.times.writing import (
    HOUR_MS,
    MINUTE_MS,
    SECOND_MS,
    apart_ms,
    clock_text,
    date_text,
    local_time,
    short_duration_words,
    weekday_text,
)

_ROW = 21.0
_LEGEND, _AXIS, _FOOT = 26.0, 26.0, 26.0
_SIDE = 12.0
_HALF_MS = 20 * SECOND_MS
"""Up to about here the scale is even."""
_LEAST_MS = 30 * SECOND_MS
"""So much is shown to either side at least."""
_TICKS_MS = (
    10 * SECOND_MS, 30 * SECOND_MS, MINUTE_MS, 2 * MINUTE_MS, 5 * MINUTE_MS, 15 * MINUTE_MS,
    HOUR_MS, 4 * HOUR_MS, 24 * HOUR_MS, 240 * HOUR_MS,
)  # fmt: skip
_BETWEEN = 8.0
"""Between two labels of the scale."""
_OFF = frozenset({Stood.CALLED_OFF, Stood.OTHER_OUTCOME, Stood.GONE, Stood.UNKNOWN})


@dataclass(frozen=True, slots=True)
class Scale:
    """Differences to places across the page."""

    left: float
    right: float
    early_ms: int
    late_ms: int

    def x(self, by_ms: int) -> float:
        """Where a difference lies; one beyond the scale lies at its end."""
        low, high = _bent(self.early_ms), _bent(self.late_ms)
        part = (_bent(by_ms) - low) / (high - low)
        return self.left + (self.right - self.left) * min(1.0, max(0.0, part))

    def ticks(self) -> Iterator[int]:
        """Differences that are named: the plan, then outward on both sides as there is room."""
        yield 0
        for sign in (1, -1):
            last, wide = self.x(0), width_of(tick_words(0))
            for size_ms in _TICKS_MS:
                by_ms = sign * size_ms
                at, its = self.x(by_ms), width_of(tick_words(by_ms))
                inside = self.early_ms <= by_ms <= self.late_ms
                if inside and abs(at - last) >= (wide + its) / 2 + _BETWEEN:
                    yield by_ms
                    last, wide = at, its


def tick_words(by_ms: int) -> str:
    """What stands at a place of the scale: '+ 5 min', or that it is the plan."""
    if not by_ms:
        return "as planned"
    return f"{'+' if by_ms > 0 else '−'} {short_duration_words(by_ms)}"


@dataclass(frozen=True, slots=True)
class Slip:
    """An event with both times: by how much each word on it differed from the plan."""

    row: EventRow
    planned_ms: int
    by_ms: int
    steps_ms: tuple[int, ...]
    said_ms: int | None


def slips(record: DayRecord) -> tuple[Slip, ...]:
    """What there is to be drawn: events with a time in the plan and one at the end."""
    found = (_slip(row) for row in record.events if row.stood not in _OFF)
    known = [slip for slip in found if slip is not None]
    return tuple(sorted(known, key=lambda slip: slip.planned_ms))


def _slip(row: EventRow) -> Slip | None:
    planned_ms, last_ms, said_ms = row.planned_ms, row.last_ms, row.said_ms
    if planned_ms is None or last_ms is None:
        return None
    steps = (move.to_ms for move in row.moves if move.to_ms is not None)
    return Slip(
        row,
        planned_ms,
        apart_ms(last_ms, planned_ms),
        tuple(apart_ms(at_ms, planned_ms) for at_ms in steps),
        None if said_ms is None else apart_ms(said_ms, planned_ms),
    )


def slip_pictures(
    record: DayRecord, ink: Ink, width: float, rows: int, first_rows: int
) -> list[str]:
    """The picture, in as many as it needs at so many lines each, all on one scale."""
    found = slips(record)
    if not found:
        return []
    lines = _with_days(found, record.style.zone)
    begins = [0, *range(first_rows, len(lines), rows)]
    groups = [lines[low:high] for low, high in pairwise([*begins, len(lines)])]
    scale = _scale(found, width)
    return [_Drawing(record, ink, width, scale, group).svg() for group in groups]


def _with_days(found: Iterable[Slip], zone: str) -> list[Slip | str]:
    """The slips, and before each day's first one the day."""
    lines: list[Slip | str] = []
    last = None
    for slip in found:
        day = local_time(slip.planned_ms, zone).date()
        if day != last:
            at_ms = slip.planned_ms
            lines.append(f"{weekday_text(at_ms, zone)}, {date_text(at_ms, zone)}")
            last = day
        lines.append(slip)
    return lines


def _scale(found: Sequence[Slip], width: float) -> Scale:
    every = [by_ms for slip in found for by_ms in (slip.by_ms, *slip.steps_ms)]
    return Scale(
        width * 0.43,
        width - 162,
        min(-_LEAST_MS, *(round(by_ms * 1.15) for by_ms in every)),
        max(_LEAST_MS, *(round(by_ms * 1.15) for by_ms in every)),
    )


class _Drawing:
    """One picture of some of the lines."""

    def __init__(
        self, record: DayRecord, ink: Ink, width: float, scale: Scale, lines: Sequence[Slip | str]
    ) -> None:
        self._record, self._ink, self._width = record, ink, width
        self._scale, self._lines = scale, lines
        self._top = _LEGEND + _AXIS
        self._bottom = self._top + len(lines) * _ROW

    def svg(self) -> str:
        """The picture."""
        shapes = [*self._legend(), *self._axis(), *self._way()]
        for place, each in enumerate(self._lines):
            y = self._top + (place + 0.5) * _ROW
            shapes += [self._day(each, y)] if isinstance(each, str) else self._row(each, y)
        title = "Planned against happened: by how much each event was earlier or later"
        return picture(self._width, self._bottom + _FOOT, title, shapes, self._ink.font)

    def _legend(self) -> Iterator[str]:
        ink, y, x = self._ink, 12.0, _SIDE
        signs: tuple[tuple[Callable[[float], str], str], ...] = (
            (lambda at: dot(at, y, 4.5, ink.text), "happened"),
            (lambda at: dot(at, y, 4.5, ink.ground, ink.text), "expected, not confirmed"),
            (lambda at: dot(at, y, 2.4, ink.change), "expected before that"),
            (
                lambda at: line(at, y - 8.5, at, y + 8.5, ink.picture, 3),
                "last told to the audience",
            ),
        )
        for sign, text in signs:
            yield sign(x + 5)
            yield words(x + 16, y + 4.5, text, ink.quiet)
            x += 16 + width_of(text) + 18
        if self._record.rehearsal:
            yield words(
                self._width - _SIDE,
                y + 4.5 + _AXIS,
                REHEARSAL,
                ink.text,
                13,
                "end",
                600,
            )

    def _axis(self) -> Iterator[str]:
        ink = self._ink
        for by_ms in self._scale.ticks():
            x = self._scale.x(by_ms)
            yield line(x, self._top, x, self._bottom, ink.thread if not by_ms else ink.rule)
            colour = ink.quiet if by_ms else ink.text
            for y in (self._top - 8, self._bottom + 17):
                yield words(x, y, tick_words(by_ms), colour, 13, "middle")

    def _way(self) -> Iterator[str]:
        """The way of the day: from what happened to what happened next."""
        points = [
            (self._scale.x(each.by_ms), self._top + (place + 0.5) * _ROW)
            for place, each in enumerate(self._lines)
            if isinstance(each, Slip) and each.row.happened_ms is not None
        ]
        if len(points) > 1:
            yield path(points, self._ink.thread)

    def _day(self, text: str, y: float) -> str:
        return words(_SIDE, y + 5, text, self._ink.text, 13, weight=600)

    def _row(self, slip: Slip, y: float) -> Iterator[str]:
        ink, scale, row = self._ink, self._scale, slip.row
        clock = clock_text(slip.planned_ms, self._record.style)
        yield words(_SIDE + 88, y + 4.5, clock, ink.quiet, 13, "end")
        name_x = _SIDE + 100
        name = fitted(row.name, scale.left - name_x - 8)
        yield words(name_x, y + 4.5, name, ink.text, 13, weight=600 if row.live else 400)
        plan, last = scale.x(0), scale.x(slip.by_ms)
        if abs(last - plan) > 1:
            yield line(plan, y, last, y, ink.text, 1.6)
        if slip.said_ms is not None:
            said = scale.x(slip.said_ms)
            yield line(said, y - 8.5, said, y + 8.5, ink.picture, 3)
        for by_ms in dict.fromkeys(slip.steps_ms):
            yield dot(scale.x(by_ms), y, 2.4, ink.change)
        happened = row.happened_ms is not None
        yield dot(last, y, 4.5, ink.text if happened else ink.ground, "" if happened else ink.text)
        yield from self._amount(row, y)

    def _amount(self, row: EventRow, y: float) -> Iterator[str]:
        told = against(row) or stood(row)
        x, room = self._scale.right + 12, self._width - self._scale.right - 12
        shown = fitted(told, room)
        colour = self._ink.quiet if told == "on time" or row.happened_ms is None else self._ink.text
        yield words(x, y + 4.5, shown, colour)


def _bent(by_ms: int) -> float:
    return math.asinh(by_ms / _HALF_MS)
