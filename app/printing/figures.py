"""Sets down pictures and the legend of the contact marks: each on one page."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from app.printing.blocks import Picture, Signs
from app.printing.columns import SIGN_ROOM_TW, SIGN_TW
from app.printing.faces import PT, Face, width_tw
from app.printing.painting import shape
from app.printing.pieces import Box, PictureAt, Piece, SignAt, Words
from app.printing.reach import Flow
from app.printing.setting import BELOW_TW
from app.printing.wrapping import wrapped

_SIGN_HIGH_TW = 9 * PT
_HEADING_TW = 40 * PT
"""Left free above the largest picture, for its heading."""
_BETWEEN_SIGNS_TW = 18 * PT
_SignWords = tuple[SignAt, Words]


class Drawn:
    """A picture with its words."""

    def __init__(self, picture: Picture, room: Box) -> None:
        self._svg = picture.svg
        self._lines = wrapped(Face.SMALL, picture.words, room.width_tw)
        words_tw = len(self._lines) * Face.SMALL.line_tw
        self._shape = shape(picture.svg)
        most_tw = room.height_tw - words_tw - _HEADING_TW
        self._width_tw = min(room.width_tw * picture.share, most_tw * self._shape)
        self.least_tw = self._width_tw / self._shape + words_tw

    def put(self, flow: Flow, after_tw: float) -> None:  # noqa: ARG002 - the shape of all
        """Set it down on one page, with its words."""
        flow.need(self.least_tw)
        height_tw = self._width_tw / self._shape
        at = Box(flow.body.left_tw, flow.y_tw, self._width_tw, height_tw)
        flow.put([PictureAt(self._svg, at)], height_tw)
        for line in self._lines:
            baseline_tw = flow.y_tw + Face.SMALL.rise_tw
            words = Words(line, flow.body.left_tw, baseline_tw, Face.SMALL)
            flow.put([words], Face.SMALL.line_tw)
        flow.skip(BELOW_TW)


class Legend:
    """What the contact marks mean."""

    def __init__(self, signs: Signs, room: Box) -> None:
        self._lines = list(_in_lines(signs, room.width_tw))
        self._line_tw = max(Face.SMALL.line_tw, _SIGN_HIGH_TW + 2 * PT)
        self.least_tw = len(self._lines) * self._line_tw

    def put(self, flow: Flow, after_tw: float) -> None:  # noqa: ARG002 - the shape of all
        """Set it down on one page."""
        flow.need(self.least_tw)
        for line in self._lines:
            flow.put(_moved(line, flow.body.left_tw, flow.y_tw), self._line_tw)
        flow.skip(BELOW_TW)


def _in_lines(signs: Signs, room_tw: float) -> Iterator[list[_SignWords]]:
    """The marks with their words, from the left, as many in a line as have room."""
    line: list[_SignWords] = []
    x_tw = 0.0
    for sign, text in signs.each:
        long_tw = SIGN_ROOM_TW + width_tw(Face.SMALL, text)
        if line and x_tw + long_tw > room_tw:
            yield line
            line, x_tw = [], 0.0
        at = SignAt(sign, Box(x_tw, PT, SIGN_TW, _SIGN_HIGH_TW))
        line.append((at, Words(text, x_tw + SIGN_ROOM_TW, Face.SMALL.rise_tw, Face.SMALL)))
        x_tw += long_tw + _BETWEEN_SIGNS_TW
    if line:
        yield line


def _moved(line: Sequence[_SignWords], by_tw: float, down_tw: float) -> Iterator[Piece]:
    for at, words in line:
        box = replace(at.box, left_tw=at.box.left_tw + by_tw, top_tw=at.box.top_tw + down_tw)
        yield replace(at, box=box)
        yield replace(words, left_tw=words.left_tw + by_tw, baseline_tw=words.baseline_tw + down_tw)
