"""How a time is written on a screen: clock times in one style, lengths with their units."""

from dataclasses import dataclass
from enum import IntEnum


class Hours(IntEnum):
    """Whether a window's clock times carry a.m. and p.m., or count to 24."""

    TWELVE = 12
    TWENTY_FOUR = 24


@dataclass(frozen=True, slots=True)
class Style:
    """How a window writes every clock time on it: in one zone (IANA name), one way of hours."""

    zone: str
    hours: Hours = Hours.TWELVE
