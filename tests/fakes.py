"""Things that stand for the machine in tests, turned by hand."""

from dataclasses import dataclass

from core.times.clocks import RealClock, SimClock


@dataclass
class HandMachine:
    """A machine's three clocks: time passes, is set, or is slept through only when told."""

    wall_at_ns: int = 0
    monotonic_at_ns: int = 0
    boot_at_ns: int = 0
    reading_takes_ms: int = 0
    """How long the machine dawdles at each look at its wall clock."""

    @classmethod
    def at(cls, now_ms: int) -> "HandMachine":
        """A machine whose clock shows that instant."""
        return cls(wall_at_ns=now_ms * 1_000_000)

    def run(self, by_ms: float) -> None:
        """Let time pass."""
        by_ns = round(by_ms * 1_000_000)
        self.wall_at_ns += by_ns
        self.monotonic_at_ns += by_ns
        self.boot_at_ns += by_ns

    def set_clock(self, by_ms: int) -> None:
        """Set the machine's clock forward, or back."""
        self.wall_at_ns += by_ms * 1_000_000

    def sleep(self, for_ms: int) -> None:
        """Close the lid for so long."""
        self.wall_at_ns += for_ms * 1_000_000
        self.boot_at_ns += for_ms * 1_000_000

    def wall_ns(self) -> int:
        now_ns = self.wall_at_ns
        self.run(self.reading_takes_ms)
        return now_ns

    def monotonic_ns(self) -> int:
        return self.monotonic_at_ns

    def boottime_ns(self) -> int:
        return self.boot_at_ns

    def monotonic_s(self) -> float:
        return self.monotonic_at_ns / 1e9

    def real_clock(self) -> RealClock:
        """A real clock on this machine."""
        return RealClock(self.wall_ns, self.monotonic_ns, self.boottime_ns)

    def sim_clock(self, start_ms: int, rate: float = 1.0, *, paused: bool = False) -> SimClock:
        """A simulated clock on this machine."""
        return SimClock(start_ms, self.monotonic_s, rate, paused=paused)
