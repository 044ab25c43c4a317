"""What the board is opened on: a session that goes on, or a new one."""

import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from app.plans import take_plan
from app.resources import sample_plan
from app.sessions import Day, Wanted, open_day
from core.errors import PlanProblems
from core.plan.model import Plan
from core.session.keeping import Beat
from core.session.opening import ReadingStore
from core.session.shelf import Shelf
from core.session.sqlite_store import SqliteStore
from core.times.clocks import RealClock, SimClock
from core.times.zones import typed_to_ms
from tests.core.session.days import notes

DAY_MS = 24 * 3_600_000


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path / "sessions")


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    (tmp_path / "plans").mkdir()
    return Path(shutil.copy(sample_plan("first-steps"), tmp_path / "plans"))


def opened(
    shelf: Shelf,
    plan: Path | None = None,
    at: str | None = None,
    rate: float | None = None,
    *,
    new: bool = False,
) -> Day:
    return open_day(Wanted(plan, at, rate, new), shelf, take_plan)


@contextmanager
def running(shelf: Shelf, day: Day, alive_ms: int | None = None) -> Iterator[SqliteStore]:
    """The day with its store running and marked as the one open last."""
    assert isinstance(day.store, SqliteStore)
    shelf.mark(day.store.path)
    day.store.start()
    now_ms = time.time_ns() // 1_000_000 if alive_ms is None else alive_ms
    clock = day.clock
    rate = clock.rate if isinstance(clock, SimClock) else 1.0
    day.store.beat(Beat(now_ms, clock.now_ms(), rate, paused=False))
    try:
        yield day.store
    finally:
        day.store.close()


def left(shelf: Shelf, day: Day, count: int = 2, alive_ms: int | None = None) -> None:
    """The day with so many entries, closed again."""
    with running(shelf, day, alive_ms) as store:
        for entry in notes(1, count):
            store.append(entry)


def test_at_first_it_is_the_sample_as_a_rehearsal(shelf: Shelf) -> None:
    day = opened(shelf)
    assert day.begun
    assert day.path == sample_plan("petrel-arrival")
    assert isinstance(day.clock, SimClock)
    assert isinstance(day.store, SqliteStore)
    assert day.store.about.rehearsal
    assert (day.said, day.found) == ("", None)


def test_a_plan_begins_a_session_on_the_real_clock(shelf: Shelf, plan: Path) -> None:
    day = opened(shelf, plan)
    assert day.begun
    assert isinstance(day.clock, RealClock)


def test_the_session_that_was_open_last_goes_on(shelf: Shelf, plan: Path) -> None:
    left(shelf, opened(shelf, plan))
    day = opened(shelf)
    assert not day.begun
    assert list(day.store.entries) == notes(1, 2)
    assert day.said.startswith("Back after ")
    assert "2 entries, the last at " in day.said
    assert isinstance(day.clock, RealClock)
    assert (day.plan, day.path) == (take_plan(plan), plan)
    assert day.found is None


def test_a_plan_goes_on_with_its_own_session_of_today(shelf: Shelf, plan: Path) -> None:
    left(shelf, opened(shelf, plan))
    left(shelf, opened(shelf, new=True), count=5)
    assert list(opened(shelf, plan).store.entries) == notes(1, 2)


@pytest.mark.parametrize("wanted", [(None, 1.0), ("2031-06-07T11:20:00", None)])
def test_a_rehearsal_of_a_plan_is_always_a_new_session(
    shelf: Shelf, plan: Path, wanted: tuple[str | None, float | None]
) -> None:
    left(shelf, opened(shelf, plan))
    day = opened(shelf, plan, *wanted)
    assert day.begun
    assert isinstance(day.clock, SimClock)
    left(shelf, day, count=4)
    again = opened(shelf)
    assert isinstance(again.clock, SimClock)
    assert len(again.store.entries) == 4


def test_a_rehearsal_opened_again_goes_on_where_it_was(shelf: Shelf, plan: Path) -> None:
    at = "2031-06-07T11:20:00"
    left(shelf, opened(shelf, plan, at, 0.1), count=0)
    day = opened(shelf)
    assert isinstance(day.clock, SimClock)
    assert day.clock.rate == 0.1
    assert 0 <= day.clock.now_ms() - typed_to_ms(at, day.plan.zones[0]) < 5_000


def test_new_begins_a_new_one(shelf: Shelf, plan: Path) -> None:
    left(shelf, opened(shelf, plan))
    assert opened(shelf, plan, new=True).begun
    assert opened(shelf, new=True).path == sample_plan("petrel-arrival")


def test_a_session_of_another_day_stays_what_it_was(shelf: Shelf, plan: Path) -> None:
    now_ms = time.time_ns() // 1_000_000
    first = opened(shelf, plan)
    assert isinstance(first.store, SqliteStore)
    first.store._machine_ms = lambda: now_ms - DAY_MS
    left(shelf, first, alive_ms=now_ms - DAY_MS)
    day = opened(shelf, plan)
    assert day.begun
    assert day.store.path != first.store.path
    assert len(opened(shelf).store.entries) == 2  # without a plan it goes on at any age


def test_a_session_opens_without_its_plans_file(shelf: Shelf, plan: Path) -> None:
    day = opened(shelf, plan)
    left(shelf, day)
    shutil.rmtree(plan.parent)
    again = opened(shelf)
    assert again.plan == day.plan
    assert again.found is None


def test_a_plan_changed_meanwhile_is_found(shelf: Shelf, plan: Path) -> None:
    left(shelf, opened(shelf, plan))
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text.replace("T09:10:00", "T09:20:00"), encoding="utf-8")
    day = opened(shelf, plan)
    assert not day.begun
    assert isinstance(day.found, Plan)
    assert day.found != day.plan


def test_a_plan_broken_meanwhile_does_not_stop_the_session(shelf: Shelf, plan: Path) -> None:
    left(shelf, opened(shelf, plan))
    plan.write_text("limbwatch = 1\n", encoding="utf-8")
    day = opened(shelf, plan)
    assert not day.begun
    assert isinstance(day.found, PlanProblems)
    with pytest.raises(PlanProblems):
        opened(shelf, plan, new=True)


def test_a_session_that_another_window_has_is_read_along(shelf: Shelf, plan: Path) -> None:
    with running(shelf, opened(shelf, plan)) as store:
        store.append(notes(1, 1)[0])
        while store.trouble:
            time.sleep(0)
        for day in (opened(shelf), opened(shelf, plan)):
            assert isinstance(day.store, ReadingStore)
            assert list(day.store.entries) == notes(1, 1)
            assert day.said.startswith("Another window has this session open")


def test_a_damaged_session_is_told_and_goes_on_with_what_is_left(shelf: Shelf, plan: Path) -> None:
    day = opened(shelf, plan)
    left(shelf, day, count=40)
    path = day.store.path
    data = path.read_bytes()
    path.write_bytes(data.replace(b"word 7 word 7", b"word 7 worm 7"))
    again = opened(shelf)
    assert len(again.store.entries) == 39
    assert again.said.startswith("The session's file is damaged: 39 entries were brought over")


def test_a_session_beyond_reading_leaves_room_for_a_new_one(shelf: Shelf, plan: Path) -> None:
    day = opened(shelf, plan)
    left(shelf, day)
    day.store.path.write_bytes(b"nothing of use" * 1_000)
    again = opened(shelf)
    assert again.begun
    assert again.said.startswith("The last session cannot be opened")
    assert day.store.path.exists()
    assert not opened(shelf, plan).begun  # with its plan what is left of it is taken
