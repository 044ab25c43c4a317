"""Lets blocks flow over as many pages as they need. Nothing is clipped or laid over another."""

from collections.abc import Iterable

from app.printing.blocks import (
    Block,
    Heading,
    NewPage,
    Paragraph,
    Picture,
    Signs,
    Table,
)
from app.printing.faces import PT, Face
from app.printing.figures import Drawn, Legend
from app.printing.pieces import Box, Page
from app.printing.reach import Body, Flow
from app.printing.setting import BELOW_TW, Lines, Rows
from app.printing.wrapping import wrapped

_ABOVE_HEADING_TW, _BELOW_HEADING_TW = 11 * PT, 3 * PT


def flowed(blocks: Iterable[Block], body: Body) -> list[Page]:
    """The pages; at least one."""
    flow = Flow(body)
    laid = [_lay(block, flow.body) for block in blocks]
    after_tw = [0.0]
    for one in reversed(laid):
        with_next_tw = after_tw[-1] if isinstance(one, Lines) and one.stays else 0.0
        after_tw.append(one.least_tw + with_next_tw)
    after_tw.reverse()
    for one, following_tw in zip(laid, after_tw[1:], strict=True):
        one.put(flow, following_tw)
    return flow.pages


class Turn:
    """The end of a page."""

    least_tw = 0.0

    def put(self, flow: Flow, after_tw: float) -> None:  # noqa: ARG002 - the shape of all
        """Begin a new page, if this one has anything on it."""
        if not flow.is_fresh:
            flow.turn()


Setting = Lines | Rows | Drawn | Legend | Turn


def _lay(block: Block, room: Box) -> Setting:
    match block:
        case Heading(text):
            lines = wrapped(Face.HEADING, text, room.width_tw)
            return Lines(lines, Face.HEADING, _ABOVE_HEADING_TW, _BELOW_HEADING_TW, stays=True)
        case Paragraph(text, small, strong, leads):
            face = Face.SMALL if small else Face.STRONG_TEXT if strong else Face.TEXT
            return Lines(wrapped(face, text, room.width_tw), face, 0.0, BELOW_TW, stays=leads)
        case Table():
            return Rows(block, room)
        case Picture():
            return Drawn(block, room)
        case Signs():
            return Legend(block, room)
        case NewPage():
            return Turn()
