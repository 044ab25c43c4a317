"""The desk a command without windows looks at."""

import argparse
import time

from app.command_line.arguments import instant_ms
from app.commands.times import board_time_line
from app.plans import take_plan
from app.skies import skies_for
from core.plan.model import Plan
from core.session.batch import Run, run
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.writing import Style


def still_desk(plan: Plan, now_ms: int | None = None) -> Desk:
    """A desk on a clock that stands still; without a time, at the machine's."""
    at_ms = time.time_ns() // 1_000_000 if now_ms is None else now_ms
    return Desk(plan, SimClock(at_ms, paused=True), skies_for=skies_for)


def entered(given: argparse.Namespace, *, anyway: bool = False) -> tuple[Desk, Run, int]:
    """The desk on the plan that was given, what became of the lines entered, and its time."""
    plan = take_plan(given.plan)
    desk = still_desk(plan, instant_ms("--now", given.now, plan))
    now_ms = desk.clock.now_ms()
    return desk, run(desk, given.enter, now_ms, anyway=anyway), now_ms


def tell_board_time(given: argparse.Namespace, desk: Desk, now_ms: int) -> None:
    """A line first for whoever has left out --now while the plan is of another day."""
    line = "" if given.now is not None else board_time_line(desk, Style(desk.plan.zones[0]), now_ms)
    if line:
        print(line)
