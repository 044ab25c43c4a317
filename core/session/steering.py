"""What the bar asks of a simulated clock, done."""

from core.entries.readings import (
    ClockCommand,
    ClockGo,
    ClockJump,
    ClockMove,
    ClockPause,
    ClockRate,
)
from core.times.clocks import SimClock


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
