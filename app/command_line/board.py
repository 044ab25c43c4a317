"""`limbwatch board`: the windows."""

import argparse
from pathlib import Path

from app.command_line.arguments import RATE_HELP, BadArgument, rate
from app.command_line.windows import loading_windows


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    parser.add_argument(
        "plan", nargs="?", type=Path, metavar="PLAN", help="else the session that was open last"
    )
    parser.add_argument("--at", metavar="T", help="start a simulated clock at that time")
    parser.add_argument("--rate", type=rate, metavar="N", help=RATE_HELP)
    parser.add_argument("--new", action="store_true", help="begin a new session")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    with loading_windows():
        # Late, and only here: of all commands only those with windows may load Qt.
        from app.main import QtRefused, run_board  # noqa: PLC0415

        try:
            return run_board(given.plan, given.at, given.rate, new=given.new)
        except QtRefused as refused:
            raise BadArgument(str(refused)) from refused
