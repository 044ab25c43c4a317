"""A small flight and its programme, and drawn days on it, for the tests of rehearsals."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from core.plan.model import Plan
from core.plan.reader import read_plan, read_plan_text
from core.rehearsal.drawing import drawn_day
from core.rehearsal.draws import Draws, read_draws
from core.rehearsal.driver import Check, Run
from core.rehearsal.frame import Frame, frame_of
from core.rehearsal.habits import DESKS, Hand
from core.rehearsal.model import Surprises
from core.rehearsal.record import Record
from tests.core.board.boards import FLIGHT, at_ms
from tests.core.board.programmes import PROGRAMME

ROOT = Path(__file__).parents[3]
SMALL = FLIGHT + PROGRAMME


@cache
def small() -> Plan:
    """The small flight, with its programme."""
    return read_plan_text(SMALL, "small", Path())


@cache
def draws() -> Draws:
    """What may be drawn, as it ships."""
    return read_draws(ROOT / "assets" / "rehearsal" / "draws.toml")


@cache
def small_frame() -> Frame:
    """From twenty to five till seven."""
    return frame_of(small())


@cache
def first_steps() -> tuple[Plan, Frame]:
    """A plan without a programme: from before liftoff till after the solar panels open."""
    plan = read_plan(ROOT / "sample_plans" / "first-steps.toml")
    whole = frame_of(plan)
    liftoff_ms = whole.times_ms["liftoff"]
    begin_ms, end_ms = liftoff_ms - 1_500_000, liftoff_ms + 4_500_000
    times = {name: at for name, at in whole.times_ms.items() if begin_ms < at < end_ms}
    return plan, Frame(begin_ms, end_ms, times)


def drawn(number: int, severity: int = 3) -> Surprises:
    """A drawn day on the small flight."""
    return drawn_day(small(), draws(), small_frame(), number, severity)


def day(*surprises: object, begin: str = "16:30", end: str = "18:30") -> Surprises:
    """A day of one's own."""
    return replace(Surprises("a day", at_ms(begin), at_ms(end)), surprises=surprises)  # type: ignore[arg-type]


def rehearsed(
    surprises: Surprises,
    desk: str = "perfect",
    number: int = 1,
    checks: tuple[Check, ...] = (),
    plan: Plan | None = None,
) -> tuple[Run, Record]:
    """That day rehearsed with a scripted desk."""
    run = Run(plan or small(), surprises, Hand(DESKS[desk], number), checks=checks)
    return run, run.go()
