"""`limbwatch times`: every event's times, and what moved it."""

import argparse

from app.command_line.arguments import CLASHES, FINE, entries, plan_argument
from app.command_line.desks import entered
from app.commands.times import times_json, times_text
from core.times.writing import Style


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    entries(parser)
    parser.add_argument(
        "--anyway",
        action="store_true",
        help="set what clashes all the same, as a second Enter does at the board",
    )
    parser.add_argument("--json", action="store_true", help="as JSON")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    desk, done, now_ms = entered(given, anyway=given.anyway)
    if given.json:
        print(times_json(desk, done))
    else:
        print(times_text(desk, done, Style(desk.plan.zones[0]), now_ms))
    return CLASHES if done.clash is not None or desk.schedule.broken else FINE
