"""CONTACT: each lane, how long it is as it is, through whom, what comes then, and the totals."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QRegion, QResizeEvent

from app.desk import ink
from app.desk.figures import figure_runs, fitting_runs
from app.desk.ink import Placed, Run
from app.desk.panel import HEAD, PAD, Panel
from app.theme import Text, Theme
from core.board.model import ContactPanel, LaneNow

_LANE = 100
_SHORT_LANE = 40
_LINE = 24
_TOTAL = 23
_TOTAL_LINES = 2
_APART = 8
_BELOW_LINES = 2
"""At most so many lines for through whom a lane goes, and as many for what comes then."""
_USUAL_LINES = 2
"""Below a lane's figure."""
_FIGURE_AT = 130
_INDENT = 14


@dataclass(frozen=True, slots=True)
class _Laid:
    """All that is painted: a tick in the colour of each lane, and the words."""

    ticks: tuple[tuple[QRectF, QColor], ...] = ()
    words: tuple[Placed, ...] = ()


_Lines = list[tuple[tuple[str, ...], Text]]
"""Texts as they break, each with its kind."""


class Contact(Panel):
    """The panel of the signal as it is now; of it only what has changed is painted anew."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("CONTACT", theme)
        self._shown = ContactPanel((), ())
        self._laid = _Laid()
        self._breaks: dict[tuple[LaneNow, float, float], _Lines] = {}

    def show_contact(self, contact: ContactPanel) -> None:
        """Show another state of the lanes."""
        if contact != self._shown:
            self._shown = contact
            self._breaks.clear()
            spoken = (*(_spoken(lane) for lane in contact.lanes), *_above_totals(contact))
            self.setAccessibleDescription("; ".join(filter(None, spoken)))
            self._lay()

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        super().set_theme(theme)
        self._lay()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the words out for another size."""
        super().resizeEvent(event)
        self._lay()
        self.update()

    def wanted_px(self) -> float:
        """How high it would like to be at its present width."""
        lines = sum(map(len, self._notes(self._room_px())))
        return self.least_px() + self.theme.px(lines * _TOTAL + 14) + self._apart_px()

    def least_px(self) -> int:
        """How high it has to be for the lanes alone, without what stands below them."""
        room_px = self._room_px()
        lanes = sum(self._high(lane, room_px) for lane in self._shown.lanes)
        return self.theme.px(HEAD + lanes + 12)

    def short_px(self) -> int:
        """How high it has to be at the very least: a line a lane, and once through whom.

        What comes then is left to the cards.
        """
        ways = self._ways(self._room_px())
        lines = 0 if self._fits_heading(ways) else sum(map(len, ways))
        return self.theme.px(HEAD + len(self._shown.lanes) * _SHORT_LANE + lines * _TOTAL + 20)

    def fit_px(self, most_px: float) -> int:
        """How high it is with what of that fits whole."""
        least_px = self.least_px()
        if most_px < least_px:
            return self.short_px()
        notes = self.notes_within(self._room_px(), most_px - least_px - self._apart_px() - 4)
        lines = sum(map(len, notes))
        if not lines:
            return least_px
        return least_px + self.theme.px(lines * _TOTAL + 14) + self._apart_px()

    def paint_part(self, painter: QPainter, room: QRectF, part: QRegion) -> None:
        """Paint a block for each lane, and the rest below, as far as there is room."""
        del room
        for tick, colour in self._laid.ticks:
            painter.fillRect(tick, colour)
        ink.draw_placed(painter, self._laid.words, part)

    def _lay(self) -> None:
        """Place everything, and paint anew what stands otherwise than before."""
        before, self._laid = self._laid, self._placed()
        if before.ticks != self._laid.ticks:
            self.update()
        else:
            self.update(ink.renewed(before.words, self._laid.words))

    def _placed(self) -> _Laid:
        theme, room = self.theme, self.room()
        ticks: list[tuple[QRectF, QColor]] = []
        words: list[Placed] = []
        top, short = room.top(), self.height() < self.least_px()
        for lane in self._shown.lanes:
            baseline = top + theme.px(40)
            tick = QRectF(room.left(), baseline - theme.px(19), theme.px(5), theme.px(22))
            ticks.append((tick, theme.ink.lane(lane.colour)))
            words += self._figure(room, baseline, lane)
            if not short:
                words += self._lines(room, baseline, lane)
            top += theme.px(_SHORT_LANE if short else self._high(lane, room.width()))
        if short:
            words += self._short_ways(room, top + theme.px(4))
        else:
            words += self._notes_below(room, top + theme.px(8))
        return _Laid(tuple(ticks), tuple(words))

    def _notes_below(self, room: QRectF, top: float) -> list[Placed]:
        high_px = room.bottom() + self.theme.px(4) - top - self._apart_px()
        notes = self.notes_within(room.width(), high_px)
        above = len(_above_totals(self._shown))
        first = self._written(notes[:above], room.left(), top)
        top += self.theme.px(_TOTAL) * len(first) + self._apart_px()
        return first + self._written(notes[above:], room.left(), top)

    def _written(
        self, texts: Iterable[tuple[str, ...]], left_px: float, top_px: float
    ) -> list[Placed]:
        """Place lines in the quiet tone, one below the other."""
        theme, words = self.theme, list[Placed]()
        font = theme.font(Text.NOTE)
        for line in (line for lines in texts for line in lines):
            top_px += theme.px(_TOTAL)
            words += ink.placed(left_px, top_px, [Run(line, font, theme.ink.quiet)])
        return words

    def _short_ways(self, room: QRectF, top_px: float) -> list[Placed]:
        """Place through whom the lanes go: beside the heading if it is one short text."""
        ways = self._ways(room.width())
        if not self._fits_heading(ways):
            return self._written(ways, room.left() + self.theme.px(_INDENT), top_px)
        way = Run(ways[0][0], self.theme.font(Text.NOTE), self.theme.ink.quiet)
        return ink.placed_right(room.right(), room.top(), [way])

    def _fits_heading(self, ways: Sequence[tuple[str, ...]]) -> bool:
        """Whether there is but one text, and it has room beside the heading."""
        if len(ways) != 1 or len(ways[0]) != 1:
            return False
        used_px = ink.width_px(self.heading_runs()) + self.theme.px(24)
        return used_px + self.theme.width_px(Text.NOTE, ways[0][0]) <= self._room_px()

    def _ways(self, room_px: float) -> list[tuple[str, ...]]:
        """Give through whom the lanes go, or why they do not: once where it is the same for all."""
        told: dict[str, list[str]] = {}
        for lane in self._shown.lanes:
            word = "" if self._is_beside(lane, room_px) else lane.word
            text = "; ".join(filter(None, (word, lane.through)))
            told.setdefault(text, []).append(lane.name)
        told.pop("", None)
        alone = len(told) == 1 and len(self._shown.lanes) == len(next(iter(told.values())))
        font, left_px = self.theme.font(Text.NOTE), room_px - self.theme.px(_INDENT)
        return [
            ink.wrapped(
                text if alone else f"{', '.join(names)}: {text}", font, left_px, _BELOW_LINES
            )
            for text, names in told.items()
        ]

    def notes_within(self, room_px: float, high_px: float) -> list[tuple[str, ...]]:
        """Give what is written below the lanes in that room: each whole, or not at all.

        Half a total says something else than the whole, and so does the totals' heading alone.
        """
        notes, fitting = self._notes(room_px), list[tuple[str, ...]]()
        heading = len(notes) - len(self._shown.totals)
        for place, lines in enumerate(notes):
            needed = sum(map(len, notes[place : place + 2])) if place == heading else len(lines)
            if self.theme.px(_TOTAL) * needed > high_px:
                break
            fitting.append(lines)
            high_px -= self.theme.px(_TOTAL) * len(lines)
        return fitting

    def _apart_px(self) -> int:
        """How far the totals stand from what is above them."""
        return self.theme.px(_APART) if _above_totals(self._shown) else 0

    def _room_px(self) -> float:
        return self.width() - 2 * self.theme.px(PAD)

    def _high(self, lane: LaneNow, room_px: float) -> int:
        """How high a lane's block is at 1600x1000."""
        lines = sum(len(lines) for lines, _ in self._below(lane, room_px))
        return _LANE + max(0, lines - _USUAL_LINES) * _LINE

    def _notes(self, room_px: float) -> list[tuple[str, ...]]:
        """Give distance, delays and totals as they break into lines."""
        shown, font = self._shown, self.theme.font(Text.NOTE)
        texts = (*_above_totals(shown), *shown.totals)
        return [ink.wrapped(each, font, room_px, _TOTAL_LINES) for each in texts]

    def _figure(self, room: QRectF, baseline: float, lane: LaneNow) -> list[Placed]:
        """Place a lane's name, its figure, and the word that goes with that."""
        theme = self.theme
        left = room.left() + theme.px(_INDENT)
        name = Run(lane.name, theme.font(Text.BIG_LINE), theme.ink.text, theme.px(12))
        words = ink.placed(left, baseline, [ink.fitted(name, theme.px(_FIGURE_AT - 20))])
        if lane.figure is not None:
            at_px = theme.px(_FIGURE_AT)
            figure = fitting_runs(lane.figure, theme, room.width() - at_px)
            words += ink.placed(room.left() + at_px, baseline, figure)
        if self._is_beside(lane, room.width()):
            word = Run(lane.word, theme.font(Text.BODY), theme.ink.quiet)
            words += ink.placed_right(room.right(), baseline, [word])
        return words

    def _lines(self, room: QRectF, baseline: float, lane: LaneNow) -> list[Placed]:
        """Place what stands below a lane's figure."""
        theme, words = self.theme, list[Placed]()
        left = room.left() + theme.px(_INDENT)
        for lines, style in self._below(lane, room.width()):
            for line in lines:
                baseline += theme.px(_LINE)
                run = Run(line, theme.font(style), theme.ink.quiet)
                words += ink.placed(left, baseline, [run])
        return words

    def _is_beside(self, lane: LaneNow, room_px: float) -> bool:
        """Whether a lane's word has room at the right of its figure."""
        theme = self.theme
        end_px = theme.px(_FIGURE_AT)
        if lane.figure is not None:
            end_px += round(ink.width_px(figure_runs(lane.figure, theme))) + theme.px(7)
        return end_px + theme.width_px(Text.BODY, lane.word) <= room_px

    def _below(self, lane: LaneNow, room_px: float) -> _Lines:
        """Give what stands below a lane's figure: asked several times a second."""
        key = (lane, room_px, self.theme.scale)
        if key not in self._breaks:
            self._breaks[key] = self._broken(lane, room_px)
        return self._breaks[key]

    def _broken(self, lane: LaneNow, room_px: float) -> _Lines:
        """Break what stands below a lane's figure, smaller where it is too long.

        A word too long for its place comes before what stands there.
        """
        theme = self.theme
        left_px = room_px - theme.px(_INDENT)
        word = "" if self._is_beside(lane, room_px) else lane.word
        found = []
        for text in ("; ".join(filter(None, (word, lane.through))), lane.then):
            small = theme.width_px(Text.SMALL, text) <= left_px < theme.width_px(Text.NOTE, text)
            style = Text.SMALL if small else Text.NOTE
            lines = ink.wrapped(text, theme.font(style), left_px, _BELOW_LINES)
            if text:
                found.append((lines, style))
        return found


def _above_totals(contact: ContactPanel) -> tuple[str, ...]:
    """Give what stands between the lanes and the totals."""
    return tuple(filter(None, (contact.distance, *contact.delays)))


def _spoken(lane: LaneNow) -> str:
    parts = lane.figure.parts if lane.figure else ()
    figure = " ".join(f"{digits} {unit}" for digits, unit in parts)
    return " ".join(part for part in (lane.name, figure, lane.word, lane.through) if part)
