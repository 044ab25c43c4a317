"""The paper: its sizes, what stands at the head and foot of each page, and the finished PDF."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter

from app import __version__
from app.printing.blocks import Block, Table
from app.printing.columns import comfortable_tw
from app.printing.faces import PT
from app.printing.flow import flowed
from app.printing.painting import paint
from app.printing.pieces import Page
from app.printing.running import SIDE_TW, Running, frames

_TWIPS_AN_INCH = 72 * PT


class Size(Enum):
    """A size of paper: width and height in points, upright."""

    A4 = (595.28, 841.89)
    LETTER = (612.0, 792.0)


@dataclass(frozen=True, slots=True)
class Paper:
    """The sheet: its size, upright or on its side."""

    size: Size = Size.A4
    landscape: bool = False

    @property
    def width_tw(self) -> float:
        """How wide it is as it lies."""
        return self.size.value[1 if self.landscape else 0] * PT

    @property
    def height_tw(self) -> float:
        """How high it is as it lies."""
        return self.size.value[0 if self.landscape else 1] * PT

    @property
    def room_tw(self) -> float:
        """How wide what is printed may be."""
        return self.width_tw - 2 * SIDE_TW


@dataclass(frozen=True, slots=True)
class Printed:
    """A finished document: the bytes of the PDF, and how many pages it has."""

    data: bytes
    pages: int


def fitting(blocks: Iterable[Block], size: Size) -> Paper:
    """Paper of that size: upright, unless a table would be squeezed on it."""
    upright = Paper(size)
    tables = (block for block in blocks if isinstance(block, Table))
    squeezed = any(comfortable_tw(table) > upright.room_tw for table in tables)
    return replace(upright, landscape=squeezed)


def pages(running: Running, blocks: Sequence[Block], paper: Paper) -> list[Page]:
    """All pages with all that stands on them; at least one. Needs a running application."""
    made = frames(running, paper.width_tw, paper.height_tw)
    found = flowed(blocks, made.body)
    for number, page in enumerate(found, start=1):
        page.pieces[:0] = made.around(number, len(found))
    return found


def pdf(running: Running, blocks: Sequence[Block], paper: Paper) -> Printed:
    """The document as PDF. Needs a running application: see `drawing_application`."""
    made = pages(running, blocks, paper)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(_TWIPS_AN_INCH)
    writer.setTitle(running.title)
    writer.setCreator(f"Limbwatch {__version__}")
    writer.setPageLayout(_layout(paper))
    with QPainter(writer) as painter:
        for number, page in enumerate(made):
            if number:
                writer.newPage()
            paint(painter, page)
    return Printed(bytes(buffer.data().data()), len(made))


def _layout(paper: Paper) -> QPageLayout:
    size = QPageSize(QSizeF(*paper.size.value), QPageSize.Unit.Point)
    way = QPageLayout.Orientation
    turned = way.Landscape if paper.landscape else way.Portrait
    return QPageLayout(size, turned, QMarginsF(0, 0, 0, 0))
