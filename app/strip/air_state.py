"""What the strip knows of the ON AIR lane from one view to the next, and what is marked in it."""

from dataclasses import replace

from app.strip.air import NO_AIR, AirColumn
from app.strip.air_paint import NOTHING_HELD
from app.strip.scale import Scale
from core.board.model import View
from core.board.programme import AirLane, ItemRow


class AirState:
    """The lane as it is drawn; each change tells whether anything looks different."""

    def __init__(self) -> None:
        self.column = NO_AIR
        self.held = NOTHING_HELD
        self._source: AirLane | None = None
        self._rows: tuple[ItemRow, ...] = ()

    def take(self, view: View, scale: Scale | None) -> bool:
        """Take over the lane of a view; the one that is drawn stays where both look the same."""
        self._rows = view.clear.rows if view.clear is not None else ()
        before, self._source = self._source, view.air
        if before is view.air or before == view.air:
            return False
        column = AirColumn.of(view.air)
        if scale is not None and column.look(scale) == self.column.look(scale):
            return False
        self.column = column
        return True

    def take_ghosts(self, ghosts: tuple[tuple[str, int], ...]) -> tuple[int, ...]:
        """Keep where items would go; gives the instants of the rest, which are events."""
        items = {row.item for row in self._rows} | {b.item for b in self.column.boxes.spans}
        carried = tuple(ghost for ghost in ghosts if ghost[0] in items)
        self.held = replace(self.held, carried=carried)
        return tuple(at_ms for name, at_ms in ghosts if name not in items)

    def mark(self, item: str) -> None:
        """Mark an item as selected; '' for none."""
        self.held = replace(self.held, selected=item)

    def carry(self, item: str, at_ms: int) -> None:
        """Show where an item would begin."""
        self.held = replace(self.held, carried=((item, at_ms),))
