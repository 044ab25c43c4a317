"""The rows of a table, laid out: how high each is, and what stands where in it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from app.printing.blocks import Cell, Row, Table
from app.printing.columns import BETWEEN_TW, SIGN_ROOM_TW, SIGN_TW, text_faces, widths_tw
from app.printing.faces import PT, Face, width_tw
from app.printing.pieces import Box, Piece, Rule, SignAt, Words
from app.printing.wrapping import wrapped

_PAD_TW = 2.5 * PT
"""Above and below the text of a row."""
_ABOVE_GROUP_TW = 5 * PT
_SIGN_HIGH_TW = 9 * PT
_HAIR_TW, _LINE_TW, _BOLD_TW = 0.6 * PT, 1.0 * PT, 1.6 * PT


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a cell."""

    text: str
    face: Face


@dataclass(frozen=True, slots=True)
class Laid:
    """A row ready to be placed: the lines of each of its cells, and its height."""

    row: Row
    lines: tuple[tuple[Line, ...], ...]
    height_tw: float = field(init=False)

    def __post_init__(self) -> None:
        tall_tw = max((sum(line.face.line_tw for line in cell) for cell in self.lines), default=0.0)
        signs_tw = _SIGN_HIGH_TW + PT if any(cell.sign for cell in self.row.cells) else 0.0
        above_tw = _ABOVE_GROUP_TW if self.row.group else 0.0
        object.__setattr__(self, "height_tw", max(tall_tw, signs_tw) + 2 * _PAD_TW + above_tw)


class Grid:
    """A table in a given room: its columns' places, its head, its rows."""

    def __init__(self, table: Table, left_tw: float, room_tw: float) -> None:
        self.table = table
        self._left_tw, self._room_tw = left_tw, room_tw
        self._widths_tw = widths_tw(table, room_tw)
        head = Row(tuple(Cell(column.head) for column in table.columns))
        self.head = Laid(head, tuple(self._headings()))
        self.rows = tuple(self.laid(row) for row in table.rows)

    @property
    def has_head(self) -> bool:
        """Whether any column has a heading."""
        return any(column.head for column in self.table.columns)

    def laid(self, row: Row) -> Laid:
        """A row, its lines broken to the widths of the columns."""
        if row.group:
            lines = wrapped(Face.GROUP, row.cells[0].text, self._room_tw)
            return Laid(row, (tuple(Line(line, Face.GROUP) for line in lines),))
        pairs = zip(row.cells, self._widths_tw, strict=True)
        return Laid(row, tuple(tuple(_lines(cell, width_tw)) for cell, width_tw in pairs))

    def cut(self, laid: Laid, room_tw: float) -> tuple[Laid, Laid]:
        """A row too high for any page, in two: as much as has room, and the rest."""
        firsts, rests = zip(
            *(_cut(lines, room_tw - 2 * _PAD_TW) for lines in laid.lines), strict=True
        )
        bare = Row(tuple(Cell() for _ in laid.row.cells), laid.row.group)
        return Laid(laid.row, firsts), Laid(bare, rests)

    def head_pieces(self, top_tw: float) -> Iterator[Piece]:
        """The heading row, with the line under it."""
        yield from self._cells(self.head, top_tw)
        bottom_tw = top_tw + self.head.height_tw
        yield Rule(self._left_tw, self._left_tw + self._room_tw, bottom_tw, _BOLD_TW)

    def pieces(self, laid: Laid, top_tw: float) -> Iterator[Piece]:
        """A row, with the line under it."""
        yield from self._cells(laid, top_tw)
        bottom_tw = top_tw + laid.height_tw
        thick_tw, grey = (_LINE_TW, False) if laid.row.group else (_HAIR_TW, True)
        yield Rule(self._left_tw, self._left_tw + self._room_tw, bottom_tw, thick_tw, grey)

    def _headings(self) -> Iterator[tuple[Line, ...]]:
        for column, width in zip(self.table.columns, self._widths_tw, strict=True):
            yield tuple(Line(text, Face.HEAD) for text in wrapped(Face.HEAD, column.head, width))

    def _cells(self, laid: Laid, top_tw: float) -> Iterator[Piece]:
        left_tw = self._left_tw
        if laid.row.group:
            yield from _placed(laid.lines[0], left_tw, top_tw + _ABOVE_GROUP_TW, None)
            return
        parts = zip(laid.row.cells, laid.lines, self.table.columns, self._widths_tw, strict=True)
        for cell, lines, column, width in parts:
            if cell.sign is not None:
                yield SignAt(cell.sign, Box(left_tw, top_tw + _PAD_TW + PT, SIGN_TW, _SIGN_HIGH_TW))
            beside_tw = SIGN_ROOM_TW if cell.sign is not None else 0.0
            right_tw = left_tw + width if column.right else None
            yield from _placed(lines, left_tw + beside_tw, top_tw, right_tw)
            left_tw += width + BETWEEN_TW


def _lines(cell: Cell, room_tw: float) -> Iterator[Line]:
    beside_tw = SIGN_ROOM_TW if cell.sign is not None else 0.0
    for face, text in zip(text_faces(cell), (cell.text, cell.below), strict=True):
        for line in wrapped(face, text, room_tw - beside_tw):
            yield Line(line, face)


def _placed(
    lines: Sequence[Line], left_tw: float, top_tw: float, right_tw: float | None
) -> Iterator[Words]:
    y_tw = top_tw + _PAD_TW
    for line in lines:
        x_tw = left_tw if right_tw is None else right_tw - width_tw(line.face, line.text)
        yield Words(line.text, x_tw, y_tw + line.face.rise_tw, line.face)
        y_tw += line.face.line_tw


def _cut(lines: Sequence[Line], room_tw: float) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    used_tw = 0.0
    for place, line in enumerate(lines):
        used_tw += line.face.line_tw
        if used_tw > room_tw and place:
            return tuple(lines[:place]), tuple(lines[place:])
    return tuple(lines), ()
