from pathlib import Path

from pytestqt.qtbot import QtBot

from app.watching import PlanWatcher
from core.errors import Place, PlanProblems, Problem
from core.plan.model import Course, CourseKind, Plan


def _read(path: Path) -> Plan:
    text = path.read_text(encoding="utf-8")
    if "wrong" in text:
        raise PlanProblems((Problem(Place(str(path), 1, 1), "it is wrong"),))
    return Plan(title=text, zones=("America/Halifax",), folder=path.parent)


def _written(folder: Path) -> Path:
    path = folder / "day.toml"
    path.write_text("first", encoding="utf-8")
    return path


def test_a_plan_saved_in_place_is_read_and_handed_over(qtbot: QtBot, tmp_path: Path) -> None:
    path = _written(tmp_path)
    watcher = PlanWatcher(path, _read(path), _read)
    with qtbot.waitSignal(watcher.changed, timeout=5000) as heard:
        path.write_text("the second", encoding="utf-8")
    assert heard.args[0].title == "the second"
    watcher.stop()


def test_a_plan_replaced_by_renaming_is_read_each_time(qtbot: QtBot, tmp_path: Path) -> None:
    path = _written(tmp_path)
    watcher = PlanWatcher(path, _read(path), _read)
    for words in ("a second one", "and a third one"):
        beside = tmp_path / "day.toml.new"
        beside.write_text(words, encoding="utf-8")
        with qtbot.waitSignal(watcher.changed, timeout=5000) as heard:
            beside.rename(path)
        assert heard.args[0].title == words
    watcher.stop()


def test_a_plan_that_cannot_be_read_hands_over_what_is_wrong(qtbot: QtBot, tmp_path: Path) -> None:
    path = _written(tmp_path)
    watcher = PlanWatcher(path, _read(path), _read)
    with qtbot.waitSignal(watcher.changed, timeout=5000) as heard:
        path.write_text("wrong", encoding="utf-8")
    assert heard.args[0].problems[0].what == "it is wrong"
    watcher.stop()


def test_another_file_in_the_folder_changes_nothing(qtbot: QtBot, tmp_path: Path) -> None:
    path = _written(tmp_path)
    watcher = PlanWatcher(path, _read(path), _read)
    with qtbot.assertNotEmitted(watcher.changed, wait=500):
        (tmp_path / "notes.txt").write_text("nothing to do with it", encoding="utf-8")
    watcher.stop()


def test_a_table_beside_the_plan_counts_as_the_plan(qtbot: QtBot, tmp_path: Path) -> None:
    path = _written(tmp_path)
    table = tmp_path / "far-side.csv"
    table.write_text("lane,ground,back,lost\n", encoding="utf-8")
    course = Course("far-side", CourseKind.PASSES, file="far-side.csv")
    plan = Plan("first", ("UTC",), courses=(course,), folder=tmp_path)
    watcher = PlanWatcher(path, plan, _read)
    with qtbot.waitSignal(watcher.changed, timeout=5000):
        table.write_text("lane,ground,back,lost\nvoice,,1,2\n", encoding="utf-8")
    watcher.stop()
