"""What the bar asks of a simulated clock, done."""

from dataclasses import replace

from core.entries.readings import (
    ClockCommand,
    ClockGo,
    ClockJump,
    ClockMove,
    ClockPause,
    ClockRate,
    Reading,
)
from core.times.clocks import SimClock


def as_it_stands(reading: Reading, clock: SimClock) -> Reading:
    """The reading of a rate with what else it takes, where the clock stands."""
    if not clock.paused or not isinstance(reading.action, ClockRate):
        return reading
    return replace(reading, how=f"{reading.how}, once it goes: it stands until clock go")


def steer(clock: SimClock, command: ClockCommand) -> None:
    """Do with the clock as the line says."""
    match command:
        case ClockPause():
            clock.pause()
        case ClockGo():
            clock.go()
        case ClockRate(rate):
            clock.set_rate(rate)
        case ClockMove(by_ms):
            clock.step(by_ms)
        case ClockJump(to_ms):
            clock.jump(to_ms)
