"""Sets down text and tables: what stays together, what comes again on the next page."""

from collections.abc import Sequence
from dataclasses import replace

from app.printing.blocks import Cell, Table
from app.printing.faces import PT, Face
from app.printing.pieces import Box, Words
from app.printing.reach import Flow
from app.printing.rows import Grid, Laid

BELOW_TW = 4 * PT
"""Left under what is not a heading."""
_TOGETHER = 2
"""So many lines of a paragraph stand together at the foot of a page."""

_SMALL = 0.3
"""A table that takes no more of a page than that is not parted."""


class Lines:
    """A heading or a paragraph; `stays`: with the beginning of what follows."""

    def __init__(
        self, lines: Sequence[str], face: Face, above_tw: float, below_tw: float, *, stays: bool
    ) -> None:
        self._lines, self._face, self.stays = lines, face, stays
        self._above_tw, self._below_tw = above_tw, below_tw
        together = len(lines) if len(lines) <= _TOGETHER + 1 else _TOGETHER
        self.least_tw = above_tw + together * face.line_tw + (below_tw if stays else 0.0)

    def put(self, flow: Flow, after_tw: float) -> None:
        """Set it down."""
        flow.need(self.least_tw + (after_tw if self.stays else 0.0))
        flow.skip(self._above_tw)
        for place, line in enumerate(self._lines):
            last_two = len(self._lines) - place == _TOGETHER < len(self._lines)
            flow.need(self._face.line_tw * (_TOGETHER if last_two else 1))
            baseline_tw = flow.y_tw + self._face.rise_tw
            flow.put([Words(line, flow.body.left_tw, baseline_tw, self._face)], self._face.line_tw)
        flow.skip(self._below_tw)


class Rows:
    """A table."""

    def __init__(self, table: Table, room: Box) -> None:
        self._grid = Grid(table, room.left_tw, room.width_tw)
        self._head_tw = self._grid.head.height_tw if self._grid.has_head else 0.0
        whole_tw = self._head_tw + sum(row.height_tw for row in self._grid.rows)
        begins_tw = self._head_tw + (self._with_next_tw(0) if self._grid.rows else 0.0)
        self.least_tw = whole_tw if whole_tw <= room.height_tw * _SMALL else begins_tw

    def put(self, flow: Flow, after_tw: float) -> None:  # noqa: ARG002 - the shape of all
        """Set it down, over as many pages as it needs."""
        rows = self._grid.rows
        flow.need(self.least_tw)
        self._head(flow)
        under: Laid | None = None
        for place, row in enumerate(rows):
            if self._with_next_tw(place) > flow.left_tw and self._would_help(flow, place):
                self._turn(flow, None if row.row.group else under)
            under = row if row.row.group else under
            self._row(flow, row, under)
        flow.skip(BELOW_TW)

    def _with_next_tw(self, place: int) -> float:
        """The height of a row; of a group's line with that of the row under it."""
        rows = self._grid.rows
        height_tw = rows[place].height_tw
        if rows[place].row.group and place + 1 < len(rows):
            height_tw += rows[place + 1].height_tw
        return height_tw

    def _would_help(self, flow: Flow, place: int) -> bool:
        """Whether a new page has more room: not if this one holds but the heading row."""
        fresh_tw = flow.body.height_tw - self._head_tw
        return flow.left_tw < min(fresh_tw, self._with_next_tw(place))

    def _row(self, flow: Flow, row: Laid, under: Laid | None) -> None:
        while row.height_tw > flow.left_tw and any(row.lines):
            first, rest = self._grid.cut(row, flow.left_tw)
            flow.put(self._grid.pieces(first, flow.y_tw), first.height_tw)
            if not any(rest.lines):
                return
            self._turn(flow, under)
            row = rest
        flow.put(self._grid.pieces(row, flow.y_tw), row.height_tw)

    def _turn(self, flow: Flow, under: Laid | None) -> None:
        flow.turn()
        self._head(flow)
        if under is not None:
            cell = under.row.cells[0]
            again = Cell(f"{cell.text}, {self._grid.table.again}")
            laid = self._grid.laid(replace(under.row, cells=(again,)))
            flow.put(self._grid.pieces(laid, flow.y_tw), laid.height_tw)

    def _head(self, flow: Flow) -> None:
        if self._grid.has_head:
            flow.put(self._grid.head_pieces(flow.y_tw), self._head_tw)
