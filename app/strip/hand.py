"""The mouse on the ON AIR lane: an item is picked, carried along the strip and let go."""

from dataclasses import dataclass

from PySide6.QtCore import QObject, QPointF, Signal

from app.strip.air import AirColumn
from app.strip.air_paint import box_rect
from app.strip.frame import Frame
from app.theme import Theme
from core.board.programme import AirBox, ItemState

_SLACK_PX = 4
"""So far beside a box it is still meant, and so far the mouse moves before it carries."""


@dataclass(frozen=True, slots=True)
class _Grip:
    """Where a box was taken hold of: how far below its beginning, in pixels."""

    box: AirBox
    pressed_px: float
    below_px: float


class Hand(QObject):
    """Tells what is done with the mouse; what it means is for those who listen."""

    picked = Signal(str)
    """The id of the item pressed on."""
    carried = Signal(str, object)
    """An item and the instant its beginning is carried to, in milliseconds."""
    let_go = Signal(str)
    """The item that was carried is put down."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._grip: _Grip | None = None
        self._carries = False

    @property
    def carries(self) -> bool:
        """Whether an item is on its way."""
        return self._carries

    def press(self, at: QPointF, frame: Frame, air: AirColumn, theme: Theme) -> None:
        """Take hold of the box under the mouse."""
        box = box_at(at, frame, air, theme)
        if box is None:
            return
        if box.state is ItemState.PLACED:
            self._grip = _Grip(box, at.y(), at.y() - frame.scale.y_of(box.from_ms))
        self.picked.emit(box.item)

    def move(self, at: QPointF, frame: Frame, theme: Theme) -> None:
        """Carry what is held; a hand that only trembles carries nothing."""
        grip = self._grip
        if grip is None:
            return
        if self._carries or abs(at.y() - grip.pressed_px) > theme.px(_SLACK_PX):
            self._carries = True
            at_ms = frame.scale.instant_ms(at.y() - grip.below_px)
            self.carried.emit(grip.box.item, at_ms)

    def release(self) -> None:
        """Put down what is carried."""
        grip, carried = self._grip, self._carries
        self.drop()
        if grip is not None and carried:
            self.let_go.emit(grip.box.item)

    def drop(self) -> None:
        """Forget what is held: it stays where it was."""
        self._grip, self._carries = None, False


def box_at(at: QPointF, frame: Frame, air: AirColumn, theme: Theme) -> AirBox | None:
    """The box at a place, or just beside it; of two the nearer one."""
    left_px, width_px = frame.across.air or (0.0, 0.0)
    if not left_px <= at.x() <= left_px + width_px:
        return None
    slack_px = theme.px(_SLACK_PX)
    found = [
        (abs(at.y() - rect.center().y()), box)
        for box in air.boxes.between(frame.from_ms, frame.to_ms)
        if (rect := box_rect(frame, box, theme)).adjusted(0, -slack_px, 0, slack_px).contains(at)
    ]
    return min(found, key=lambda pair: pair[0])[1] if found else None
