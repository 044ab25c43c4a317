"""Measures the desk without a window: a key, Enter, undo and a second that only passes.

    python3 tasks.py bench board

The plan is the crowded sample, with a chain of events tied to its first one until there are so
many: so a figure on that one moves nearly everything. A key is the preview of the line, the view,
and the first dozen cards written out.

Then the arrival sample, whose signal is computed: the burn slips by a new figure each time, and all
that hangs on it is worked out anew. There the least and the median are told, and the median beside
a loop of 100,000 multiplications run in between: a machine that does other things slows both.
"""

import gc
import itertools
import statistics
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from itertools import islice

from app.plans import take_plan
from app.resources import sample_plan
from app.skies import hurried_for
from core.board.model import View
from core.plan.model import Event, Plan, Tie
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.zones import typed_to_ms

SIZES = (300, 1_000, 3_000)
ROUNDS = 25
IN_SIGHT = 12
HEAD = "wake-thu"
STEP_MS = 240_000
SLIPS = 40
SLIPS_AT = "2031-05-14T16:39:00"


def main() -> int:
    """Print the median and the worst of each, in milliseconds."""
    print(f"{'events':>8}{'moved':>8}{'a key':>18}{'Enter':>18}{'undo':>18}{'a second':>18}")
    for count in SIZES:
        print(_row(count))
    print()
    print(f"petrel-arrival, a slip of the burn:{'least':>12}{'median':>12}{'beside a loop':>16}")
    for name, figures in _slips().items():
        print(f"{name:>35}{figures}")
    return 0


def _slips() -> dict[str, str]:
    """The preview, Enter with the view after it, and undo of a revised ignition."""
    plan = take_plan(sample_plan("petrel-arrival"))
    now_ms = typed_to_ms(SLIPS_AT, plan.zones[0])
    desk = Desk(plan, SimClock(now_ms, paused=True), skies_for=hurried_for)
    took_ms: dict[str, list[float]] = {"preview": [], "Enter + view": [], "undo + view": []}
    loops_ms: list[float] = []

    def seen() -> None:
        view = desk.view(now_ms)
        tuple(view.cards[view.next_index : view.next_index + IN_SIGHT])

    def enter(line: str) -> None:
        desk.enter(line, "", now_ms)
        seen()

    def undo() -> None:
        desk.undo(now_ms)
        seen()

    seen()
    gc.collect()
    gc.freeze()
    for slip in range(SLIPS):
        line = f"ign +{7 + 3 * slip}s"
        loops_ms.append(_took_ms(lambda: sum(each * each for each in range(100_000))))
        took_ms["preview"].append(_took_ms(partial(desk.preview, line, "", now_ms)))
        took_ms["Enter + view"].append(_took_ms(partial(enter, line)))
        took_ms["undo + view"].append(_took_ms(undo))
    return {name: _beside(figures, loops_ms) for name, figures in took_ms.items()}


def _beside(took_ms: list[float], loops_ms: list[float]) -> str:
    middle_ms = statistics.median(took_ms)
    share = middle_ms / statistics.median(loops_ms)
    return f"{min(took_ms):>9.2f} ms{middle_ms:>9.2f} ms{f'x {share:.2f}':>16}"


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


def _took_ms(act: Callable[[], object]) -> float:
    begun_s = time.perf_counter()
    act()
    return (time.perf_counter() - begun_s) * 1000


def _spread(act: Callable[[], object]) -> str:
    took_ms = [_took_ms(act) for _ in range(ROUNDS)]
    return f"{statistics.median(took_ms):.2f} ({max(took_ms):.1f}) ms"


if __name__ == "__main__":
    sys.exit(main())
