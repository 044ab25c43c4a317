"""From instants to heights on the strip: thinned out with distance, or even."""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

_MINUTE_MS = 60_000
_THIN_MS = 15 * _MINUTE_MS
"""Position is asinh(time ahead / 15 min)."""
_FAR_THIN_MS = 360 * _MINUTE_MS
"""Six hours at the bottom of the thinned scale."""
_FAR_EVEN_MS = 120 * _MINUTE_MS
"""Two hours at the bottom of the even one: five minutes are still as tall as a line of text."""
_FAR_THIN = math.asinh(_FAR_THIN_MS / _THIN_MS)

_THIN_TICKS_MIN = (5, 10, 20, 30, 60, 120, 240, 360)
_EVEN_TICKS_MIN = (10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120)

Floats = npt.NDArray[np.float64]
Instants = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Scale:
    """A mapping of instants to heights: `origin_ms` stands at `origin_px`, later ones below.

    `top_px` and `bottom_px` bound what is drawn. `far_ms` after the origin an even one ends.
    """

    origin_ms: int
    top_px: float
    origin_px: float
    bottom_px: float
    even: bool = False
    far_ms: int = _FAR_EVEN_MS

    def at(self, origin_ms: int) -> "Scale":
        """The same with another instant at its origin."""
        return replace(self, origin_ms=origin_ms)

    def y(self, at_ms: Instants) -> Floats:
        """The heights of many instants, in pixels, those beyond the ends included."""
        ahead: Floats = (at_ms - self.origin_ms).astype(np.float64) / self._unit_ms
        if not self.even:
            ahead = np.arcsinh(ahead)
        return self.origin_px + ahead * self._unit_px

    def y_of(self, at_ms: int) -> float:
        """The height of one instant."""
        ahead = (at_ms - self.origin_ms) / self._unit_ms
        return self.origin_px + (ahead if self.even else math.asinh(ahead)) * self._unit_px

    def instant_ms(self, y_px: float) -> int:
        """The instant at a height."""
        ahead = (y_px - self.origin_px) / self._unit_px
        return self.origin_ms + round((ahead if self.even else math.sinh(ahead)) * self._unit_ms)

    def ticks(self) -> tuple[tuple[int, str], ...]:
        """Lengths of time from the origin worth a tick, with their words."""
        minutes = _EVEN_TICKS_MIN if self.even else _THIN_TICKS_MIN
        return tuple((self.origin_ms + m * _MINUTE_MS, _length(m)) for m in minutes)

    @property
    def _unit_ms(self) -> int:
        return self.far_ms if self.even else _THIN_MS

    @property
    def _unit_px(self) -> float:
        far = 1.0 if self.even else _FAR_THIN
        return (self.bottom_px - self.origin_px) / far


def _length(minutes: int) -> str:
    hours, left = divmod(minutes, 60)
    if not hours:
        return f"{left} min"
    return f"{hours} h {left}" if left else f"{hours} h"
