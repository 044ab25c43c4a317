"""The time scales of core.times.scales for many instants at once."""

import numpy as np

from core.signal.sky.model import Seconds
from core.times.scales import (
    FIRST_TAI_LESS_UTC_S,
    J2000_MS,
    LEAPS_MS,
    LEAPS_TT_S,
    TT_LESS_TAI_S,
)

_LEAPS_MS = np.array(LEAPS_MS)
_LEAPS_TT_S = np.array(LEAPS_TT_S)
_HELD_MS = np.array((-np.inf, *LEAPS_MS))


def tt_s(utc_ms: Seconds) -> Seconds:
    """Instants in seconds of TT past J2000, from milliseconds UTC since the Unix epoch."""
    leaps = np.searchsorted(_LEAPS_MS, utc_ms, side="right")
    return (utc_ms - J2000_MS) / 1000 + (TT_LESS_TAI_S + FIRST_TAI_LESS_UTC_S) + leaps


def utc_ms(tt_s: Seconds) -> Seconds:
    """Instants in milliseconds UTC since the Unix epoch, not rounded, from TT past J2000."""
    begun = np.searchsorted(_LEAPS_TT_S, tt_s, side="right")
    shown_s = tt_s - (TT_LESS_TAI_S + FIRST_TAI_LESS_UTC_S) - begun
    held: Seconds = np.maximum(J2000_MS + shown_s * 1000, _HELD_MS[begun])
    return held
