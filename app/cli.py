"""The `limbwatch` command: reads the command line and hands over to the command it names.

Each command is a module of `app.command_line`; only the one that is named is loaded.
"""

import argparse
import gc
import importlib
import io
import os
import sys
from collections.abc import Sequence
from typing import Protocol, TextIO, cast

from app import EDITORIAL, __version__
from app.command_line.arguments import BAD_INPUT, FINE, BadArgument
from core.errors import EntryProblem, PlanProblems, TimeProblem

COMMANDS = {
    "board": "open the board",
    "build": "make or change a plan, in tables",
    "check": "tell what is wrong with a plan, else sum it up",
    "times": "every event's times, and what moved it",
    "signal": "contacts, gaps, hand-overs and totals",
    "fits": "clear time, what fits and until when, a placement",
    "say": "what the presenter may say, and how long it holds",
    "rehearse": "a rehearsal, in the windows or without a screen",
    "print": "the plan on paper, as PDF",
    "export": "the plan's events for others, as a table or a calendar",
    "record": "what was planned, expected, said and happened in a session",
}
"""Each command and what it is for. Its module has its name."""


class Command(Protocol):
    """What the module of a command gives."""

    def arguments(self, parser: argparse.ArgumentParser, /) -> None:
        """Add what the command takes."""

    def run(self, given: argparse.Namespace, /) -> int:
        """Run it; gives the exit status."""


def build_parser(named: str | None) -> argparse.ArgumentParser:
    """The parser; of the commands, the one that is named knows what it takes."""
    about = f"A live-coverage cue board for the anchor desk during a space flight. {EDITORIAL}"
    parser = argparse.ArgumentParser(prog="limbwatch", description=about)
    parser.add_argument("--version", action="version", version=f"Limbwatch {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for name, does in COMMANDS.items():
        its = commands.add_parser(name, help=does, description=does.capitalize() + ".")
        if name == named:
            command = cast("Command", importlib.import_module(f"app.command_line.{name}"))
            command.arguments(its)
            its.set_defaults(run=command.run)
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; gives the exit status: 0 fine, 1 something clashes, 2 bad input."""
    gc.freeze()  # what was loaded while it rested is no garbage: looking through it takes long
    gc.enable()
    words = sys.argv[1:] if arguments is None else arguments
    parser = build_parser(next((word for word in words if not word.startswith("-")), None))
    given = parser.parse_args(words)
    if not hasattr(given, "run"):
        parser.print_help()
        return BAD_INPUT
    _write_anything(sys.stdout)
    try:
        return _carried_out(given)
    except BrokenPipeError:
        # Whoever read has had enough. What is still to be flushed at the end must go nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE


def _write_anything(stream: TextIO) -> None:
    """A sign that the terminal's encoding lacks becomes a question mark, not the end."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")


def _carried_out(given: argparse.Namespace) -> int:
    try:
        status: int = given.run(given)
        sys.stdout.flush()
    except PlanProblems as problems:
        _complain(*(str(problem) for problem in problems.problems))
        return BAD_INPUT
    except (EntryProblem, TimeProblem, BadArgument) as problem:
        _complain(str(problem))
        return BAD_INPUT
    return status


def _complain(*lines: str) -> None:
    for line in lines:
        print(line, file=sys.stderr)
