"""Items of the ON AIR lane: selected, moved by key and by mouse, always through the entry bar."""

from collections.abc import Callable, Sequence
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from app.desk.entry_line import EntryLine
from app.desk.keys import Command
from app.desk.timeline import Timeline
from core.board.model import Preview
from core.board.programme import AirBox, ItemState

_SMALL_MS = 10_000
_LARGE_MS = 60_000
_SELECTABLE = (ItemState.PLACED, ItemState.ON_AIR)


class PlacesItems(Protocol):
    """What moving an item asks of the desk."""

    def place_words(self, item: str, at_ms: int) -> str:
        """Give the line that places an item there, as 'break-3 at 16:46:10'."""


class Airing(QObject):
    """Holds which item is selected, and what the keys and the mouse have written of it."""

    entered = Signal()
    """What the mouse wrote is to be taken."""

    def __init__(self, desk: PlacesItems, line: EntryLine, timeline: Timeline) -> None:
        super().__init__(line)
        self._desk = desk
        self._line = line
        self._timeline = timeline
        self._selected = ""
        self._moved: tuple[str, int] | None = None
        """The item the line is about, and where it was put last."""
        self._written = ""

    @property
    def selected(self) -> str:
        """The id of the selected item, '' for none."""
        return self._selected

    def table(self) -> dict[Command, Callable[[], object]]:
        """Give what each of its keys does."""
        return {
            Command.ITEM_UP: lambda: self._step(-1),
            Command.ITEM_DOWN: lambda: self._step(1),
            Command.EARLIER: lambda: self._nudge(-_SMALL_MS),
            Command.LATER: lambda: self._nudge(_SMALL_MS),
            Command.MUCH_EARLIER: lambda: self._nudge(-_LARGE_MS),
            Command.MUCH_LATER: lambda: self._nudge(_LARGE_MS),
        }

    def listen(self) -> None:
        """Follow the mouse; call it once the strip is there."""
        if self._timeline.strip is not None:
            hand = self._timeline.strip.hand
            hand.picked.connect(self.select)
            hand.carried.connect(self._put)
            hand.let_go.connect(self._put_down)
            self._timeline.mark_item(self._selected)

    def select(self, item: str) -> None:
        """Select an item; '' lets go."""
        self._selected = item
        self._timeline.mark_item(item)

    def drop(self) -> None:
        """Let go of what the mouse holds: it stays where it was."""
        if self._timeline.strip is not None:
            self._timeline.strip.hand.drop()

    def let_go(self) -> bool:
        """Let go of the selected item; False where none is."""
        had = bool(self._selected)
        self.select("")
        return had

    def look(self) -> None:
        """Let go of an item that can no longer be selected: it has run, or it is gone."""
        if self._selected and self._box() is None:
            self.select("")

    def previewed(self, _preview: Preview) -> None:
        """Show where the item would go as long as the line is about it."""
        if self._moved is not None and self._line.text() == self._written:
            self._timeline.carry_item(*self._moved)
        else:
            self._moved = None

    def _boxes(self) -> Sequence[AirBox]:
        return [box for box in self._timeline.air_boxes() if box.state in _SELECTABLE]

    def _box(self) -> AirBox | None:
        return next((box for box in self._boxes() if box.item == self._selected), None)

    def _step(self, by: int) -> None:
        """Select the next item or the one before; from nothing, the first to come."""
        boxes, box = self._boxes(), self._box()
        if not boxes:
            return
        place = boxes.index(box) + by if box is not None else 0
        chosen = boxes[max(0, min(place, len(boxes) - 1))]
        self.select(chosen.item)
        self._timeline.bring_instant(chosen.from_ms)

    def _nudge(self, by_ms: int) -> None:
        """Move the selected item from where the line has it, or from where it stands."""
        box = self._box()
        if box is None or box.state is not ItemState.PLACED:
            return
        item, at_ms = box.item, box.from_ms
        if self._moved is not None and self._moved[0] == item:
            at_ms = self._moved[1]
        self._put(item, at_ms + by_ms)

    def _put(self, item: str, at_ms: int) -> None:
        """Write where an item goes into the line; what was typed there can be brought back."""
        self._moved = (item, at_ms)
        self._written = self._desk.place_words(item, at_ms)
        if self._line.text() != self._written:
            self._line.put(self._written)
        else:
            self._timeline.carry_item(item, at_ms)

    def _put_down(self, _item: str) -> None:
        if self._line.text() == self._written:
            self.entered.emit()
