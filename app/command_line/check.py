"""`limbwatch check`: what is wrong with a plan, else its summary."""

import argparse

from app.command_line.arguments import CLASHES, FINE, plan_argument
from app.command_line.desks import still_desk
from app.commands.checking import summary
from app.plans import take_plan_with_warnings
from core.times.writing import Style


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    plan, warnings = take_plan_with_warnings(given.plan)
    desk = still_desk(plan)
    print(summary(desk, plan, warnings, Style(plan.zones[0])))
    return CLASHES if desk.clashes else FINE
