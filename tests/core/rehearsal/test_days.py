"""Drawn days run through the whole engine, with every look checked.

Thousands of them are run by `tests/bench/bench_days.py`.
"""

import pytest

from core.plan.model import Plan
from core.rehearsal.drawing import drawn_day
from core.rehearsal.driver import STRIDE_MS, Run
from core.rehearsal.frame import Frame
from core.rehearsal.habits import DESKS, Hand
from core.rehearsal.score import Score, score_of
from core.rehearsal.watching import EVERY, as_from_scratch
from tests.core.rehearsal.aloud_check import heard_aloud
from tests.core.rehearsal.days import draws, first_steps, small, small_frame

PERFECT, OTHERS = range(3), range(100, 103)
TENS = range(0, 200, 10)
FIRST_HOURS = range(300, 340, 10)
SELDOM_MS = 600_000
"""Without anything happening, quiet hours are looked at no more often than this."""


def run(plan: Plan, frame: Frame, number: int, desk: str, stride_ms: int = STRIDE_MS) -> Score:
    """A day whose severity goes with its number."""
    day = drawn_day(plan, draws(), frame, number, 1 + number % 5)
    checks = (*EVERY, heard_aloud)
    rehearsal = Run(plan, day, Hand(DESKS[desk], number), checks=checks, stride_ms=stride_ms)
    record = rehearsal.go()
    rehearsal.note(as_from_scratch(rehearsal.look()))
    return score_of(record, plan)


@pytest.mark.parametrize("number", PERFECT)
def test_no_check_fails_and_a_perfect_desk_loses_only_what_nobody_could_save(number: int) -> None:
    score = run(small(), small_frame(), number, "perfect")
    assert score.troubles == ()
    assert score.wrong_ms == 0
    assert all(lost.unavoidable and lost.proof for lost in score.lost)
    assert score.still_owed == ()


@pytest.mark.parametrize("number", OTHERS)
def test_no_check_fails_whatever_other_desks_do(number: int) -> None:
    desk = ("slow", "careless")[number % 2]
    assert run(small(), small_frame(), number, desk).troubles == ()


@pytest.mark.parametrize("first", TENS)
def test_no_check_fails_on_a_plan_without_a_programme(first: int) -> None:
    plan, frame = first_steps()
    for number in range(first, first + 10):
        desk = list(DESKS)[number % len(DESKS)]
        assert run(plan, frame, number, desk, SELDOM_MS).troubles == (), number


@pytest.mark.parametrize("first", FIRST_HOURS)
def test_no_check_fails_in_the_hour_of_the_loss_and_the_burn(first: int) -> None:
    whole = small_frame()
    end_ms = whole.begin_ms + 3_600_000
    times = {name: at for name, at in whole.times_ms.items() if at < end_ms}
    for number in range(first, first + 10):
        desk = list(DESKS)[number % len(DESKS)]
        frame = Frame(whole.begin_ms, end_ms, times)
        assert run(small(), frame, number, desk, SELDOM_MS).troubles == (), number
