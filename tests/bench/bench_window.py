"""Measures the desk window: keypress to paint, the painted second, rest, start and memory.

    python3 tasks.py bench window [SECONDS]

SECONDS is how long the board is watched on the real clock (20 unless given).
"""

import itertools
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, QEventLoop, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

import app.main
from app.desk.window import DeskWindow
from app.main import Board, application, board, calm
from app.resources import sample_plan
from core.plan.model import Event, Plan
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import RealClock, SimClock

START = Path(__file__).with_name("start_board.py")
EMPTY = Path(__file__).with_name("start_empty.py")
CROWDED = "three-days"
LINES = ("earthrise-thu +45s per flight", "earthrise-thu -45s", "map-8 about 9:40a")
ROUNDS = 8
STARTS = 7


class TimedWindow(DeskWindow):
    """The desk window, noting when each painting of the whole window has ended."""

    painted_s: float = 0.0
    busy_s: float = 0.0
    paintings: int = 0

    def event(self, event: QEvent) -> bool:
        """Note the end of a painting: cards, strip and bar are painted within it."""
        done = super().event(event)
        if event.type() == QEvent.Type.UpdateRequest:
            self.painted_s, self.busy_s = time.time(), time.process_time()
            self.paintings += 1
        return done


def main(arguments: Sequence[str]) -> int:
    """Run all measurements and print what they found."""
    seconds = int(arguments[0]) if arguments else 20
    starts()
    application()
    vars(app.main)["DeskWindow"] = TimedWindow  # the same window, with a watch on it
    for count in (300, 1000):
        keypresses(count)
    at_rest(300, seconds)
    return 0


def row(what: str, *figures: str) -> None:
    """Print one row of the table."""
    print(f"{what:<46}" + "".join(f"{figure:>14}" for figure in figures))


def spread(values_ms: Iterable[float]) -> tuple[str, str, str]:
    """Give median, 99th percentile and worst, as text."""
    ordered = sorted(values_ms)
    p99 = ordered[min(len(ordered) - 1, round(0.99 * (len(ordered) - 1)))]
    return tuple(f"{v:.1f} ms" for v in (statistics.median(ordered), p99, ordered[-1]))  # type: ignore[return-value]  # three of them


# ------------------------------------------------------------------ plans


def crowded(count: int) -> Plan:
    """The crowded sample, with copies of its events until there are so many."""
    plan = read_plan(sample_plan(CROWDED))
    copies = (_copied(event, turn) for turn in itertools.count(1) for event in plan.events)
    more = tuple(itertools.islice(copies, max(0, count - len(plan.events))))
    return replace(plan, events=plan.events + more)


def _copied(event: Event, turn: int) -> Event:
    def other(name: str) -> str:
        return f"{name}-copy{turn}"

    edge = event.edge
    if edge is not None:
        edge = replace(
            edge,
            after=other(edge.after) if edge.after else None,
            before=other(edge.before) if edge.before else None,
        )
    return replace(
        event,
        id=other(event.id),
        ties=tuple(replace(tie, event=other(tie.event)) for tie in event.ties),
        edge=edge,
        only_if=None,
    )


def opened(plan: Plan, clock: RealClock | SimClock) -> tuple[Board, TimedWindow]:
    """A board on the screen, with its strip."""
    made = board(Desk(plan, clock), clock)
    window = made.window
    assert isinstance(window, TimedWindow)
    loop = QEventLoop()
    window.strip_added.connect(loop.quit)
    window.resize(1600, 1000)
    made.start()
    loop.exec()
    settle(window)
    calm()
    return made, window


def settle(window: TimedWindow) -> None:
    """Let everything be painted that is to be painted."""
    seen = -1
    while seen != window.paintings:
        seen = window.paintings
        for _ in range(3):
            QApplication.processEvents()


def before_earthrise(plan: Plan) -> int:
    """Ten minutes before the crowded plan's first live moment, when there is much in sight."""
    cards = Desk(plan, SimClock(0, paused=True)).view(0).cards
    at_ms = next(card.at_ms for card in cards if card.id == "earthrise-thu")
    assert at_ms is not None
    return at_ms - 600_000


# ------------------------------------------------------------------ measurements


