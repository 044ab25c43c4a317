"""The day's strip: lanes of the signal down the page, items left of them, events right of them."""

from collections.abc import Iterator, Sequence

from app.record.day import Strip, item_end_ms, strips
from app.record.fills import filled
from app.record.spreading import spread
from app.record.svg import Ink, box, dot, fitted, line, path, picture, width_of, words
from core.session.record.model import DayRecord, EdgeRow, Stood
from core.session.record.words import REHEARSAL
from core.signal.model import Fill, Stretch
from core.times.writing import (
    HOUR_MS,
    MINUTE_MS,
    clock_text,
    date_text,
    dated_clock_text,
    local_time,
)

_LEGEND, _HEADS, _FOOT = 28.0, 24.0, 12.0
_SIDE = 12.0
_LINE = 18.0
_HOUR_HIGH = 210.0
_LEAST_HIGH, _MOST_HIGH = 320.0, 960.0
_TICKS_MS = tuple(
    minutes * MINUTE_MS for minutes in (1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440)
)
_TICK_HIGH = 54.0
_CLOCKS, _NAMES, _BOXES, _LANE, _BETWEEN = 76.0, 230.0, 26.0, 74.0, 7.0
_LEGEND_SIGNS = (
    (Fill.CONTACT, "signal"),
    (Fill.GAP, "no signal"),
    (Fill.EITHER, "either"),
    (Fill.CLOSED, "closed by the ground"),
)


def strip_pictures(record: DayRecord, ink: Ink, width: float) -> list[str]:
    """The day, in as many pictures as it needs to be read."""
    return [_Drawing(record, ink, width, strip).svg() for strip in strips(record)]


