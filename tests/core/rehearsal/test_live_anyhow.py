"""Whatever a trainer does in whatever order, the rehearsal stays one."""

import random
from collections import Counter
from itertools import pairwise

import pytest

from core.errors import EntryProblem, EntryRefused
from core.rehearsal.adding import surprise_of
from core.rehearsal.choosing import completed, next_words
from core.rehearsal.live import LiveRun
from core.rehearsal.quiet import quiet_line, reported
from core.rehearsal.showing import trainer_view
from tests.core.rehearsal.days import drawn, small
from tests.core.rehearsal.live_days import Room, room

_BREATH_MS = 100
"""One goes back to a millisecond before a report, which may be one after another came."""


def some_line(dice: random.Random) -> str:
    """A surprise chosen word for word at random."""
    line = f"{dice.choice(['report', 'report', 'signal', 'outcome', 'off', 'closed', 'words'])} "
    for _ in range(4):
        found = next_words(line, small())
        if found.asks.startswith("Enter"):
            break
        words = [word for word, _ in found.options] or [f"{dice.randint(1, 900)}s"]
        line = completed(line, dice.choice(words))
    return f"{line}: Something is said."


def act(here: Room, dice: random.Random, number: int) -> None:
    run = here.run
    match dice.randrange(7):
        case 0:
            run.spring(dice.choice([each.id for each in run.day.surprises] or [""]))
        case 1:
            run.add(surprise_of(some_line(dice), small(), run.now_ms, number))
        case 2:
            run.back_to(dice.choice(run.marks))
        case 3:
            run.mark(f"mark {number}")
        case 4:
            run.on_to_next()
        case 5:
            line = dice.choice(["ignition +1m", "go now", "break 3 now", "loss -2m", "burned"])
            here.desk.enter(line, "", here.clock.now_ms())
        case _:
            here.clock.step(dice.randrange(1, 600) * 1_000)


def holds(here: Room) -> None:
    """What is true of every rehearsal at every moment."""
    run: LiveRun = here.run
    heard = Counter(each.report.id for each in run.record.heard if not each.report.surprise)
    of_truth = Counter(each.id for each in run.truth.reports if not each.surprise)
    assert heard <= of_truth
    times = [each.at_ms for each in run.record.heard]
    put_back = any(each.report.step_ms < 0 for each in run.record.heard)
    assert put_back or all(then - first > -_BREATH_MS for first, then in pairwise(times))
    view = trainer_view(run, run.score())
    assert len({row.key for row in view.rows}) == len(view.rows)
    past = [row.at_ms or 0 for row in view.rows[: view.next_index]]
    assert put_back or all(at_ms < run.now_ms + _BREATH_MS for at_ms in past)
    assert quiet_line(reported(run, run.score())).text
    mine, anew = here.desk.view(run.now_ms), here.desk.anew().view(run.now_ms)
    assert list(mine.cards) == list(anew.cards)


@pytest.mark.parametrize("seed", range(3))
def test_whatever_the_trainer_does_it_stays_one_rehearsal(seed: int) -> None:
    dice = random.Random(seed)
    here = room(drawn(seed, 3))
    for number in range(40):
        try:
            act(here, dice, number)
        except (EntryRefused, EntryProblem):
            continue
        here.look()
        holds(here)
    assert here.run.record.heard or here.run.attempts
