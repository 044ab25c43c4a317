"""`limbwatch rehearse`: a rehearsal, and its score."""

import argparse
from pathlib import Path

from app.command_line.arguments import (
    CLASHES,
    FINE,
    RATE_HELP,
    BadArgument,
    plan_argument,
    rate,
)
from app.command_line.windows import loading_windows
from app.commands.rehearsing import drawn, rehearsed, score_json, score_text
from app.plans import take_plan
from app.printing.saving import CannotWrite, save
from app.resources import asset
from app.score.page import score_page
from app.skies import skies_for
from core.plan.model import Plan
from core.rehearsal.drawing import HEAVIEST, LIGHTEST
from core.rehearsal.draws import read_draws
from core.rehearsal.habits import DESKS
from core.rehearsal.model import Surprises
from core.rehearsal.reading import read_surprises

DRAWS = "rehearsal/draws.toml"
_USUAL = "perfect"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    plan_argument(parser)
    day = parser.add_mutually_exclusive_group(required=True)
    day.add_argument("surprises", nargs="?", type=Path, metavar="SURPRISES", help="the file")
    day.add_argument("--draw", type=int, metavar="N", help="draw a day; the same N, the same day")
    severity = range(LIGHTEST, HEAVIEST + 1)
    parser.add_argument("--severity", type=int, choices=severity, default=2, help="of a drawn day")
    parser.add_argument(
        "--from", dest="draws", type=Path, metavar="DRAWS", help="what is drawn from"
    )
    parser.add_argument("--rate", type=rate, metavar="N", help=f"in the windows: {RATE_HELP}")
    scripted = "without a screen, by this scripted desk"
    parser.add_argument("--desk", choices=sorted(DESKS), help=scripted)
    parser.add_argument("--hand", type=int, default=1, metavar="N", help="another N, other slips")
    parser.add_argument("--page", type=Path, metavar="FILE", help="where the score page is to be")
    parser.add_argument(
        "--json", action="store_true", help="without a screen, the score as one line of JSON"
    )


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    plan = take_plan(given.plan)
    if given.surprises is not None:
        day = read_surprises(given.surprises, plan)
    else:
        draws = read_draws(given.draws or asset(DRAWS))
        day = drawn(plan, draws, given.draw, given.severity, skies_for)
    if given.desk is None and not given.json:
        return _in_the_windows(given, plan, day)
    score, looks = rehearsed(plan, day, given.desk or _USUAL, given.hand, skies_for)
    if given.page is not None:
        _write(given.page, score_page(score, day, plan))
    if given.json:
        print(score_json(score, day))
    else:
        print(score_text(score, day, plan))
        print(f"Looked at and checked {looks} times")
    return CLASHES if score.troubles else FINE


def _in_the_windows(given: argparse.Namespace, plan: Plan, day: Surprises) -> int:
    with loading_windows():
        # Late, and only here: of all commands only those with windows may load Qt.
        from app.main import QtRefused  # noqa: PLC0415
        from app.rehearsal.opening import Wanted, rehearse  # noqa: PLC0415

        wanted = Wanted(given.plan, given.surprises, given.rate or 1.0, given.page)
        try:
            status, told = rehearse(plan, day, wanted)
        except QtRefused as refused:
            raise BadArgument(str(refused)) from refused
    print(told)
    return status


def _write(path: Path, page: str) -> None:
    try:
        save(path, page.encode())
    except CannotWrite as problem:
        raise BadArgument(f"--page: {problem}") from problem
