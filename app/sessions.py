"""What the board is opened on: a session that goes on, or a new one of a plan."""

import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from app.resources import sample_plan
from app.skies import hurried_for
from core.entries.model import TakePlan as TakeOver
from core.errors import PlanProblems, SessionProblem
from core.plan.model import Plan
from core.plan.reader import is_as_kept, read_plan
from core.session.ground import make_ready
from core.session.keeping import About
from core.session.opening import Opened, ReadingStore, reopen
from core.session.returning import back_words, is_of_today, rehearsal_clock
from core.session.shelf import Shelf
from core.session.sqlite_store import SqliteStore
from core.times.clocks import RealClock, SimClock
from core.times.writing import Hours, Style
from core.times.zones import typed_to_ms

SAMPLE = "petrel-arrival"

TakePlan = Callable[[Path], Plan]
"""Reads a plan and tries its courses. Raises PlanProblems."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What was asked for. `at` (a time as the commands take it) or a rate is a rehearsal."""

    plan: Path | None = None
    at: str | None = None
    rate: float | None = None
    new: bool = False
    hours: Hours = Hours.TWELVE

    @property
    def goes_on(self) -> bool:
        """Whether a session that is there already will do."""
        return not self.new and self.at is None and self.rate is None


@dataclass(frozen=True, slots=True)
class Day:
    """All that a board is opened on."""

    plan: Plan
    path: Path
    clock: RealClock | SimClock
    store: SqliteStore | ReadingStore
    said: str = ""
    """What there is to be told about it."""
    found: Plan | PlanProblems | None = None
    """What the plan's file says now, where the session has it otherwise."""
    begun: bool = False
    """Whether the session is a new one."""


def open_day(wanted: Wanted, shelf: Shelf, take_plan: TakePlan) -> Day:
    """The session that goes on, else a new one.

    A plan's session goes on while it was alive within twelve hours, without a plan the one that was
    open last does. Raises PlanProblems and TimeProblem for a new one that cannot be begun.
    """
    said = ""
    if wanted.goes_on:
        path = shelf.last() if wanted.plan is None else shelf.newest_of(wanted.plan)
        day = None
        if path is not None:
            day, said = _gone_on(path, wanted, take_plan)
        if day is not None:
            return day
    return _begun(wanted, shelf, take_plan, said)


def _gone_on(path: Path, wanted: Wanted, take_plan: TakePlan) -> tuple[Day | None, str]:
    """The session in a file, or None and why it does not go on."""
    try:
        opened = reopen(path, _ready, lambda: _as_it_is(wanted.plan))
    except SessionProblem as problem:
        return None, f"The last session cannot be opened ({problem}): this is a new one"
    clock = rehearsal_clock(opened.kept) if opened.about.rehearsal else RealClock()
    other_day = wanted.plan is not None and not is_of_today(opened.kept, _machine_ms())
    if clock is None or (other_day and not isinstance(opened.store, ReadingStore)):
        if isinstance(opened.store, SqliteStore):
            opened.store.let_go()
        return None, ""
    about = opened.about
    file = Path(about.path)
    said = _said(opened, Style(about.plan.zones[0], wanted.hours))
    return Day(about.plan, file, clock, opened.store, said, _found(opened, take_plan)), ""


def _begun(wanted: Wanted, shelf: Shelf, take_plan: TakePlan, said: str) -> Day:
    path = sample_plan(SAMPLE) if wanted.plan is None else wanted.plan
    plan = take_plan(path)
    at_ms = None if wanted.at is None else typed_to_ms(wanted.at, plan.zones[0])
    clock: RealClock | SimClock = RealClock()
    if wanted.plan is None or at_ms is not None or wanted.rate is not None:
        start_ms = _machine_ms() if at_ms is None else at_ms
        clock = SimClock(start_ms, rate=1.0 if wanted.rate is None else wanted.rate)
    file = shelf.new(path, _machine_ms(), rehearsal=clock.simulated)
    store = SqliteStore(file, About(plan, str(path.absolute()), clock.simulated))
    return Day(plan, path, clock, store, said, begun=True)


def _said(opened: Opened, style: Style) -> str:
    if isinstance(opened.store, ReadingStore):
        return "Another window has this session open; what is entered there is shown here"
    back = back_words(opened.kept, _machine_ms(), style)
    return f"{opened.said}. {back}" if opened.said else back


def _as_it_is(path: Path | None) -> About | None:
    """What a spoilt session is of, where its plan is given and can still be read."""
    if path is None:
        return None
    try:
        return About(read_plan(path), str(path.absolute()))
    except PlanProblems:
        return None


def _found(opened: Opened, take_plan: TakePlan) -> Plan | PlanProblems | None:
    """The plan's file as it is now, where it is there and not what the session has."""
    path, texts = Path(opened.about.path), opened.about.plan.texts
    taken_over = any(isinstance(entry.action, TakeOver) for entry in opened.kept.entries)
    as_kept = not taken_over and texts is not None and is_as_kept(path, texts)
    if as_kept or not path.is_file():
        return None
    try:
        return take_plan(path)
    except PlanProblems as problems:
        return problems


def _ready(plan: Plan) -> Plan:
    return make_ready(plan, hurried_for).plan


def _machine_ms() -> int:
    return time.time_ns() // 1_000_000
