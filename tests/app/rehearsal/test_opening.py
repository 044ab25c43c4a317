"""`limbwatch rehearse` in the windows, from its opening to the score page."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.cli import main
from app.desk.window import DeskWindow
from app.folders import sessions_folder
from app.rehearsal import opening
from app.rehearsal.page import PageFile
from app.rehearsal.window import TrainerWindow
from app.resources import sample_plan
from core.session.shelf import Shelf
from tests.core.rehearsal.days import day
from tests.core.rehearsal.live_days import room

_LOOKS = 600
DAY = """
limbwatch_surprises = 1
title = "A short one"
begin = 2031-06-07T09:00:00
end = 2031-06-07T09:30:00

[[surprise]]
id = "later"
kind = "report"
at = 2031-06-07T09:05:00
event = "fuelling"
late = "5m"
"""
Step = Callable[[DeskWindow, TrainerWindow], bool]


@pytest.fixture(autouse=True)
def _own_state(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS", raising=False)
    monkeypatch.delenv("XDG_RUNTIME_DIR", raising=False)


@pytest.fixture
def surprises(tmp_path: Path) -> Path:
    path = tmp_path / "short.toml"
    path.write_text(DAY, encoding="utf-8")
    return path


class Visitor:
    """Sits at both windows: one step after the other as each becomes possible, then closes."""

    def __init__(self, *steps: Step) -> None:
        self.steps = list(steps)
        self._looks = 0
        self._timer = QTimer()
        self._timer.setInterval(20)
        self._timer.timeout.connect(self._look)
        self._timer.start()

    def _look(self) -> None:
        self._looks += 1
        tops = QApplication.topLevelWidgets()
        desk = next((w for w in tops if isinstance(w, DeskWindow)), None)
        trainer = next((w for w in tops if isinstance(w, TrainerWindow)), None)
        if desk is None or trainer is None or desk.timeline.strip is None:
            return
        while self.steps and self.steps[0](desk, trainer):
            del self.steps[0]
        if not self.steps or self._looks > _LOOKS:
            self._timer.stop()
            trainer.close()
            trainer.close()  # asked once more: it ends the rehearsal


def press(
    key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier, times: int = 1
) -> Step:
    def step(_desk: DeskWindow, trainer: TrainerWindow) -> bool:
        for _ in range(times):
            QTest.keyClick(trainer.bar.line, key, held)
        return True

    return step


def typed(line: str) -> Step:
    def step(desk: DeskWindow, _trainer: TrainerWindow) -> bool:
        QTest.keyClicks(desk.bar.line, line)
        QTest.keyClick(desk.bar.line, Qt.Key.Key_Return)
        return True

    return step


@pytest.mark.usefixtures("qapp")
def test_a_rehearsal_runs_from_the_command_to_its_score_page(
    surprises: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    seen: list[str] = []

    def stands(desk: DeskWindow, _trainer: TrainerWindow) -> bool:
        seen.append(desk.header.accessibleName())
        seen.append(desk.frame.accessibleName())
        return True

    def told(desk: DeskWindow, _trainer: TrainerWindow) -> bool:
        seen.append(desk.notices.accessibleName())
        return "Fuelling" in seen[-1] or "5 min later" in seen[-1]

    page = tmp_path / "score.html"
    visitor = Visitor(
        stands,
        press(Qt.Key.Key_F9),
        press(Qt.Key.Key_F8, times=6),
        told,
        typed("fuelling +5m"),
        press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier),
    )
    call = ["rehearse", str(sample_plan("first-steps")), str(surprises), "--page", str(page)]
    assert main([*call, "--rate", "30"]) == 0
    assert visitor.steps == []
    assert seen[0].startswith("Saturday, 9:00:00")
    assert seen[1].split() == ["REHEARSAL", "×", "30", "paused"]
    assert f"The score page is {page}" in capsys.readouterr().out
    assert "A short one" in page.read_text(encoding="utf-8")
    score = json.loads(page.with_suffix(".json").read_text(encoding="utf-8"))
    (report,) = [each for each in score["reports"] if each["report"] == "later"]
    assert report["right"] is True
    assert score["end"] < "2031-06-07T12:06:00"
    kept = Shelf(sessions_folder()).last()
    assert kept is not None
    assert kept.name.endswith("-rehearsal.session")


@pytest.mark.usefixtures("qapp")
def test_ctrl_r_writes_the_record_so_far_of_a_rehearsal(
    surprises: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(opening, "papers_folder", lambda: tmp_path / "papers")

    def asked(desk: DeskWindow, _trainer: TrainerWindow) -> bool:
        QTest.keyClick(desk.bar.line, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
        return True

    def told(desk: DeskWindow, _trainer: TrainerWindow) -> bool:
        return "The record so far" in desk.notices.accessibleName()

    visitor = Visitor(typed("fuelling +5m"), asked, told)
    assert main(["rehearse", str(sample_plan("first-steps")), str(surprises)]) == 0
    assert visitor.steps == []
    (page,) = (tmp_path / "papers").glob("*.html")
    assert "REHEARSAL" in page.read_text(encoding="utf-8")


@pytest.mark.usefixtures("qapp")
def test_files_changed_meanwhile_are_told_of_and_not_taken(surprises: Path, tmp_path: Path) -> None:
    plan = tmp_path / "first-steps.toml"
    shutil.copy(sample_plan("first-steps"), plan)

    def change(_desk: DeskWindow, _trainer: TrainerWindow) -> bool:
        surprises.write_text(DAY.replace("A short one", "Another"), encoding="utf-8")
        return True

    def told(desk: DeskWindow, trainer: TrainerWindow) -> bool:
        assert "changed" not in desk.notices.accessibleName()
        assert "A short one" in trainer.windowTitle()
        return "short.toml has changed on disk" in trainer.bar.said.text

    visitor = Visitor(change, told)
    assert main(["rehearse", str(plan), str(surprises)]) == 0
    assert visitor.steps == []


@pytest.mark.usefixtures("qapp")
def test_without_a_place_for_it_the_page_lies_beside_the_session() -> None:
    visitor = Visitor()
    assert main(["rehearse", str(sample_plan("first-steps")), "--draw", "3"]) == 0
    assert visitor.steps == []
    (page,) = sessions_folder().glob("*.html")
    assert "Drawn day 3, severity 2" in page.read_text(encoding="utf-8")


def test_a_page_that_cannot_be_written_is_told_and_nothing_stops(tmp_path: Path) -> None:
    here = room(day(begin="16:36", end="16:38"))
    page = PageFile(tmp_path / "usual.html", tmp_path / "none" / "score.html")
    assert page.write(here.run).startswith("No score page: Cannot write")
    assert page.told == page.write(here.run)


def test_a_rate_out_of_range_is_told_and_gives_2(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as end:
        main(["rehearse", str(sample_plan("first-steps")), "--draw", "3", "--rate", "0"])
    assert end.value.code == 2
    assert "no rate from 0.1 to 600" in capsys.readouterr().err
