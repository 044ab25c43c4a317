"""What is written in the ON AIR lane and beside it: names, 'on the air', a clash, junctions."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor

from app.strip.air import AirColumn
from app.strip.air_paint import NOTHING_HELD, Held, box_rect, carried_rects, outline
from app.strip.frame import Frame, heading_px, sagitta_px
from app.strip.placing import Placing
from app.theme import Text, Theme
from app.words import Words
from core.board.programme import AirBox, ItemState

HEADING = "ON AIR"
ON_THE_AIR = "on the air"
CLASH = "◆ clash"
AWAY = "off the air"
LIVE = "live"
_PLACES_IN_BAND = (0.5, 0.25, 0.75, 0.12, 0.88)
"""Where down a band its words may stand: the first that is free."""
_PAD_PX = 4
_RIM_PX = 1
_HANGING = frozenset("gjpqy,")
"""Letters that reach below the line: they are not to touch the box."""
_LINE_PX = 16
"""From one line of a name to the next."""
_LOW_PX = 16
"""A live stretch lower than this has its word only if it is the first."""
_APART_PX = 18
"""From one text beside the lane to the next."""
_STEPS = (0, 1, -1, 2)
"""So many lines off the middle of what it belongs to a text may stand: the first that is free."""
_ABOVE_NOW = (-2, -1, 0, 1)
"""What is on the air crosses the limb: above the word for now its own stand next to it."""


class AirWords:
    """Places the lane's words: those of the items come before the ticks, the rest after."""

    def __init__(
        self,
        frame: Frame,
        air: AirColumn,
        theme: Theme,
        placing: Placing,
        held: Held = NOTHING_HELD,
    ) -> None:
        self._frame = frame
        self._held = held
        self._air = air
        self._theme = theme
        self._placing = placing
        self._beside_yet: list[tuple[AirBox, QRectF]] = []

    def inside(self) -> None:
        """Write the heading, the names that fit their boxes, and what is on the air."""
        self._heading()
        held = dict(self._held.carried)
        for box in self._in_sight():
            goes_ms = held.get(box.item)  # its name stands beside: two outlines cross
            rect = self._seen(box if goes_ms is None else _at(box, goes_ms))
            if goes_ms is not None or not self._name(box, rect):
                self._beside_yet.append((box, rect))
            if box.state is ItemState.ON_AIR:
                self._beside(ON_THE_AIR, rect, self._theme.ink.text, _ABOVE_NOW)
            if box.clash:
                self._beside(CLASH, rect, self._theme.ink.clash)
        self._placing.taken.extend(box_rect(self._frame, b, self._theme) for b in self._in_sight())
        bands = [self._frame.air_rect(from_ms, to_ms) for from_ms, to_ms in self._air.away]
        for rect in bands:
            self._away(rect)
            for edge_px in (rect.top(), rect.bottom()):  # nothing is written across an edge
                self._placing.taken.append(QRectF(rect.left(), edge_px, rect.width(), 1))
        # Nor across a place that is proposed: it is drawn over whatever stands there.
        carried = carried_rects(self._frame, self._air, self._held, self._theme)
        self._placing.taken.extend(carried)
        self._placing.taken.append(self._limb())
        for at_ms, name in self._air.junctions:
            self._junction(at_ms, name)

    def names(self) -> None:
        """Write names without room in their boxes to the right of them."""
        for box, rect in self._beside_yet:
            for name in _shorter(box.name):
                if self._beside(name, rect, outline(box, self._theme)):
                    break

    def live(self) -> None:
        """Write what the line at the lane's edge means, where nothing else stands."""
        low_px = self._theme.px(_LOW_PX)
        told = False
        for live in self._air.live.between(self._frame.from_ms, self._frame.to_ms):
            rect = self._frame.air_rect(live.from_ms, live.to_ms)
            if not told or rect.height() >= low_px:
                told = self._beside(LIVE, rect, self._theme.ink.quiet) or told

    def _limb(self) -> QRectF:
        """Where the limb crosses the lane: no name is written across it."""
        left_px, width_px = self._frame.across.air or (0.0, 0.0)
        high_px = sagitta_px(self._theme) if self._frame.now_in_sight else 0.0
        return QRectF(left_px, self._frame.now_px, width_px, high_px)

    def _in_sight(self) -> Iterator[AirBox]:
        return self._air.boxes.between(self._frame.from_ms, self._frame.to_ms)

    def _heading(self) -> None:
        left_px, width_px = self._frame.across.air or (0.0, 0.0)
        wide_px = self._theme.width_px(Text.HEADING, HEADING)
        at_px = left_px + (width_px - wide_px) / 2
        quiet = self._theme.ink.quiet
        self._placing.keep(
            Words(HEADING, at_px, heading_px(self._theme), wide_px, Text.HEADING, quiet)
        )

    def _seen(self, box: AirBox) -> QRectF:
        """The part of a box in which its name can be read: below the limb, if that crosses it."""
        frame, rect = self._frame, box_rect(self._frame, box, self._theme)
        low_px = frame.now_px + sagitta_px(self._theme)
        if frame.now_in_sight and rect.top() < low_px and frame.now_px < rect.bottom():
            rect.setTop(min(rect.bottom(), low_px))
        return rect

    def _name(self, box: AirBox, rect: QRectF) -> bool:
        """Write a name in its box, whole or its last words; never cut within a word."""
        within_px = self._theme.px(_PAD_PX) if box.state is ItemState.ON_AIR else 0
        pad_px = self._theme.px(_PAD_PX) + within_px
        room = rect.adjusted(pad_px, within_px, -pad_px, -within_px)
        colour = self._theme.ink.quiet if box.state is ItemState.RUN else self._theme.ink.text
        return any(self._lines(name, room, colour) for name in _shorter(box.name))

    def _lines(self, text: str, room: QRectF, colour: QColor) -> bool:
        lines = self._broken(text, room.width())
        step_px = self._theme.px(_LINE_PX)
        cap_px = self._theme.metrics(Text.EDGE).capHeight()
        needed_px = (len(lines) - 1) * step_px + cap_px + 2 * self._theme.px(_PAD_PX)
        if not lines or needed_px > room.height():
            return False
        baseline_px = room.center().y() + (cap_px - (len(lines) - 1) * step_px) / 2
        low_px = self._theme.metrics(Text.EDGE).descent() if _HANGING & set(lines[-1]) else 0
        last_px = baseline_px + (len(lines) - 1) * step_px
        if last_px + low_px > room.bottom() - self._theme.px(_RIM_PX):
            return False
        placed = []
        for place, line in enumerate(lines):
            wide_px = self._theme.width_px(Text.EDGE, line)
            left_px = room.center().x() - wide_px / 2
            at_px = baseline_px + place * step_px
            placed.append(Words(line, left_px, at_px, wide_px, Text.EDGE, colour))
        return self._placing.keep(*placed)

    def _broken(self, text: str, room_px: float) -> list[str]:
        """The text in lines between its words; none where one word is too wide."""
        lines: list[str] = []
        for word in text.split():
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self._theme.width_px(Text.EDGE, longer) <= room_px:
                lines[-1] = longer
            else:
                lines.append(word)
        too_wide = any(self._theme.width_px(Text.EDGE, line) > room_px for line in lines)
        return [] if too_wide else lines

    def _beside(
        self, text: str, rect: QRectF, colour: QColor, steps: Sequence[int] = _STEPS
    ) -> bool:
        """Write beside a box, at its middle or a line up or down from it; whole or not at all."""
        theme, across = self._theme, self._frame.across
        wide_px = theme.width_px(Text.EDGE, text)
        if across.ticks_px + wide_px > across.right_px:
            return False
        middle_px = rect.center().y() + theme.metrics(Text.EDGE).capHeight() / 2
        for step in steps:
            baseline_px = middle_px + step * theme.px(_APART_PX)
            words = Words(text, across.ticks_px, baseline_px, wide_px, Text.EDGE, colour)
            if self._inside_strip(words) and self._placing.keep(words):
                return True
        return False

    def _inside_strip(self, words: Words) -> bool:
        box, scale = words.box(self._theme), self._frame.scale
        return scale.top_px <= box.top() and box.bottom() <= scale.bottom_px

    def _junction(self, at_ms: int, name: str) -> None:
        """A junction's name above its line in the lane, or below it, or beside it."""
        if not self._frame.from_ms <= at_ms <= self._frame.to_ms:
            return
        theme, line = self._theme, self._frame.air_rect(at_ms, at_ms)
        colour = theme.ink.quiet if at_ms < self._frame.now_ms else theme.ink.text
        lines, step_px = self._broken(name, line.width()), theme.px(_LINE_PX)
        above_px = line.top() - theme.px(6) - (len(lines) - 1) * step_px
        below_px = line.top() + theme.metrics(Text.EDGE).capHeight() + theme.px(6)
        for baseline_px in (above_px, below_px):
            placed = [
                Words(
                    text,
                    line.left(),
                    baseline_px + place * step_px,
                    theme.width_px(Text.EDGE, text),
                    Text.EDGE,
                    colour,
                )
                for place, text in enumerate(lines)
            ]
            if placed and all(map(self._inside_strip, placed)) and self._placing.keep(*placed):
                return
        self._beside(name, line, colour)

    def _away(self, rect: QRectF) -> None:
        theme = self._theme
        metrics = theme.metrics(Text.EDGE)
        wide_px = theme.width_px(Text.EDGE, AWAY)
        if rect.height() < metrics.height():
            return
        left_px, ink = rect.center().x() - wide_px / 2, theme.ink
        for share in _PLACES_IN_BAND:
            baseline_px = rect.top() + rect.height() * share + metrics.capHeight() / 2
            words = Words(AWAY, left_px, baseline_px, wide_px, Text.EDGE, ink.text, ink.rule)
            if rect.contains(words.box(theme)) and self._placing.keep(words):
                return


def _at(box: AirBox, from_ms: int) -> AirBox:
    """The same item with another beginning."""
    return replace(box, from_ms=from_ms, to_ms=from_ms + box.to_ms - box.from_ms)


def _shorter(name: str) -> tuple[str, ...]:
    """A name, then what is its own, ever shorter; what kind it is only where nothing else fits.

    'Remote, simulator hall', 'simulator hall', 'hall', 'Remote'.
    """
    kind, _, own = name.partition(", ")
    if not own:
        return (name,)
    words = own.split()
    tails = (own, " ".join(words[-2:]), words[-1], kind)
    return tuple(dict.fromkeys((name, *tails)))