def keypresses(count: int) -> None:
    """From a key to the end of the last painting it caused: typed letters, and Enter.

    The processor time beside it is what a machine with nothing else to do would need.
    """
    plan = crowded(count)
    made, window = opened(plan, SimClock(before_earthrise(plan), paused=True))
    line = window.bar.line
    letters: list[Took] = []
    enters: list[Took] = []
    for text in LINES * ROUNDS:
        letters += [timed(window, partial(QTest.keyClicks, line, key)) for key in text]
        enters.append(timed(window, partial(QTest.keyClick, line, Qt.Key.Key_Return)))
        line.forget()
    print()
    row(f"{len(plan.events)} events", "median", "99 %", "worst")
    for what, took in (("a letter typed", letters), ("Enter", enters)):
        row(f"{what}, to the end of its painting", *spread(each.wall_ms for each in took))
        row("    processor time of it", *spread(each.busy_ms for each in took))
    closed(made)


@dataclass(frozen=True)
class Took:
    """How long a key took until all was painted, and how much of it the processor worked."""

    wall_ms: float
    busy_ms: float


def timed(window: TimedWindow, press: Callable[[], object]) -> Took:
    """Press a key and give how long it took until the last painting it caused had ended."""
    begun_s, busy_s = time.time(), time.process_time()
    window.painted_s, window.busy_s = begun_s, busy_s
    press()
    settle(window)
    return Took((window.painted_s - begun_s) * 1000, (window.busy_s - busy_s) * 1000)


def at_rest(count: int, seconds: int) -> None:
    """How late each second is painted on the real clock, and what the board costs meanwhile."""
    plan = crowded(count)
    shifted_ms = before_earthrise(plan) - time.time_ns() // 1_000_000
    shifted_ns = round(shifted_ms / 1000) * 1_000_000_000
    clock = RealClock(wall_ns=lambda: time.time_ns() + shifted_ns)
    made, window = opened(plan, clock)
    late: list[float] = []
    last = [window.paintings]

    def note() -> None:
        if window.paintings != last[0]:
            last[0] = window.paintings
            late.append(window.painted_s % 1 * 1000)

    # Looked at half a second after each tick, when its paintings are over.
    made.ticker.ticked.connect(lambda _ms: QTimer.singleShot(500, note))
    loop = QEventLoop()
    QTimer.singleShot(2000, loop.quit)  # what opening it set off is over
    loop.exec()
    late.clear()
    begun_s, cpu_s = time.monotonic(), time.process_time()
    QTimer.singleShot(seconds * 1000, loop.quit)
    loop.exec()
    used = (time.process_time() - cpu_s) / (time.monotonic() - begun_s)
    print()
    row(f"{len(plan.events)} events, real clock, {seconds} s", "median", "99 %", "worst")
    row("the second painted, after it began", *spread(late))
    row("processor at rest, of one core", f"{used * 100:.2f} %")
    row("resident memory", f"{resident_mb():.0f} MB")
    closed(made)


def starts() -> None:
    """From starting Python to the first frame, and to the strip, in processes of their own.

    Compiled code is kept aside, and what was computed for the plan, as on any machine on which
    the board was opened once before.
    """
    empty: list[float] = []
    frames: list[float] = []
    strips: list[float] = []
    with tempfile.TemporaryDirectory() as compiled:
        homes = dict.fromkeys(("XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME"), compiled)
        env = {**os.environ, "PYTHONPYCACHEPREFIX": compiled, **homes}
        env.pop("PYTHONDONTWRITEBYTECODE", None)
        for _ in range(STARTS):
            frame_ms, strip_ms = _started(START, env)
            frames.append(frame_ms)
            strips.append(strip_ms)
            empty += _started(EMPTY, env)
    row(f"start, arrival sample, {STARTS} times", "median", "99 %", "worst")
    row("an empty Qt window painted", *spread(empty[1:]))
    row("to the first frame, once warm", *spread(frames[1:]), _times(frames, empty))
    row("to the strip painted, once warm", *spread(strips[1:]), _times(strips, empty))
    row("the very first", f"{frames[0]:.0f} ms", f"{strips[0]:.0f} ms")


def _started(script: Path, env: dict[str, str]) -> list[float]:
    """What a script prints of its start, in milliseconds."""
    command = [sys.executable, str(script), repr(time.time())]
    ran = subprocess.run(command, check=True, capture_output=True, text=True, env=env)
    return [float(each_s) * 1000 for each_s in ran.stdout.split()]


def _times(ours: Sequence[float], empty: Sequence[float]) -> str:
    return f"{statistics.median(ours[1:]) / statistics.median(empty[1:]):.1f} x empty"


def closed(made: Board) -> None:
    """Close a board."""
    made.ticker.stop()
    made.window.close()
    made.window.deleteLater()
    QApplication.processEvents()


def resident_mb() -> float:
    """The memory this process holds, in millions of bytes."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    line = next(line for line in status.splitlines() if line.startswith("VmRSS"))
    return int(line.split()[1]) * 1024 / 1e6


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
