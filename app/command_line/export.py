"""`limbwatch export`: the plan's events for others, as a table or a calendar."""

import argparse
import sys
import time
from enum import StrEnum
from pathlib import Path

from app.command_line.arguments import FINE, BadArgument, plan_argument
from app.plans import take_plan
from app.printing.saving import CannotWrite, save
from app.skies import skies_for
from core.plan.imports.exports import plan_calendar, plan_csv
from core.plan.model import Plan
from core.session.desk import Desk
from core.times.clocks import SimClock


class Format(StrEnum):
    """What a plan is exported as; the value is what one types, and the end of the file's name."""

    CSV = "csv"
    CALENDAR = "ics"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    parser.add_argument(
        "--format",
        choices=[str(each) for each in Format],
        help="a table, or a calendar (iCalendar); else by the end of FILE, else a table",
    )
    parser.add_argument("--out", type=Path, metavar="FILE", help="write it there")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    kind = _format(given.format, given.out)
    if given.out is not None and given.out.resolve() == given.plan.resolve():
        raise BadArgument(f"--out: '{given.out}' is the plan itself; name another file")
    data = _exported(take_plan(given.plan), kind, time.time_ns() // 1_000_000)
    if given.out is None:
        sys.stdout.buffer.write(data)
        return FINE
    try:
        save(given.out, data)
    except CannotWrite as problem:
        raise BadArgument(f"--out: {problem}") from problem
    print(f"Written to {given.out}")
    return FINE


def _exported(plan: Plan, kind: Format, now_ms: int) -> bytes:
    """The plan with the times at which its events are planned, ties and signal reckoned."""
    schedule = Desk(plan, SimClock(now_ms, paused=True), skies_for=skies_for).schedule
    planned = {event.id: schedule.planned_ms(event.id) for event in plan.events}
    times_ms = {name: at_ms for name, at_ms in planned.items() if at_ms is not None}
    if kind is Format.CALENDAR:
        return plan_calendar(plan, times_ms, now_ms)
    # The mark tells a spreadsheet that this is UTF-8.
    return plan_csv(plan, times_ms).encode("utf-8-sig")


def _format(word: str | None, out: Path | None) -> Format:
    ends = {f".{each}": each for each in Format}
    asked = None if out is None else ends.get(out.suffix.lower())
    if word is not None and asked not in (None, Format(word)):
        raise BadArgument(f"--out: '{out}' is named like {asked}, and --format says {word}")
    if word is None and out is not None and asked is None:
        raise BadArgument(f"--out: end '{out}' in .csv or .ics, or say --format")
    return Format(word) if word is not None else asked or Format.CSV
