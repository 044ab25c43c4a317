"""`limbwatch print`: the plan on paper, as PDF."""

import argparse
import time
from pathlib import Path

from app.command_line.arguments import (
    CLASHES,
    FINE,
    BadArgument,
    entries,
    instant_ms,
    plan_argument,
)
from app.commands.times import outcome_lines
from app.commands.writing import counted
from app.plans import take_plan
from app.skies import skies_for
from app.units import Units
from core.board.paper.model import PlanSheet
from core.board.paper.sheet import AsOf
from core.board.words import Names
from core.session.batch import run as enter
from core.session.desk import Desk
from core.session.on_paper import printed_plan
from core.times.clocks import SimClock
from core.times.writing import Hours, Style

_SUFFIX = ".pdf"
_SIZES = ("a4", "letter")


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    parser.add_argument(
        "--out", type=Path, metavar="FILE.pdf", help="else beside you, with the plan's name"
    )
    parser.add_argument("--paper", choices=_SIZES, default=_SIZES[0], help="the size of the paper")
    parser.add_argument(
        "--hours", type=int, choices=[12, 24], default=12, help="how clock times are written"
    )
    parser.add_argument("--from", dest="begin", metavar="T", help="events from that time on")
    parser.add_argument("--to", dest="end", metavar="T", help="events before that time")
    entries(parser)


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    path: Path = Path(f"{given.plan.stem}{_SUFFIX}") if given.out is None else given.out
    if path.suffix.lower() != _SUFFIX:
        raise BadArgument(f"--out: '{path}' must end in {_SUFFIX}")
    plan = take_plan(given.plan)
    made_ms = time.time_ns() // 1_000_000
    at_ms = instant_ms("--now", given.now, plan)
    begin_ms, end_ms = instant_ms("--from", given.begin, plan), instant_ms("--to", given.end, plan)
    if begin_ms is not None and end_ms is not None and begin_ms >= end_ms:
        raise BadArgument("--from is not before --to: nothing lies between them")
    now_ms = made_ms if at_ms is None else at_ms
    clock, hours = SimClock(now_ms, paused=True), Hours(given.hours)
    desk = Desk(plan, clock, hours=hours, skies_for=skies_for, both=Units(at_once=True))
    done = enter(desk, given.enter, now_ms)
    stands = at_ms is not None or bool(given.enter)
    as_of = AsOf(now_ms if stands else None, made_ms, begin_ms, end_ms)
    sheet = printed_plan(desk, as_of)
    print(f"Printed to {path}: {counted(_printed(path, sheet, given.paper), 'page')}")
    names = Names({name: desk.schedule.event(name).name for name in desk.schedule.events})
    for line in outcome_lines(done, names, Style(plan.zones[0], hours), now_ms):
        print(line)
    return CLASHES if done.clash is not None else FINE


def _printed(path: Path, sheet: PlanSheet, size: str) -> int:
    """Write the PDF; gives how many pages it has. A screen is neither needed nor asked for."""
    # Late, and only here: it loads Qt.
    from app.printing.application import drawing_application  # noqa: PLC0415
    from app.printing.paper import Size  # noqa: PLC0415
    from app.printing.plan_pages import plan_pdf  # noqa: PLC0415
    from app.printing.saving import CannotWrite, save  # noqa: PLC0415

    _held = drawing_application()
    try:
        printed = plan_pdf(sheet, Size[size.upper()])
        save(path, printed.data)
    except CannotWrite as problem:
        raise BadArgument(str(problem)) from problem
    return printed.pages
