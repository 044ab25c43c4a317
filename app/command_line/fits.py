"""`limbwatch fits`: clear time, what fits and until when, a placement."""

import argparse

from app.command_line.arguments import CLASHES, FINE, entries, plan_argument
from app.command_line.desks import entered, tell_board_time
from app.commands.fits import clashes, fits_json, fits_text
from core.times.writing import Style


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    entries(parser)
    parser.add_argument("--json", action="store_true", help="as JSON")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    desk, done, now_ms = entered(given)
    if given.json:
        print(fits_json(desk, done, now_ms))
    else:
        tell_board_time(given, desk, now_ms)
        print(fits_text(desk, done, Style(desk.plan.zones[0]), now_ms))
    return CLASHES if clashes(desk, done, now_ms) else FINE
