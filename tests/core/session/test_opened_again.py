"""A desk on a session that was there before: the same board, and one that only reads along."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from app.resources import sample_plan
from core.board.model import View
from core.plan.model import Texts
from core.plan.reader import read_kept_plan, read_plan
from core.session.desk import Desk
from core.session.ground import make_ready
from core.session.keeping import About
from core.session.model import Answer
from core.session.opening import ReadingStore, reopen
from core.session.sqlite_store import SqliteStore
from core.session.store import MemoryStore
from core.times.zones import typed_to_ms
from tests.core.board.boards import Seat, at_ms, plan_of
from tests.core.session.days import as_read
from tests.fakes import HandMachine

LINES = (
    "ignition +45s per flight",
    "loss now-5s",
    "note all quiet",
    'new "Crew sleeps" 6:10p',
    "liftoff happened 13:28:31",
    "voice closed",
)


def seat_on(tmp_path: Path, store: MemoryStore, clock: str = "16:41:12") -> Seat:
    sim = HandMachine.at(0).sim_clock(at_ms(clock))
    return Seat(Desk(plan_of(tmp_path), sim, store), sim)


def again(tmp_path: Path, store: MemoryStore) -> Seat:
    """Another desk on the same entries."""
    other = MemoryStore()
    for entry in store.entries:
        other.append(entry)
    return seat_on(tmp_path, other)


def shown(view: View) -> View:
    """The view with its cards written out, to be compared."""
    return replace(view, cards=tuple(view.cards))


@pytest.mark.parametrize("count", range(len(LINES) + 1))
def test_a_desk_opened_again_shows_the_same_board(tmp_path: Path, count: int) -> None:
    store = MemoryStore()
    first = seat_on(tmp_path, store)
    for line in LINES[:count]:
        assert first.enter(line).answer is Answer.DONE
    assert shown(again(tmp_path, store).view) == shown(first.view)


def test_a_plan_taken_over_is_in_force_again_without_any_file(tmp_path: Path) -> None:
    plan = read_plan(sample_plan("first-steps"))
    assert plan.texts is not None
    moved = read_kept_plan(
        Texts(plan.texts.plan.replace("T09:10:00", "T09:20:00")), tmp_path / "plan.toml"
    )
    now_ms = typed_to_ms("2031-06-07T09:00:00", plan.zones[0])
    sim = HandMachine.at(0).sim_clock(now_ms)
    path = tmp_path / "day.session"
    with kept(path, About(plan, "plan.toml")) as store:
        desk = Desk(plan, sim, store)
        desk.plan_on_disk(moved, now_ms)
        assert desk.enter("plan", "", now_ms).answer is Answer.DONE
        assert desk.enter("fuelling +5m", "", now_ms).answer is Answer.DONE
        before = desk.view(now_ms)
    opened = reopen(path, lambda read: make_ready(read).plan)
    assert opened.kept.about is not None
    other = MemoryStore()
    for entry in opened.store.entries:
        other.append(entry)
    after = Desk(opened.kept.about.plan, sim, other).view(now_ms)
    assert quiet(after) == quiet(before)
    assert isinstance(opened.store, SqliteStore)
    opened.store.let_go()


def quiet(view: View) -> View:
    """The board alone, whatever is said of the disk and of files."""
    return replace(shown(view), saved="", unsaved=0, notices=())


@contextmanager
def kept(path: Path, about: About) -> Iterator[SqliteStore]:
    store = SqliteStore(path, about)
    store.start()
    try:
        yield store
    finally:
        store.close()


def test_what_was_taken_back_stays_so_and_is_told(tmp_path: Path) -> None:
    store = MemoryStore()
    first = seat_on(tmp_path, store)
    first.enter("ignition +45s per flight")
    first.desk.undo(at_ms("16:41:12"))
    second = again(tmp_path, store)
    assert shown(second.view) == shown(first.view)
    change = second.view.last_change
    assert change is not None
    assert change.headline.startswith("Taken back: ")


def test_numbers_go_on_after_an_entry_that_could_not_be_read(tmp_path: Path) -> None:
    store = MemoryStore()
    first = seat_on(tmp_path, store)
    for line in LINES[:4]:
        first.enter(line)
    left = MemoryStore()
    for entry in store.entries:
        if entry.number != 2:
            left.append(entry)
    second = seat_on(tmp_path, left)
    assert second.enter("note on we go").number == 5


@pytest.mark.parametrize("lost", range(len(LINES)))
def test_an_entry_that_is_lost_does_not_stop_the_board(tmp_path: Path, lost: int) -> None:
    store = MemoryStore()
    first = seat_on(tmp_path, store)
    for line in (*LINES, "crew-sleeps 6:20p", "crew-sleeps give 1m", "burned per flight"):
        first.enter(line)
    left = MemoryStore()
    for entry in store.entries:
        if entry.number != lost + 1:
            left.append(entry)
    assert len(left.entries) > 5
    assert len(seat_on(tmp_path, left).view.cards) > 0


def test_a_line_about_the_opening_stands_for_a_while(tmp_path: Path) -> None:
    desk = seat_on(tmp_path, MemoryStore()).desk
    now_ms = at_ms("16:41:12")
    desk.tell("Back after 3 min", now_ms)
    assert [said.text for said in desk.view(now_ms).notices] == ["Back after 3 min"]
    assert desk.view(now_ms + 301_000).notices == ()


def test_why_nothing_is_saved_stands_in_a_line_and_the_state_at_the_top(tmp_path: Path) -> None:
    store = MemoryStore()
    store.trouble = "not saved: the disk is full"
    view = seat_on(tmp_path, store).view
    assert view.saved == "not saved"
    assert [said.text for said in view.notices] == [
        "Not saved: the disk is full. The board goes on, and writes all as soon as it can"
    ]


def test_a_desk_that_only_reads_takes_nothing_and_follows(tmp_path: Path) -> None:
    store = MemoryStore()
    first = seat_on(tmp_path, store)
    reading = ReadingStore(tmp_path / "none", (), as_read)
    sim = HandMachine.at(0).sim_clock(at_ms("16:41:12"))
    second = Desk(plan_of(tmp_path), sim, reading)
    now_ms = sim.now_ms()
    for taken in (
        second.enter("ignition +45s", "", now_ms),
        second.take_back(1, now_ms),
    ):
        assert taken.answer is Answer.REFUSED
        assert taken.words == "This window only reads"
    second.clock_stepped(5_000, False, now_ms)
    assert second.entries() == ()
    first.enter("ignition +45s per flight")
    reading._entries.extend(store.entries)
    second.caught_up(now_ms)
    followed = second.view(now_ms)
    assert followed.saved == "only reads"
    assert quiet(followed) == quiet(first.view)
    assert second.confirm_due(at_ms("17:40:00")).answer is Answer.REFUSED