class _Drawing:
    """One stretch of the day."""

    def __init__(self, record: DayRecord, ink: Ink, width: float, strip: Strip) -> None:
        self._record, self._ink, self._width, self._strip = record, ink, width, strip
        self._top = _LEGEND + _HEADS
        self._high = self._height()
        self._bottom = self._top + self._high
        share = min(1.0, width / 1000)
        # A narrow page takes more from the items' names than from those of the events.
        wide = _NAMES - (1 - share) * 550
        names = wide + 10 if strip.items or record.away else 0
        self._boxes = _SIDE + _CLOCKS + names
        self._lanes = self._boxes + (_BOXES + 12 if names else 12)
        self._lane = min(_LANE * share, 300 / max(1, len(strip.lanes)))
        self._lanes_end = self._lanes + len(strip.lanes) * (self._lane + _BETWEEN)

    def svg(self) -> str:
        """The picture."""
        shapes = [
            *self._legend(),
            *self._hours(),
            *self._columns(),
            *self._observed(),
            *self._items(),
            *self._away(),
            *self._events(),
        ]
        title = f"The day's strip, {self._when()}"
        return picture(self._width, self._bottom + _FOOT, title, shapes, self._ink.font)

    def _when(self) -> str:
        style, low, high = self._record.style, self._strip.from_ms, self._strip.to_ms
        begun, ended = (clock_text(at_ms, style, seconds=False) for at_ms in (low, high))
        return f"{date_text(low, style.zone)}, {begun} to {ended}"

    def _height(self) -> float:
        hours = (self._strip.to_ms - self._strip.from_ms) / HOUR_MS
        wanted = max(hours * _HOUR_HIGH, _LEAST_HIGH, len(self._strip.marks) * _LINE * 1.1)
        return max(min(wanted, _MOST_HIGH), len(self._strip.marks) * _LINE)

    def _y(self, at_ms: int) -> float:
        long_ms = self._strip.to_ms - self._strip.from_ms
        part = (at_ms - self._strip.from_ms) / long_ms
        return self._top + self._high * min(1.0, max(0.0, part))

    # ------------------------------------------------------------ what it is

    def _legend(self) -> Iterator[str]:
        ink, x, y = self._ink, _SIDE, 4.0
        used = {each.fill for lane, _ in self._strip.lanes for each in lane.stretches}
        for fill, text in _LEGEND_SIGNS:
            if fill in used:
                yield from filled(fill, "voice", (x, y, 26, 13), ink)
                yield words(x + 33, y + 11, text, ink.quiet)
                x += 33 + width_of(text) + 18
        for fill_with, edge, text in (
            (ink.text, "", "happened"),
            (ink.ground, ink.text, "not confirmed"),
        ):
            yield dot(x + 5, y + 6.5, 4.5, fill_with, edge)
            yield words(x + 15, y + 11, text, ink.quiet)
            x += 15 + width_of(text) + 18
        if any(row.observed_ms is not None for row in self._record.edges):
            yield line(x, y + 6.5, x + 20, y + 6.5, ink.text, 3)
            yield words(x + 27, y + 11, "edge as observed", ink.quiet)
        if self._record.rehearsal:
            yield words(self._width - _SIDE, self._top - 8, REHEARSAL, ink.text, 13, "end", 600)

    def _hours(self) -> Iterator[str]:
        """Clock times at even steps, and thin lines across the lanes."""
        ink, style = self._ink, self._record.style
        last = None
        for at_ms in _ticks(self._strip, self._high, style.zone):
            y = self._y(at_ms)
            day = local_time(at_ms, style.zone).date()
            text = clock_text(at_ms, style, seconds=False)
            if y > self._top + 6 and y < self._bottom - 4:
                yield words(_SIDE + _CLOCKS - 10, y + 4.5, text, ink.quiet, 13, "end")
                if last is not None and day != last:
                    there = dated_clock_text(at_ms, style, at_ms - 24 * HOUR_MS, seconds=False)
                    name = there.partition(" ")[0]
                    yield words(_SIDE, y - 10, name, ink.text, 13, weight=600)
            yield line(_SIDE + _CLOCKS - 4, y, _SIDE + _CLOCKS + 4, y, ink.thread)
            yield line(self._lanes - 6, y, self._lanes_end, y, ink.rule)
            last = day

    # ------------------------------------------------------------ the signal

    def _columns(self) -> Iterator[str]:
        ink = self._ink
        for place, (lane, lane_role) in enumerate(self._strip.lanes):
            x = self._lanes + place * (self._lane + _BETWEEN)
            name = fitted(lane.name, self._lane + _BETWEEN - 2)
            yield words(x + self._lane / 2, self._top - 8, name, ink.text, 13, "middle", 600)
            for stretch in lane.stretches:
                yield from self._stretch(stretch, lane_role, x)

    def _stretch(self, stretch: Stretch, lane_role: str, x: float) -> Iterator[str]:
        low, high = self._strip.from_ms, self._strip.to_ms
        from_ms = low if stretch.from_ms is None else stretch.from_ms
        to_ms = high if stretch.to_ms is None else stretch.to_ms
        top, bottom = self._y(from_ms), self._y(to_ms)
        if bottom - top < 0.3:
            return
        yield from filled(stretch.fill, lane_role, (x, top, self._lane, bottom - top), self._ink)
        text = stretch.cause if stretch.fill is Fill.GAP else stretch.ground or ""
        yield from self._upon(stretch.fill, text, x, (top + bottom) / 2, bottom - top)

    def _upon(self, fill: Fill, text: str, x: float, y: float, high: float) -> Iterator[str]:
        """The station or the cause within the stretch, word under word where there is room."""
        lines = _stacked(text, self._lane - 6)
        if not text or high < len(lines) * 14 + 6 or fill in (Fill.EITHER, Fill.CLOSED):
            return
        ink = self._ink
        wide = max(width_of(each, 12) for each in lines) + 6
        first = y - (len(lines) - 1) * 7
        if fill is Fill.GAP:
            yield box(
                x + (self._lane - wide) / 2, first - 10, wide, len(lines) * 14 + 5, ink.ground
            )
        colour = ink.quiet if fill is Fill.GAP else "#14110c"
        for place, each in enumerate(lines):
            baseline = first + place * 14 + 4
            yield words(x + self._lane / 2, baseline, each, colour, 12, "middle")

    def _observed(self) -> Iterator[str]:
        places = {lane.id: place for place, (lane, _) in enumerate(self._strip.lanes)}
        for row in self._record.edges:
            if row.lane in places and self._is_here(row):
                x = self._lanes + places[row.lane] * (self._lane + _BETWEEN)
                y = self._y(row.at_ms)
                yield line(x - 3, y, x + self._lane + 3, y, self._ink.text, 3)

    def _is_here(self, row: EdgeRow) -> bool:
        low, high = self._strip.from_ms, self._strip.to_ms
        return row.observed_ms is not None and low <= row.observed_ms < high

    # ------------------------------------------------------------ the programme

    def _items(self) -> Iterator[str]:
        ink, rows, end_ms = self._ink, self._strip.items, self._record.end_ms
        tops = [self._y(row.from_ms or 0) for row in rows]
        bottoms = [self._y(item_end_ms(row, end_ms)) for row in rows]
        middles = [(top + bottom) / 2 for top, bottom in zip(tops, bottoms, strict=True)]
        heights = spread(middles, _LINE, self._top + 6, self._bottom - 6)
        room = self._boxes - 16 - _SIDE - _CLOCKS
        for row, top, bottom, middle, at in zip(rows, tops, bottoms, middles, heights, strict=True):
            yield box(self._boxes, top, _BOXES, max(2.0, bottom - top), ink.ground, ink.text, 1.6)
            yield path([(self._boxes - 12, at), (self._boxes - 2, middle)], ink.thread)
            name = fitted(row.name, room)
            yield words(self._boxes - 16, at + 4.5, name, ink.text, 13, "end")

    def _away(self) -> Iterator[str]:
        """The network's hours: level lines in the items' column."""
        for away in self._record.away:
            until_ms = self._record.end_ms if away.until_ms is None else away.until_ms
            top, bottom = self._y(away.from_ms), self._y(until_ms)
            if bottom - top > 1:
                at = (self._boxes, top, _BOXES, bottom - top)
                yield from filled(Fill.CLOSED, "", at, self._ink)
                y = (top + bottom) / 2 + 4.5
                yield words(self._boxes - 16, y, "network", self._ink.quiet, 13, "end")

    # ------------------------------------------------------------ events

    def _events(self) -> Iterator[str]:
        ink, marks = self._ink, self._strip.marks
        wanted = [self._y(mark.at_ms) for mark in marks]
        heights = spread(wanted, _LINE, self._top + 6, self._bottom - 4)
        start, knee = self._lanes_end + 4, self._lanes_end + 40
        for mark, y, at in zip(marks, wanted, heights, strict=True):
            happened = mark.row.stood is Stood.HAPPENED
            yield path([(start + 6, y), (knee - 14, y), (knee - 2, at)], ink.thread)
            edge = "" if happened else ink.text
            yield dot(start + 4, y, 4.5, ink.text if happened else ink.ground, edge)
            yield from self._label(mark.at_ms, mark.row.name, knee, at, live=mark.row.live)

    def _label(self, at_ms: int, name: str, x: float, y: float, *, live: bool) -> Iterator[str]:
        clock = clock_text(at_ms, self._record.style)
        wide = 66 if len(clock) <= 8 else 92
        yield words(x + wide - 8, y + 4.5, clock, self._ink.quiet, 13, "end")
        shown = fitted(name, self._width - x - wide - _SIDE)
        yield words(x + wide, y + 4.5, shown, self._ink.text, 13, weight=600 if live else 400)


def _ticks(strip: Strip, high: float, zone: str) -> Iterator[int]:
    """Even clock times of the zone, so far apart that they can be read."""
    long_ms = strip.to_ms - strip.from_ms
    wide_enough = (step for step in _TICKS_MS if high * step / long_ms >= _TICK_HIGH)
    step_ms = next(wide_enough, _TICKS_MS[-1])
    quarter_ms = min(step_ms, 15 * MINUTE_MS)
    at_ms = -(-strip.from_ms // quarter_ms) * quarter_ms
    while at_ms < strip.to_ms:
        there = local_time(at_ms, zone)
        since_midnight_ms = (there.hour * 60 + there.minute) * MINUTE_MS
        if since_midnight_ms % step_ms == 0:
            yield at_ms
        at_ms += quarter_ms


def _stacked(text: str, room: float) -> Sequence[str]:
    """A text in lines that fit, broken between words; a long word is shortened."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, 12) <= room:
            lines[-1] = longer
        else:
            lines.append(fitted(word, room, 12))
    return lines
