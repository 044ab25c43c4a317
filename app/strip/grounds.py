"""Where the ground stations' brackets stand, and which names have room along them."""

from collections.abc import Iterator

from app.strip.columns import Columns
from app.strip.frame import Frame, sagitta_px
from app.theme import Text, Theme
from core.board.model import GroundSpan


def ground_names(
    frame: Frame, columns: Columns, theme: Theme
) -> Iterator[tuple[float, float, str]]:
    """The ground stations' names with the top and bottom they may take.

    A name that does not fit along its bracket stands across beside it, or is left out: CONTACT
    has it.
    """
    for ground in columns.grounds_between(frame.from_ms, frame.to_ms):
        top_px, bottom_px = ground_px(frame, theme, ground)
        room_px = bottom_px - top_px - theme.px(8)
        if theme.width_px(Text.EDGE, ground.name) <= room_px:
            yield top_px, bottom_px, ground.name


def ground_px(frame: Frame, theme: Theme, ground: GroundSpan) -> tuple[float, float]:
    """The heights of a station's bracket, as far as it is in sight and still to come."""
    top_px, bottom_px = frame.between(ground.from_ms, ground.to_ms)
    if frame.now_in_sight and top_px < frame.now_px < bottom_px:
        top_px = frame.now_px + sagitta_px(theme)
    return top_px, bottom_px
