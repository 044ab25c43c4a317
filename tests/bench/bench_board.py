"""Measures the desk without a window: a key, Enter, undo and a second that only passes.

    python3 tasks.py bench board

The plan is the crowded sample, with a chain of events tied to its first one until there are so
many: so a figure on that one moves nearly everything. A key is the preview of the line, the view,
and the first dozen cards written out.
"""

import gc
import itertools
import statistics
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice

from app.resources import sample_plan
from core.board.model import View
from core.plan.model import Event, Plan, Tie
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock

SIZES = (300, 1_000, 3_000)
ROUNDS = 25
IN_SIGHT = 12
HEAD = "wake-thu"
STEP_MS = 240_000


def main() -> int:
    """Print the median and the worst of each, in milliseconds."""
    print(f"{'events':>8}{'moved':>8}{'a key':>18}{'Enter':>18}{'undo':>18}{'a second':>18}")
    for count in SIZES:
        print(_row(count))
    return 0


def long_day(count: int) -> Plan:
    """The crowded sample with more events, each tied to the one before, all to its first."""
    plan = read_plan(sample_plan("three-days"))
    more = count - len(plan.events)
    return replace(plan, events=plan.events + tuple(islice(_chain(), max(0, more))))


def _chain() -> Iterator[Event]:
    before = HEAD
    for number in itertools.count(1):
        tie = Tie(before, STEP_MS, 0, None)
        before = f"step-{number}"
        yield Event(before, f"Step {number} of the day", ties=(tie,), give_ms=10_000)


def _row(count: int) -> str:
    plan = long_day(count)
    clock = SimClock(0, paused=True)
    desk = Desk(plan, clock)
    at_ms = desk.schedule.expected_ms(HEAD)
    assert at_ms is not None
    clock.jump(at_ms - 600_000)
    lines = itertools.cycle((f"{HEAD} +45s per flight", f"{HEAD} -45s per flight"))

    def seen() -> View:
        view = desk.view(clock.now_ms())
        tuple(view.cards[view.next_index : view.next_index + IN_SIGHT])
        return view

    def key() -> None:
        desk.preview(next(lines), "", clock.now_ms())
        seen()

    def enter() -> None:
        desk.enter(next(lines), "", clock.now_ms())
        seen()

    def undo() -> None:
        desk.undo(clock.now_ms())
        seen()

    def second() -> None:
        clock.step(1_000)
        seen()

    seen()
    gc.collect()
    gc.freeze()  # as the board itself does once it is open
    moved = len(desk.consider(f"{HEAD} +45s", "", clock.now_ms()).effect.moves)
    figures = [_spread(act) for act in (key, enter, undo, second)]
    return f"{len(plan.events):>8}{moved:>8}" + "".join(f"{figure:>18}" for figure in figures)


def _spread(act: Callable[[], object]) -> str:
    took_ms = []
    for _ in range(ROUNDS):
        begun_s = time.perf_counter()
        act()
        took_ms.append((time.perf_counter() - begun_s) * 1000)
    return f"{statistics.median(took_ms):.2f} ({max(took_ms):.1f}) ms"


if __name__ == "__main__":
    sys.exit(main())
