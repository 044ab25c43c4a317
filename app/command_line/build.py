"""`limbwatch build`: the builder window."""

import argparse
from pathlib import Path

from app.command_line.arguments import BadArgument


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    parser.add_argument(
        "plan", nargs="?", type=Path, metavar="PLAN", help="the plan to change; else a new one"
    )


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    # Late, and only here: it loads Qt.
    from app.builder.running import run_builder  # noqa: PLC0415
    from app.main import QtRefused  # noqa: PLC0415

    try:
        return run_builder(given.plan)
    except QtRefused as refused:
        raise BadArgument(str(refused)) from refused
