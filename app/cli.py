"""The `limbwatch` command: reads the command line and hands over to the command it names."""

import argparse
import gc
import io
import os
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TextIO

from app import __version__
from app.commands.checking import summary
from app.commands.fits import clashes as programme_clashes
from app.commands.fits import fits_json, fits_text
from app.commands.rehearsing import drawn, rehearsed, score_json, score_text
from app.commands.say import say_json, say_text
from app.commands.sheets import EDITORIAL, Sheet, sheet
from app.commands.signals import Part, signal_json, signal_text
from app.commands.times import board_time_line, times_json, times_text
from app.plans import take_plan, take_plan_with_warnings
from app.resources import asset
from app.skies import skies_for
from core.errors import EntryProblem, LimbwatchError, PlanProblems, TimeProblem
from core.plan.model import Plan
from core.plan.values import EARLIEST_MS, LATEST_MS
from core.rehearsal.drawing import HEAVIEST, LIGHTEST
from core.rehearsal.draws import read_draws
from core.rehearsal.habits import DESKS
from core.rehearsal.reading import read_surprises
from core.session.batch import run
from core.session.desk import Desk
from core.times.clocks import FASTEST, SLOWEST, SimClock
from core.times.writing import Style
from core.times.zones import typed_to_ms

_ABOUT = "A live-coverage cue board for the anchor desk during a space flight. " + EDITORIAL

FINE, CLASHES, BAD_INPUT = 0, 1, 2
DRAWS = "rehearsal/draws.toml"


class BadArgument(LimbwatchError):
    """An argument of the command line that cannot be taken; the message says why."""


