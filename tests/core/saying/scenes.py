"""Situations of the invented flight, as the board hands them over."""

from core.saying.audience import Audience
from core.saying.model import Named
from core.times.zones import instant_to_ms

ZONE = "America/Halifax"
ATLANTIC = Audience((ZONE,))
BOTH = Audience((ZONE, "America/New_York"))
BURN = Named("ignition", "the firing meant to put Petrel into orbit around the Moon")


def at_ms(clock: str, day: str = "2031-05-14", zone: str = ZONE) -> int:
    """'16:40' or '16:40:05' at the desk's clock."""
    whole = clock if clock.count(":") == 2 else f"{clock}:00"
    return instant_to_ms(f"{day}T{whole}", zone)
