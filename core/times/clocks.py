"""The clocks: the machine's, watched for steps and sleep, and one that is simulated."""

import math
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

STEP_MS = 50
"""The machine's clock is steered by less than this between two looks; more is a step."""

SLOWEST, FASTEST = 0.1, 600.0
"""The rates of a simulated clock, in board seconds a real second."""

TICKS_PER_S = 20
"""A simulated clock is painted no oftener than this."""

_TRIES = 5


@dataclass(frozen=True, slots=True)
class Step:
    """The machine's clock jumped by so much, or the machine slept so long."""

    by_ms: int
    slept: bool


class Clock(Protocol):
    """What every clock of the board can do."""

    @property
    def simulated(self) -> bool:
        """Whether it is a rehearsal's."""

    def now_ms(self) -> int:
        """The board's time, UTC milliseconds."""

    def until_next_tick_ms(self) -> float:
        """Real milliseconds until the next board second to be painted; infinite if it stands."""

    def watch(self) -> Step | None:
        """What happened to the clock since this was last asked; ask at each tick."""


def boottime_ns() -> int:
    """Nanoseconds since the machine started, its sleep included, where the system counts it."""
    if sys.platform != "linux":
        return time.monotonic_ns()
    return time.clock_gettime_ns(time.CLOCK_BOOTTIME)


@dataclass(frozen=True, slots=True)
class _Look:
    """The machine's three clocks at one moment, as differences from the one that only runs."""

    wall_ms: int
    boot_ms: int
    blur_ms: int
    """How far apart the three were read."""


class RealClock:
    """The machine's clock. The sources give nanoseconds; tests hand in their own."""

    simulated = False

    def __init__(
        self,
        wall_ns: Callable[[], int] = time.time_ns,
        monotonic_ns: Callable[[], int] = time.monotonic_ns,
        boottime_ns: Callable[[], int] = boottime_ns,
    ) -> None:
        self._wall_ns = wall_ns
        self._monotonic_ns = monotonic_ns
        self._boottime_ns = boottime_ns
        seen = self._look()
        self._wall_ms, self._boot_ms = seen.wall_ms, seen.boot_ms

    def now_ms(self) -> int:
        """The board's time, UTC milliseconds."""
        return self._wall_ns() // 1_000_000

    def until_next_second_ms(self) -> float:
        """Real milliseconds until the next whole second, more than 0 and at most 1,000."""
        return (1_000_000_000 - self._wall_ns() % 1_000_000_000) / 1_000_000

    def until_next_tick_ms(self) -> float:
        """The same: every second is painted."""
        return self.until_next_second_ms()

    def watch(self) -> Step | None:
        """A step or a sleep since this was last asked. After a sleep a step is told next time."""
        seen = self._look()
        if seen.blur_ms > STEP_MS // 2:
            return None  # the machine was busy between the readings: they say nothing
        stepped_ms = seen.wall_ms - self._wall_ms
        slept_ms = seen.boot_ms - self._boot_ms
        self._boot_ms = seen.boot_ms
        if slept_ms > STEP_MS:
            self._wall_ms += slept_ms
            return Step(slept_ms, slept=True)
        self._wall_ms = seen.wall_ms
        return Step(stepped_ms, slept=False) if abs(stepped_ms) > STEP_MS else None

    def _look(self) -> _Look:
        return min((self._look_once() for _ in range(_TRIES)), key=lambda look: look.blur_ms)

    def _look_once(self) -> _Look:
        before_ns = self._monotonic_ns()
        wall_ns, boot_ns = self._wall_ns(), self._boottime_ns()
        after_ns = self._monotonic_ns()
        return _Look(
            (wall_ns - before_ns) // 1_000_000,
            (boot_ns - before_ns) // 1_000_000,
            (after_ns - before_ns) // 1_000_000,
        )


class SimClock:
    """A clock that starts anywhere, at any rate from 1/10 to 600, and can be stopped and set.

    `monotonic` gives real seconds that only run. ValueError for a rate out of range.
    """

    simulated = True

    def __init__(
        self,
        start_ms: int,
        monotonic: Callable[[], float] = time.monotonic,
        rate: float = 1.0,
        *,
        paused: bool = False,
    ) -> None:
        self._monotonic = monotonic
        self._rate = _checked(rate)
        self._paused = paused
        self._at_ms = float(start_ms)
        self._since_s = monotonic()

    @property
    def rate(self) -> float:
        """Board seconds a real second, also while it is paused."""
        return self._rate

    @property
    def paused(self) -> bool:
        """Whether it stands still."""
        return self._paused

    def now_ms(self) -> int:
        """The board's time, UTC milliseconds."""
        return math.floor(self._exact_ms())

    def pause(self) -> None:
        """Stand still."""
        self._anchor(self._exact_ms())
        self._paused = True

    def go(self) -> None:
        """Run on, at the rate it had."""
        self._anchor(self._exact_ms())
        self._paused = False

    def set_rate(self, rate: float) -> None:
        """Run at another rate from here on; ValueError outside 1/10 to 600."""
        checked = _checked(rate)
        self._anchor(self._exact_ms())
        self._rate = checked

    def step(self, by_ms: int) -> None:
        """Go that far at once, or back."""
        self._anchor(self._exact_ms() + by_ms)

    def jump(self, to_ms: int) -> None:
        """Go to an instant at once."""
        self._anchor(float(to_ms))

    def until_next_tick_ms(self) -> float:
        """Real milliseconds until the next board second to be painted; infinite while paused.

        Above 20 board seconds a second they are taken in equal strides, at most 20 a second.
        """
        if self._paused:
            return math.inf
        stride_ms = 1_000 * max(1, math.ceil(self._rate / TICKS_PER_S))
        ahead_ms = stride_ms - self._exact_ms() % stride_ms
        if stride_ms > 1_000 and ahead_ms < stride_ms / 2:
            ahead_ms += stride_ms  # the timer fired a little early: not twice for one stride
        return ahead_ms / self._rate

    def watch(self) -> None:
        """Nothing: the machine's clock does not reach it."""
        return

    def _exact_ms(self) -> float:
        if self._paused:
            return self._at_ms
        return self._at_ms + (self._monotonic() - self._since_s) * 1_000 * self._rate

    def _anchor(self, at_ms: float) -> None:
        self._at_ms = at_ms
        self._since_s = self._monotonic()


def _checked(rate: float) -> float:
    if not SLOWEST <= rate <= FASTEST:
        raise ValueError(f"a rate of {rate:g} is outside {SLOWEST:g} to {FASTEST:g}")
    return rate
