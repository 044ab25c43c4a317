"""`limbwatch build`: the builder window."""

import argparse
from pathlib import Path


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    parser.add_argument(
        "plan", nargs="?", type=Path, metavar="PLAN", help="the plan to change; else a new one"
    )


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    # Late, and only here: it loads Qt.
    from app.builder.running import run_builder  # noqa: PLC0415

    return run_builder(given.plan)
