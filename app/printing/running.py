"""What stands on every page: title, what it is, REHEARSAL, page numbers, for editorial use."""

from collections.abc import Iterator
from dataclasses import dataclass

from app import EDITORIAL
from app.printing.faces import PT, Face, metrics, width_tw
from app.printing.pieces import Box, Frame, Piece, Rule, Words
from app.printing.wrapping import wrapped

SIDE_TW = 42 * PT
"""Left and right of all that is printed."""
_EDGE_TW = 30 * PT
_UNDER_TW = 5 * PT
_BADGE_PAD_TW = 5 * PT
_BETWEEN_TW = 12 * PT
_RULE_TW, _FRAME_TW = 1.0 * PT, 1.6 * PT
_LEAST_BODY_TW = 200 * PT
"""A title that would take more than is left of the page is cut, not the plan."""


@dataclass(frozen=True, slots=True)
class Running:
    """Head and foot: the title, what is printed, and what must stand out on every page.

    `badge`: 'REHEARSAL' where it is one, else ''. `made`: when it was printed, at the foot.
    """

    title: str
    what: str = ""
    badge: str = ""
    made: str = ""


class Frames:
    """Head and foot of each page of a size, and the room between them."""

    def __init__(self, running: Running, width_tw: float, height_tw: float) -> None:
        self._running = running
        self._left_tw, self._right_tw = SIDE_TW, width_tw - SIDE_TW
        self._bottom_tw = height_tw - _EDGE_TW
        self._foot_top_tw = self._bottom_tw - self._foot_high_tw()

    def body(self, number: int) -> Box:
        """What is left between head and foot of a page; the first is 1."""
        top_tw = self._head_bottom_tw(number) + 8 * PT
        bottom_tw = self._foot_top_tw - 6 * PT
        return Box(self._left_tw, top_tw, self._right_tw - self._left_tw, bottom_tw - top_tw)

    def around(self, number: int, count: int) -> list[Piece]:
        """Head and foot of that page of so many."""
        return [*self._head(number), *self._foot(number, count)]

    def _head(self, number: int) -> Iterator[Piece]:
        y_tw: float = _EDGE_TW
        for text, face in self._head_lines(number):
            yield Words(text, self._left_tw, y_tw + face.rise_tw, face)
            y_tw += face.line_tw
        if self._running.badge:
            yield from self._badge()
        yield Rule(self._left_tw, self._right_tw, self._head_bottom_tw(number), _RULE_TW)

    def _badge(self) -> Iterator[Piece]:
        text, face = self._running.badge, Face.BADGE
        across_tw = width_tw(face, text) + 2 * _BADGE_PAD_TW
        high_tw = face.line_tw + _BADGE_PAD_TW
        left_tw = self._right_tw - across_tw
        yield Frame(Box(left_tw, _EDGE_TW, across_tw, high_tw), _FRAME_TW)
        cap_tw = metrics(face).capHeight()
        baseline_tw = _EDGE_TW + (high_tw + cap_tw) / 2
        yield Words(text, left_tw + _BADGE_PAD_TW, baseline_tw, face)

    def _foot(self, number: int, count: int) -> Iterator[Piece]:
        yield Rule(self._left_tw, self._right_tw, self._foot_top_tw, _RULE_TW)
        text = f"page {number} of {count}"
        y_tw = self._foot_top_tw + _UNDER_TW
        right_tw = self._right_tw - width_tw(Face.FINE, text)
        yield Words(text, right_tw, y_tw + Face.FINE.rise_tw, Face.FINE)
        for line in self._foot_lines():
            yield Words(line, self._left_tw, y_tw + Face.FINE.rise_tw, Face.FINE)
            y_tw += Face.FINE.line_tw

    def _head_lines(self, number: int) -> list[tuple[str, Face]]:
        face = Face.TITLE if number == 1 else Face.STRONG
        badge = self._running.badge
        taken_tw = width_tw(Face.BADGE, badge) + 2 * _BADGE_PAD_TW + _BETWEEN_TW if badge else 0.0
        room_tw = self._right_tw - self._left_tw - taken_tw
        lines = [(line, face) for line in wrapped(face, self._running.title, room_tw)]
        lines += [(line, Face.CELL) for line in wrapped(Face.CELL, self._running.what, room_tw)]
        while len(lines) > 1 and _high_tw(lines) > self._most_tw():
            lines.pop()
        return lines

    def _most_tw(self) -> float:
        return self._foot_top_tw - _EDGE_TW - _LEAST_BODY_TW

    def _head_bottom_tw(self, number: int) -> float:
        badge_tw = Face.BADGE.line_tw + _BADGE_PAD_TW if self._running.badge else 0.0
        return _EDGE_TW + max(_high_tw(self._head_lines(number)), badge_tw) + _UNDER_TW

    def _foot_lines(self) -> tuple[str, ...]:
        room_tw = self._right_tw - self._left_tw - width_tw(Face.FINE, "page 8888 of 8888")
        texts = (EDITORIAL, self._running.made)
        return tuple(line for text in texts for line in wrapped(Face.FINE, text, room_tw))

    def _foot_high_tw(self) -> float:
        return _UNDER_TW + len(self._foot_lines()) * Face.FINE.line_tw


def frames(running: Running, width_tw: float, height_tw: float) -> Frames:
    """Head and foot for paper of that size."""
    return Frames(running, width_tw, height_tw)


def _high_tw(lines: list[tuple[str, Face]]) -> float:
    return sum(face.line_tw for _, face in lines)
