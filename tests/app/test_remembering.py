"""A plan opened before: its contacts are there without the geometry, and never those of another."""

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import app.remembering
from app.remembering import MOST_FILES, Memory, key_of
from app.resources import sample_plan
from app.skies import geometry
from core.board.model import View
from core.plan.model import Plan
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.session.model import Answer
from core.session.store import MemoryStore
from core.times.clocks import SimClock

NOW_MS = 1_936_553_943_000


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(sample_plan("petrel-arrival"))


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[Plan]:
    """The plans for which the geometry was made."""
    plans: list[Plan] = []

    def make(of: Plan) -> object:
        plans.append(of)
        return geometry(of)

    monkeypatch.setattr(app.remembering, "geometry", make)
    return plans


def opened(plan: Plan, memory: Memory) -> tuple[Desk, View]:
    desk = Desk(plan, SimClock(NOW_MS, paused=True), skies_for=memory.skies_for)
    return desk, desk.view(NOW_MS)


def shown(view: View) -> object:
    return list(view.cards), view.contact, view.strip


def test_the_second_start_shows_the_same_without_the_geometry(
    plan: Plan, tmp_path: Path, made: list[Plan]
) -> None:
    first = Memory(tmp_path)
    assert not first.knows(plan)
    wanted = shown(opened(plan, first)[1])
    first.keep()
    assert len(made) == 1
    second = Memory(tmp_path)
    assert second.knows(plan)
    assert shown(opened(plan, second)[1]) == wanted
    assert len(made) == 1


def test_what_is_asked_anew_is_computed(plan: Plan, tmp_path: Path, made: list[Plan]) -> None:
    first = Memory(tmp_path)
    opened(plan, first)
    first.keep()
    second, fresh = Memory(tmp_path), Desk(plan, SimClock(NOW_MS, paused=True), skies_for=geometry)
    desk, _ = opened(plan, second)
    for each in (desk, fresh):
        each.enter("ignition +45s", "", NOW_MS)
    assert shown(desk.view(NOW_MS)) == shown(fresh.view(NOW_MS))
    assert len(made) == 2


def test_once_all_is_painted_the_geometry_is_there(
    plan: Plan, tmp_path: Path, made: list[Plan]
) -> None:
    first = Memory(tmp_path)
    opened(plan, first)
    first.keep()
    second = Memory(tmp_path)
    opened(plan, second)
    second.keep()
    assert len(made) == 2
    written = next(tmp_path.iterdir())
    assert written.read_bytes()


@pytest.mark.parametrize(
    "change",
    [
        lambda plan: replace(
            plan, grounds=(replace(plan.grounds[0], mask_deg=9.0), *plan.grounds[1:])
        ),
        lambda plan: replace(plan, events=plan.events[:-1]),
        lambda plan: replace(plan, light_time=not plan.light_time),
    ],
)
def test_another_plan_is_not_taken_for_it(plan: Plan, change: Callable[[Plan], Plan]) -> None:
    assert key_of(change(plan)) != key_of(plan)


def test_nor_is_the_same_plan_for_other_code(
    plan: Plan, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    code = tmp_path / "core" / "sky.py"
    code.parent.mkdir()
    code.write_text("LIGHT = 1\n", encoding="utf-8")
    monkeypatch.setattr(app.remembering, "code_folder", lambda _name: code.parent)
    before = key_of(plan)
    code.write_text("LIGHT = 22\n", encoding="utf-8")
    assert key_of(plan) != before


def test_a_file_that_is_broken_is_worked_out_again(
    plan: Plan, tmp_path: Path, made: list[Plan]
) -> None:
    first = Memory(tmp_path)
    wanted = shown(opened(plan, first)[1])
    first.keep()
    (written,) = tmp_path.iterdir()
    whole = written.read_text(encoding="utf-8")
    written.write_text(whole[:100], encoding="utf-8")
    second = Memory(tmp_path)
    assert shown(opened(plan, second)[1]) == wanted
    second.keep()
    assert written.read_text(encoding="utf-8") == f"{whole[:100]}\n{whole}"
    assert len(made) == 2
    assert shown(opened(plan, Memory(tmp_path))[1]) == wanted
    assert len(made) == 2


def test_where_nothing_can_be_written_the_board_runs(plan: Plan, tmp_path: Path) -> None:
    folder = tmp_path / "a file"
    folder.write_text("in the way", encoding="utf-8")
    memory = Memory(folder)
    assert not memory.knows(plan)
    assert opened(plan, memory)[1].cards
    memory.keep()


def test_a_plan_of_tables_needs_no_memory(tmp_path: Path, made: list[Plan]) -> None:
    memory = Memory(tmp_path)
    assert memory.skies_for(read_plan(sample_plan("first-steps"))) is None
    memory.keep()
    assert made == []
    assert not list(tmp_path.iterdir())


def test_only_the_plans_opened_last_are_remembered(plan: Plan, tmp_path: Path) -> None:
    for age in range(MOST_FILES + 3):
        old = tmp_path / f"{age}.json"
        old.write_text("{}", encoding="utf-8")
        os.utime(old, ns=(10**18 - age, 10**18 - age))
    memory = Memory(tmp_path)
    opened(plan, memory)
    memory.keep()
    left = {file.stem for file in tmp_path.iterdir()}
    assert len(left) == MOST_FILES
    assert key_of(plan) in left
    assert {"0", "1"} <= left
    assert str(MOST_FILES + 2) not in left


def test_a_day_of_entries_is_folded_again_without_the_geometry(
    plan: Plan, tmp_path: Path, made: list[Plan]
) -> None:
    first = Memory(tmp_path)
    desk, _ = opened(plan, first)
    first.keep(0)
    store = desk._session.store
    for line in ("ignition +45s", "ign about 4:59p", "loss now", "ign -20s per flight"):
        desk.preview(f"{line}0", "", NOW_MS)  # typed on the way, and not taken
        assert desk.enter(line, "", NOW_MS).answer is Answer.DONE
        wanted = shown(desk.view(NOW_MS))
        first.follow(len(store.entries))
    assert len(made) == 1
    clock, kept = SimClock(NOW_MS, paused=True), MemoryStore()
    for entry in store.entries:
        kept.append(entry)
    again = Desk(plan, clock, kept, skies_for=Memory(tmp_path).skies_for)
    assert shown(again.view(NOW_MS)) == wanted
    assert len(made) == 1


def test_while_nothing_is_entered_nothing_is_written(plan: Plan, tmp_path: Path) -> None:
    memory = Memory(tmp_path)
    desk, _ = opened(plan, memory)
    memory.keep(0)
    file = next(tmp_path.iterdir())
    before = file.read_bytes()
    desk.preview("ignition +45s", "", NOW_MS)
    memory.follow(0)
    assert file.read_bytes() == before
    memory.follow(1)
    assert file.read_bytes().startswith(before)
    assert len(file.read_bytes()) > len(before)


def test_a_file_that_has_grown_too_large_is_begun_anew(
    plan: Plan, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.remembering, "LARGEST_FILE_B", 10)
    memory = Memory(tmp_path)
    desk, _ = opened(plan, memory)
    memory.keep(0)
    file = next(tmp_path.iterdir())
    before = file.read_bytes()
    desk.enter("ignition +45s", "", NOW_MS)
    memory.follow(1)
    assert not file.read_bytes().startswith(before)
    assert file.read_bytes().count(b"\n") == 1
