"""The figure of clear time with what leads it, and back by when at its right or below."""

from dataclasses import dataclass

from app.desk import ink
from app.desk.figures import USUAL, Styles, fitting_runs
from app.desk.ink import Run
from app.desk.paired import NEXT
from app.theme import Text, Theme
from core.board.model import Figure
from core.board.programme import ClearPanel

FIGURE = 48
"""From the heading's baseline to the figure's, at 1600x1000."""
_LINES = 2
_APART = 18
_LARGE: Styles = ((Text.CLEAR_DIGITS, Text.BIG_NOTE), (Text.DIGITS, Text.UNIT))
_ALONE: Styles = (*_LARGE, *USUAL[1:])
"""Nothing beside it: then it may become smaller still."""


@dataclass(frozen=True, slots=True)
class Top:
    """The figure's line: its pieces, and what stands at the right of them or below."""

    figure: tuple[Run, ...]
    beside: str
    below: tuple[str, ...]

    @property
    def high(self) -> int:
        """How high it is below the heading, at 1600x1000."""
        return (FIGURE if self.figure or self.beside else 0) + len(self.below) * NEXT


def lay_top(clear: ClearPanel, theme: Theme, room_px: float) -> Top:
    """Lay out the figure: what has no room at its right stands below."""
    lead = Run(clear.lead, theme.font(Text.STRONG), theme.ink.text, theme.px(10))
    before = [lead] if clear.lead else []
    back_px = theme.width_px(Text.STRONG, clear.back_by) + theme.px(_APART)
    figure = _figure(before, clear.figure, theme, room_px - back_px, _LARGE)
    below, beside = [clear.live] if clear.live else [], clear.back_by
    if ink.width_px(figure) + back_px > room_px:
        figure = _figure(before, clear.figure, theme, room_px, _ALONE)
        below, beside = [", ".join(filter(None, (clear.back_by, clear.live)))], ""
    font = theme.font(Text.NOTE)
    lines = (ink.wrapped(text, font, room_px, _LINES) for text in below if text)
    return Top(tuple(figure), beside, tuple(line for each in lines for line in each))


def _figure(
    before: list[Run], figure: Figure | None, theme: Theme, room_px: float, styles: Styles
) -> list[Run]:
    if figure is None:
        return before
    return fitting_runs(figure, theme, room_px, styles, before)
