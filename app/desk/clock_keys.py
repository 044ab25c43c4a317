"""The keys that drive a simulated clock."""

from typing import Protocol

from app.desk.keys import Command

RATES: tuple[float, ...] = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 60, 120, 300, 600)

_STEPS_MS = {Command.STEP: 1_000, Command.STEP_FAR: 60_000}


class DrivenClock(Protocol):
    """What can be done to a simulated clock."""

    @property
    def rate(self) -> float:
        """Board seconds a real second."""

    @property
    def paused(self) -> bool:
        """Whether it stands still."""

    def pause(self) -> None:
        """Stand still."""

    def go(self) -> None:
        """Run on."""

    def set_rate(self, rate: float) -> None:
        """Run at another rate."""

    def step(self, by_ms: int) -> None:
        """Go that far at once."""


class ClockKeys:
    """Does to the clock what a key asks for."""

    def __init__(self, clock: DrivenClock) -> None:
        self._clock = clock

    def take(self, command: Command) -> bool:
        """Carry out a command; False where it is none for the clock, or changes nothing."""
        match command:
            case Command.PAUSE:
                self._turn()
            case Command.STEP | Command.STEP_FAR:
                self._clock.step(_STEPS_MS[command])
            case Command.SLOWER:
                self._clock.set_rate(slower(self._clock.rate))
            case Command.FASTER:
                self._clock.set_rate(faster(self._clock.rate))
            case _:
                return False
        return True

    def _turn(self) -> None:
        if self._clock.paused:
            self._clock.go()
        else:
            self._clock.pause()


def slower(rate: float) -> float:
    """Give the next lower of the rates."""
    return next((known for known in reversed(RATES) if known < rate), RATES[0])


def faster(rate: float) -> float:
    """Give the next higher of the rates."""
    return next((known for known in RATES if known > rate), RATES[-1])
