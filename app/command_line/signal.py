"""`limbwatch signal`: contacts, gaps, hand-overs and totals; drawn with `--picture`."""

import argparse
import os
from pathlib import Path

from app.command_line.arguments import (
    CLASHES,
    FINE,
    BadArgument,
    entries,
    instant_ms,
    plan_argument,
)
from app.command_line.desks import entered
from app.commands.sheets import Sheet, sheet
from app.commands.signals import Part, signal_json, signal_text
from core.session.desk import Desk
from core.times.writing import Style


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    entries(parser)
    parser.add_argument("--lane", metavar="L", help="that lane only")
    parser.add_argument("--from", dest="begin", metavar="T", help="from that time on")
    parser.add_argument("--to", dest="end", metavar="T", help="until that time")
    told = parser.add_mutually_exclusive_group()
    told.add_argument("--json", action="store_true", help="as JSON")
    told.add_argument(
        "--picture", type=Path, metavar="FILE.png", help="draw it to a file instead, for print"
    )


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    desk, done, now_ms = entered(given)
    part, style = _part(given, desk), Style(desk.plan.zones[0])
    if given.picture is not None:
        taken = given.enter[: len(given.enter) if done.clash is None else 0]
        _picture(given.picture, sheet(desk, part, taken, style, now_ms))
    elif given.json:
        print(signal_json(desk, done, part))
    else:
        print(signal_text(desk, done, part, style, now_ms))
    return CLASHES if done.clash is not None else FINE


def _part(given: argparse.Namespace, desk: Desk) -> Part:
    """The lane and the time that were asked for."""
    lanes = [lane.lane for lane in desk.signal()]
    if given.lane is not None and given.lane not in lanes:
        known = f"it has {', '.join(lanes)}" if lanes else "it has none"
        raise BadArgument(f"The plan has no lane '{given.lane}'; {known}")
    begin_ms = instant_ms("--from", given.begin, desk.plan)
    end_ms = instant_ms("--to", given.end, desk.plan)
    if begin_ms is not None and end_ms is not None and begin_ms >= end_ms:
        raise BadArgument("--from is not before --to: nothing lies between them")
    return Part(given.lane, begin_ms, end_ms)


def _picture(path: Path, drawn: Sheet | None) -> None:
    """Draw the signal to a file. A screen is neither needed nor asked for."""
    if path.suffix.lower() != ".png":
        raise BadArgument(f"--picture: '{path}' must end in .png")
    if drawn is None:
        raise BadArgument("No signal is known then: there is nothing to draw")
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    # Late, and only here: it loads Qt, which reads the line above.
    from app.picture.page import TooLong, png  # noqa: PLC0415

    try:
        path.write_bytes(png(drawn))
    except TooLong as problem:
        raise BadArgument(str(problem)) from problem
    except OSError as problem:
        raise BadArgument(f"--picture: cannot write {path}: {problem.strerror}") from problem
    print(f"Drawn to {path}")
