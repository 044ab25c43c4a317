"""What the commands' lines have in common: arguments, times, exit statuses, complaints."""

import argparse
from pathlib import Path

from core.errors import LimbwatchError, TimeProblem
from core.plan.model import Plan
from core.plan.values import EARLIEST_MS, LATEST_MS
from core.times.clocks import FASTEST, SLOWEST
from core.times.zones import typed_to_ms

FINE, CLASHES, BAD_INPUT = 0, 1, 2
RATE_HELP = f"board seconds a second, {SLOWEST:g} to {FASTEST:g}"


class BadArgument(LimbwatchError):
    """An argument of the command line that cannot be taken; the message says why."""


def rate(text: str) -> float:
    """A rate of the simulated clock, as the parser takes it."""
    try:
        found = float(text)
    except ValueError:
        found = -1.0
    if not SLOWEST <= found <= FASTEST:
        raise argparse.ArgumentTypeError(f"'{text}' is no rate from {SLOWEST:g} to {FASTEST:g}")
    return found


def plan_argument(parser: argparse.ArgumentParser) -> None:
    """The plan a command is about."""
    parser.add_argument("plan", type=Path, metavar="PLAN", help="the plan's file")


def entries(parser: argparse.ArgumentParser) -> None:
    """Lines of the entry bar, and the time at which they are entered."""
    parser.add_argument(
        "--enter",
        action="append",
        default=[],
        metavar="ENTRY",
        help="a line of the entry bar; as often as wanted, in order",
    )
    parser.add_argument(
        "--now", metavar="T", help="the board's time, for a plan of another day; else the machine's"
    )


def instant_ms(option: str, text: str | None, plan: Plan) -> int | None:
    """A time of the command line: RFC 3339, or without an offset in the desk's zone."""
    if text is None:
        return None
    try:
        at_ms = typed_to_ms(text, plan.zones[0])
    except TimeProblem as problem:
        raise BadArgument(f"{option}: {problem}") from problem
    if not EARLIEST_MS <= at_ms < LATEST_MS:
        raise BadArgument(f"{option}: '{text}' is outside the years 1900 to 2199")
    return at_ms
