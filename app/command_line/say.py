"""`limbwatch say`: what the presenter may say, and how long it holds."""

import argparse

from app.command_line.arguments import CLASHES, FINE, entries, plan_argument
from app.command_line.desks import entered, tell_board_time
from app.commands.say import say_json, say_text


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    entries(parser)
    parser.add_argument("--json", action="store_true", help="as JSON")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    desk, done, now_ms = entered(given)
    if given.json:
        print(say_json(desk, done, now_ms))
    else:
        tell_board_time(given, desk, now_ms)
        print(say_text(desk, done, now_ms))
    return CLASHES if done.clash is not None or desk.schedule.broken else FINE
