"""`limbwatch rehearse`: a rehearsal, and its score."""

import argparse
from pathlib import Path

from app.command_line.arguments import CLASHES, FINE, BadArgument, plan_argument
from app.commands.rehearsing import drawn, rehearsed, score_json, score_text
from app.plans import take_plan
from app.printing.saving import CannotWrite, save
from app.resources import asset
from app.score.page import score_page
from app.skies import skies_for
from core.rehearsal.drawing import HEAVIEST, LIGHTEST
from core.rehearsal.draws import read_draws
from core.rehearsal.habits import DESKS
from core.rehearsal.reading import read_surprises

DRAWS = "rehearsal/draws.toml"


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
    parser.add_argument(
        "--desk", choices=sorted(DESKS), default="perfect", help="the scripted desk"
    )
    parser.add_argument("--hand", type=int, default=1, metavar="N", help="another N, other slips")
    parser.add_argument("--page", type=Path, metavar="FILE", help="the score as a page, too")
    parser.add_argument("--json", action="store_true", help="as one line of JSON")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    plan = take_plan(given.plan)
    if given.surprises is not None:
        day = read_surprises(given.surprises, plan)
    else:
        draws = read_draws(given.draws or asset(DRAWS))
        day = drawn(plan, draws, given.draw, given.severity, skies_for)
    score, looks = rehearsed(plan, day, given.desk, given.hand, skies_for)
    if given.page is not None:
        _write(given.page, score_page(score, day, plan))
    if given.json:
        print(score_json(score, day))
    else:
        print(score_text(score, day, plan))
        print(f"Looked at and checked {looks} times")
    return CLASHES if score.troubles else FINE


def _write(path: Path, page: str) -> None:
    try:
        save(path, page.encode())
    except CannotWrite as problem:
        raise BadArgument(f"--page: {problem}") from problem
