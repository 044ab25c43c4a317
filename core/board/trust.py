"""The trust in the machine's clock in words: on the header, and for the record."""

from core.times.trust import ClockTrust, Trust

_STATES = {
    Trust.SYNCHRONISED: "The machine's clock is synchronised",
    Trust.ALONE: "The machine's clock is not synchronised",
    Trust.UNKNOWN: "Whether the machine's clock is synchronised is not known",
}


def trust_line(told: ClockTrust) -> str:
    """'clock not synchronised', 'clock may be 0.8 s off'; '' where it does not matter."""
    if told.trust is Trust.ALONE:
        return "clock not synchronised"
    return f"clock may be {_off(told)} off" if told.is_off else ""


def trust_words(told: ClockTrust) -> str:
    """What is kept of it: 'The machine's clock is synchronised, but may be 0.8 s off'."""
    off = f", but may be {_off(told)} off by its own estimate" if told.is_off else ""
    return f"{_STATES[told.trust]}{off}"


def _off(told: ClockTrust) -> str:
    return f"{told.error_ms / 1_000:.1f} s"