def build_parser() -> argparse.ArgumentParser:
    """Give the parser; each command adds its own with `set_defaults(run=...)`."""
    parser = argparse.ArgumentParser(prog="limbwatch", description=_ABOUT)
    parser.add_argument("--version", action="version", version=f"Limbwatch {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    board = _command(commands, "board", "open the board", _board)
    board.add_argument(
        "plan", nargs="?", type=Path, metavar="PLAN", help="else the session that was open last"
    )
    board.add_argument("--at", metavar="T", help="start a simulated clock at that time")
    board.add_argument("--rate", type=_rate, metavar="N", help="board seconds a second, 0.1 to 600")
    board.add_argument("--new", action="store_true", help="begin a new session")
    check = _command(commands, "check", "tell what is wrong with a plan, else sum it up", _check)
    _plan_argument(check)
    times = _command(commands, "times", "every event's times, and what moved it", _times)
    _plan_argument(times)
    _entries(times)
    times.add_argument(
        "--anyway",
        action="store_true",
        help="set what clashes all the same, as a second Enter does at the board",
    )
    times.add_argument("--json", action="store_true", help="as JSON")
    signal = _command(commands, "signal", "contacts, gaps, hand-overs and totals", _signal)
    _plan_argument(signal)
    _entries(signal)
    signal.add_argument("--lane", metavar="L", help="that lane only")
    signal.add_argument("--from", dest="begin", metavar="T", help="from that time on")
    signal.add_argument("--to", dest="end", metavar="T", help="until that time")
    told = signal.add_mutually_exclusive_group()
    told.add_argument("--json", action="store_true", help="as JSON")
    told.add_argument(
        "--picture", type=Path, metavar="FILE.png", help="draw it to a file instead, for print"
    )
    fits = _command(commands, "fits", "clear time, what fits and until when, a placement", _fits)
    _plan_argument(fits)
    _entries(fits)
    fits.add_argument("--json", action="store_true", help="as JSON")
    say = _command(commands, "say", "what the presenter may say, and how long it holds", _say)
    _plan_argument(say)
    _entries(say)
    say.add_argument("--json", action="store_true", help="as JSON")
    _rehearsal(_command(commands, "rehearse", "run a rehearsal without a screen", _rehearse))
    return parser


def _rehearsal(parser: argparse.ArgumentParser) -> None:
    _plan_argument(parser)
    day = parser.add_mutually_exclusive_group(required=True)
    day.add_argument("surprises", nargs="?", type=Path, metavar="SURPRISES", help="the file")
    day.add_argument("--draw", type=int, metavar="N", help="draw a day; the same N, the same day")
    severity = range(LIGHTEST, HEAVIEST + 1)
    parser.add_argument("--severity", type=int, choices=severity, default=2, help="of a drawn day")
    parser.add_argument(
        "--from", dest="draws", type=Path, metavar="DRAWS", help="what is drawn from"
    )
    parser.add_argument(
        "--desk", choices=sorted(DESKS), default="perfect", help="the scripted desk"
    )
    parser.add_argument("--hand", type=int, default=1, metavar="N", help="another N, other slips")
    parser.add_argument("--json", action="store_true", help="as one line of JSON")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; gives the exit status: 0 fine, 1 something clashes, 2 bad input."""
    gc.enable()  # it rested while all this was loaded
    parser = build_parser()
    given = parser.parse_args(arguments)
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


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    about: str,
    run_it: Callable[[argparse.Namespace], int],
) -> argparse.ArgumentParser:
    parser = commands.add_parser(name, help=about, description=about.capitalize() + ".")
    parser.set_defaults(run=run_it)
    return parser


def _plan_argument(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("plan", type=Path, metavar="PLAN", help="the plan's file")


def _entries(parser: argparse.ArgumentParser) -> None:
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


def _rate(text: str) -> float:
    try:
        rate = float(text)
    except ValueError:
        rate = -1.0
    if not SLOWEST <= rate <= FASTEST:
        raise argparse.ArgumentTypeError(f"'{text}' is no rate from {SLOWEST:g} to {FASTEST:g}")
    return rate


def _complain(*lines: str) -> None:
    for line in lines:
        print(line, file=sys.stderr)


def _instant_ms(option: str, text: str | None, plan: Plan) -> int | None:
    """A time of the command line: RFC 3339, or without an offset in the desk's zone."""
    if text is None:
        return None
    try:
        instant_ms = typed_to_ms(text, plan.zones[0])
    except TimeProblem as problem:
        raise BadArgument(f"{option}: {problem}") from problem
    if not EARLIEST_MS <= instant_ms < LATEST_MS:
        raise BadArgument(f"{option}: '{text}' is outside the years 1900 to 2199")
    return instant_ms


def _desk(plan: Plan, now_ms: int | None) -> Desk:
    """A desk on a clock that stands still."""
    at_ms = time.time_ns() // 1_000_000 if now_ms is None else now_ms
    return Desk(plan, SimClock(at_ms, paused=True), skies_for=skies_for)


def _check(given: argparse.Namespace) -> int:
    plan, warnings = take_plan_with_warnings(given.plan)
    desk = _desk(plan, None)
    print(summary(desk, plan, warnings, Style(plan.zones[0])))
    return CLASHES if desk.clashes else FINE


def _times(given: argparse.Namespace) -> int:
    plan = take_plan(given.plan)
    desk = _desk(plan, _instant_ms("--now", given.now, plan))
    now_ms = desk.clock.now_ms()
    done = run(desk, given.enter, now_ms, anyway=given.anyway)
    if given.json:
        print(times_json(desk, done))
    else:
        print(times_text(desk, done, Style(plan.zones[0]), now_ms))
    return CLASHES if done.clash is not None or desk.schedule.broken else FINE


def _signal(given: argparse.Namespace) -> int:
    plan = take_plan(given.plan)
    desk = _desk(plan, _instant_ms("--now", given.now, plan))
    now_ms = desk.clock.now_ms()
    done = run(desk, given.enter, now_ms)
    lanes = [lane.lane for lane in desk.signal()]
    if given.lane is not None and given.lane not in lanes:
        known = f"it has {', '.join(lanes)}" if lanes else "it has none"
        raise BadArgument(f"The plan has no lane '{given.lane}'; {known}")
    begin_ms = _instant_ms("--from", given.begin, plan)
    end_ms = _instant_ms("--to", given.end, plan)
    if begin_ms is not None and end_ms is not None and begin_ms >= end_ms:
        raise BadArgument("--from is not before --to: nothing lies between them")
    part = Part(given.lane, begin_ms, end_ms)
    if given.picture is not None:
        entered = given.enter[: len(given.enter) if done.clash is None else 0]
        _picture(given.picture, sheet(desk, part, entered, Style(plan.zones[0]), now_ms))
    elif given.json:
        print(signal_json(desk, done, part))
    else:
        print(signal_text(desk, done, part, Style(plan.zones[0]), now_ms))
    return CLASHES if done.clash is not None else FINE


def _fits(given: argparse.Namespace) -> int:
    plan = take_plan(given.plan)
    desk = _desk(plan, _instant_ms("--now", given.now, plan))
    now_ms = desk.clock.now_ms()
    done = run(desk, given.enter, now_ms)
    if given.json:
        print(fits_json(desk, done, now_ms))
    else:
        _tell_board_time(given, desk, now_ms)
        print(fits_text(desk, done, Style(plan.zones[0]), now_ms))
    return CLASHES if programme_clashes(desk, done, now_ms) else FINE


def _tell_board_time(given: argparse.Namespace, desk: Desk, now_ms: int) -> None:
    """A line first for whoever has left out --now while the plan is of another day."""
    line = "" if given.now is not None else board_time_line(desk, Style(desk.plan.zones[0]), now_ms)
    if line:
        print(line)


def _say(given: argparse.Namespace) -> int:
    plan = take_plan(given.plan)
    desk = _desk(plan, _instant_ms("--now", given.now, plan))
    now_ms = desk.clock.now_ms()
    done = run(desk, given.enter, now_ms)
    if given.json:
        print(say_json(desk, done, now_ms))
    else:
        _tell_board_time(given, desk, now_ms)
        print(say_text(desk, done, now_ms))
    return CLASHES if done.clash is not None or desk.schedule.broken else FINE


def _rehearse(given: argparse.Namespace) -> int:
    plan = take_plan(given.plan)
    if given.surprises is not None:
        day = read_surprises(given.surprises, plan)
    else:
        draws = read_draws(given.draws or asset(DRAWS))
        day = drawn(plan, draws, given.draw, given.severity, skies_for)
    score, looks = rehearsed(plan, day, given.desk, given.hand, skies_for)
    if given.json:
        print(score_json(score, day))
    else:
        print(score_text(score, day, plan))
        print(f"Looked at and checked {looks} times")
    return CLASHES if score.troubles else FINE


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


def _board(given: argparse.Namespace) -> int:
    gc.disable()  # it rests again until all is painted
    # Late, and only here: of all commands only this one may load Qt.
    from app.main import QtRefused, run_board  # noqa: PLC0415

    try:
        return run_board(given.plan, given.at, given.rate, new=given.new)
    except QtRefused as refused:
        raise BadArgument(str(refused)) from refused
    finally:
        gc.enable()
