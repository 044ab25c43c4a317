"""Whether the machine's clock can be trusted, by what the machine itself says of it."""

from dataclasses import dataclass
from enum import StrEnum

OFF_MS = 500
"""From this error on, by the machine's own estimate, a second on the board may be another one."""


class Trust(StrEnum):
    """What the machine says of its clock."""

    SYNCHRONISED = "synchronised"
    ALONE = "alone"
    """It runs by itself: nobody sets it right."""
    UNKNOWN = "unknown"
    """The system does not tell."""


@dataclass(frozen=True, slots=True)
class ClockTrust:
    """All of it; `error_ms` is how far off the machine thinks it may be, 0 if it does not say."""

    trust: Trust = Trust.UNKNOWN
    error_ms: int = 0

    @property
    def is_off(self) -> bool:
        """Whether the error matters on a board that counts seconds."""
        return self.error_ms > OFF_MS

    @property
    def matters(self) -> bool:
        """Whether whoever types 'now' has to know of it."""
        return self.trust is Trust.ALONE or self.is_off

    def is_news_after(self, before: "ClockTrust | None") -> bool:
        """Whether it is to be kept in the record, after what was kept last."""
        return before is None or (self.trust, self.is_off) != (before.trust, before.is_off)


NOT_TOLD = ClockTrust()
"""Nobody has asked the machine, or there is no need: the board's clock is a simulated one."""
