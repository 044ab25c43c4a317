"""Shares the height of the right column among its panels."""

from collections.abc import Callable, Mapping, Sequence

from app.desk.change import LastChangePanel
from app.desk.clear import ClearUntil
from app.desk.contact import Contact
from app.desk.if_entered import IfEntered
from app.desk.to_say import ToSayPanel

Stacked = Contact | ClearUntil | ToSayPanel | LastChangePanel | IfEntered
"""Each tells the least it needs, what it would like, and what of that fits a height."""

Growth = tuple[Stacked, Callable[[float], int]]
"""A panel, and how high it becomes where it may take so much."""

_GIVING_WAY = (LastChangePanel, IfEntered, Contact)
"""What is left out where not even the least has room: bar and strip tell of the last two as well.
"""


def stacked(
    panels: Sequence[Stacked], high_px: int, gap_px: int, growing: Sequence[Growth]
) -> dict[Stacked, int]:
    """Give the panels their heights, from what each needs; the rest goes to `growing` in turn.

    Where clear time and the sentence have not what they would like, CONTACT says less of each
    lane; where even so the next items have no room, there is no last change.
    """
    wanted = {panel: round(panel.wanted_px()) for panel in panels}
    if _over(wanted, high_px, gap_px) <= 0:
        return wanted
    least = {panel: panel.least_px() for panel in panels}
    heights = _grown(least, high_px, gap_px, growing)
    if _over(least, high_px, gap_px) <= 0 and not any(map(_lacks, heights, heights.values())):
        return heights
    least |= {panel: panel.short_px() for panel in panels if isinstance(panel, Contact)}
    heights = _grown(least, high_px, gap_px, growing)
    for kind in _GIVING_WAY:
        cramped = kind is LastChangePanel and any(map(_cramped, heights, heights.values()))
        if cramped or _over(least, high_px, gap_px) > 0:
            least = {panel: px for panel, px in least.items() if not isinstance(panel, kind)}
            heights = _grown(least, high_px, gap_px, growing)
    return heights


def _lacks(panel: Stacked, high_px: int) -> bool:
    """Whether clear time or the sentence is shown without all that it would like."""
    return isinstance(panel, ClearUntil | ToSayPanel) and high_px < panel.wanted_px()


def _cramped(panel: Stacked, high_px: int) -> bool:
    """Whether the next items have no room."""
    return isinstance(panel, ClearUntil) and high_px < panel.usual_px()


def _grown(
    least: Mapping[Stacked, int], high_px: int, gap_px: int, growing: Sequence[Growth]
) -> dict[Stacked, int]:
    spare_px, heights = -_over(least, high_px, gap_px), dict(least)
    for panel, fit_px in growing:
        if panel in heights and spare_px > 0:
            grown_px = max(heights[panel], fit_px(heights[panel] + spare_px))
            spare_px -= grown_px - heights[panel]
            heights[panel] = grown_px
    return heights


def _over(heights: Mapping[Stacked, int], high_px: int, gap_px: int) -> int:
    """By how much the panels with their gaps are higher than the column."""
    return sum(heights.values()) + gap_px * (len(heights) - 1) - high_px
