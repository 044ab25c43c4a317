"""What one frame of the strip is drawn from: places across, the scale down, and where now is."""

from dataclasses import dataclass

from PySide6.QtCore import QRectF

from app.strip.scale import Scale
from app.theme import Text, Theme

_TOP_PX = 44
_FOOT_PX = 10
_PAST_SHARE = 0.065
"""How much of the height lies before the origin."""
_LEFT_PX = 12
_BETWEEN_PX = 8
_SAGITTA_PX = 9
"""How far the limb's ends hang below its crown."""
_GROUND_PX = 40
_TICKS_PX = 96
_AIR_PX = 96
"""How wide the ON AIR lane is; with it brackets and ticks stand closer."""
_AIR_GAP_PX = 12
_GROUND_BY_AIR_PX = 30
_TICKS_BY_AIR_PX = 80


@dataclass(frozen=True, slots=True)
class Across:
    """Places across the strip, in pixels."""

    lanes: tuple[tuple[float, float], ...]
    """Left end and width of each lane."""
    ground_px: float
    """The brackets of the ground stations."""
    ticks_px: float
    """The left end of the ticks' words."""
    right_px: float
    air: tuple[float, float] | None = None
    """Left end and width of the ON AIR lane; None: there is none."""

    @property
    def past_right_px(self) -> float:
        """As far to the right sinks what is past."""
        return self.lanes_end_px if self.air is None else sum(self.air)

    @property
    def left_px(self) -> float:
        """Where the first lane begins."""
        return self.lanes[0][0] if self.lanes else 0.0

    @property
    def lanes_end_px(self) -> float:
        """Where the last lane ends."""
        return sum(self.lanes[-1]) if self.lanes else self.left_px


@dataclass(frozen=True, slots=True)
class Frame:
    """One frame: everything that has a place depends on it and nothing else."""

    across: Across
    scale: Scale
    now_ms: int
    origin_words: str
    """The clock time written at the origin when that is not now."""

    @property
    def now_px(self) -> float:
        """The height of the limb's crown."""
        return self.scale.y_of(self.now_ms)

    @property
    def at_now(self) -> bool:
        """Whether the origin is now."""
        return not self.origin_words

    @property
    def now_in_sight(self) -> bool:
        """Whether the limb is on the strip."""
        return self.scale.top_px <= self.now_px <= self.scale.bottom_px

    @property
    def from_ms(self) -> int:
        """The first instant in sight."""
        return self.scale.instant_ms(self.scale.top_px)

    @property
    def to_ms(self) -> int:
        """The last instant in sight."""
        return self.scale.instant_ms(self.scale.bottom_px)

    def between(self, from_ms: int, to_ms: int) -> tuple[float, float]:
        """The heights of a stretch, cut to what is in sight."""
        top_px = max(self.scale.top_px, self.scale.y_of(from_ms))
        return top_px, min(self.scale.bottom_px, self.scale.y_of(to_ms))

    def lane_rect(self, lane: int, top_px: float, bottom_px: float) -> QRectF:
        """A stretch of a lane, on whole pixels so that stretches meet."""
        left_px, width_px = self.across.lanes[lane]
        top, bottom = round(top_px), round(bottom_px)
        return QRectF(round(left_px), top, round(width_px), bottom - top)

    def air_rect(self, from_ms: int, to_ms: int) -> QRectF:
        """A stretch of the ON AIR lane as far as it is in sight, on whole pixels."""
        left_px, width_px = self.across.air or (0.0, 0.0)
        top_px, bottom_px = self.between(from_ms, to_ms)
        top, bottom = round(top_px), round(bottom_px)
        return QRectF(round(left_px), top, round(width_px), bottom - top)


def across(width_px: float, lanes: int, theme: Theme, *, air: bool = False) -> Across:
    """Share the width among lanes, brackets, the ON AIR lane where there is one, and ticks."""
    left_px = theme.px(_LEFT_PX)
    ticks_px = width_px - theme.px(_TICKS_BY_AIR_PX if air else _TICKS_PX)
    air_px = theme.px(_AIR_PX)
    air_left_px = ticks_px - theme.px(_AIR_GAP_PX) - air_px
    ground_px = (
        air_left_px - theme.px(_GROUND_BY_AIR_PX) if air else ticks_px - theme.px(_GROUND_PX)
    )
    between_px = theme.px(_BETWEEN_PX)
    each_px = (ground_px - left_px - between_px * lanes) / max(1, lanes)
    places = tuple((left_px + i * (each_px + between_px), each_px) for i in range(lanes))
    return Across(places, ground_px, ticks_px, width_px, (air_left_px, air_px) if air else None)


def scale(height_px: float, origin_ms: int, theme: Theme, *, even: bool) -> Scale:
    """The scale of a strip that high."""
    top_px = theme.px(_TOP_PX)
    bottom_px = max(top_px + 1.0, height_px - theme.px(_FOOT_PX))
    origin_px = top_px + round((bottom_px - top_px) * _PAST_SHARE)
    return Scale(origin_ms, top_px, origin_px, bottom_px, even)


def sagitta_px(theme: Theme) -> int:
    """How far the limb's ends hang below its crown."""
    return theme.px(_SAGITTA_PX)


def heading_px(theme: Theme) -> float:
    """The baseline of the lanes' names."""
    return theme.px(_TOP_PX) - theme.px(16) + theme.metrics(Text.HEADING).capHeight() * 0.2
