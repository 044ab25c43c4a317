"""The `limbwatch` command: reads the command line and hands over to the command it names."""

import argparse
from collections.abc import Sequence

from app import __version__

_ABOUT = (
    "A live-coverage cue board for the anchor desk during a space flight. "
    "For editorial use: not for navigation, range safety or flight control."
)


def build_parser() -> argparse.ArgumentParser:
    """Give the parser; a command adds its own with `set_defaults(run=...)`."""
    parser = argparse.ArgumentParser(prog="limbwatch", description=_ABOUT)
    parser.add_argument("--version", action="version", version=f"Limbwatch {__version__}")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; gives the exit status."""
    parser = build_parser()
    parser.parse_args(arguments)
    parser.print_help()
    return 2
