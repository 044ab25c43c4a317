"""The plan printed from the desk window, by its key, beside everything that goes on."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.keys import Command
from app.paperwork import Paperwork
from app.plans import take_plan
from app.printing.application import drawing_application
from app.resources import sample_plan
from core.session.desk import Desk
from core.session.session import Session
from core.times.clocks import SimClock
from core.times.instants import rfc3339_to_ms
from tests.app.printing.leaves import texts

NOW_MS = rfc3339_to_ms("2031-06-07T14:20:05Z")


class Counting(Desk):
    """A desk that counts how often its words were asked for."""

    asked = 0

    @property
    def session(self) -> Session:
        self.asked += 1
        return super().session


@pytest.fixture(autouse=True)
def _font(qapp: QApplication) -> None:
    assert drawing_application() is qapp


@pytest.fixture
def desk() -> Counting:
    return Counting(take_plan(sample_plan("first-steps")), SimClock(NOW_MS, paused=True))


@pytest.fixture
def paper(desk: Counting, tmp_path: Path) -> Iterator[Paperwork]:
    made = Paperwork(desk, lambda: NOW_MS, tmp_path / "papers", rehearsal=False)
    yield made
    made.stop()


def printed(qtbot: QtBot, paper: Paperwork) -> str:
    with qtbot.waitSignal(paper.said, timeout=20_000) as waited:
        paper.commands()[Command.PRINT]()
    assert waited.args is not None
    return str(waited.args[0])


def test_the_plan_as_it_stands_lies_in_the_folder_and_the_desk_is_told_where(
    qtbot: QtBot, paper: Paperwork, desk: Counting, tmp_path: Path
) -> None:
    desk.enter("liftoff +4m", "", NOW_MS)
    said = printed(qtbot, paper)
    (path,) = (tmp_path / "papers").iterdir()
    assert path.name == "Whimbrel, first launch from Skerry Point 2031-06-07 11.20.05.pdf"
    pages = texts(path.read_bytes())
    assert said == f"Printed, {len(pages)} page{'s'[: len(pages) - 1]}: {path}"
    assert "as it stood on Saturday, 7 June 2031, 11:20:05 a.m. Atlantic, after 1 entry" in pages[0]
    assert "11:49:00 a.m." in pages[0]
    assert "REHEARSAL" not in pages[0]


def test_a_second_printing_leaves_the_first(qtbot: QtBot, paper: Paperwork, tmp_path: Path) -> None:
    printed(qtbot, paper)
    printed(qtbot, paper)
    names = sorted(path.name.rpartition(" ")[2] for path in (tmp_path / "papers").iterdir())
    assert names == ["11.20.05.pdf", "2.pdf"]


def test_asked_again_while_it_prints_it_does_not_begin_anew(
    qtbot: QtBot, paper: Paperwork, desk: Counting
) -> None:
    with qtbot.waitSignal(paper.said, timeout=20_000):
        paper.begin()
        paper.begin()
    assert desk.asked == 1


def test_a_rehearsal_says_so_on_every_page_and_in_the_name(
    qtbot: QtBot, desk: Counting, tmp_path: Path
) -> None:
    paper = Paperwork(desk, lambda: NOW_MS, tmp_path, rehearsal=True)
    printed(qtbot, paper)
    paper.stop()
    (path,) = tmp_path.iterdir()
    assert path.stem.endswith(" rehearsal")
    assert all("REHEARSAL" in page for page in texts(path.read_bytes()))


def test_once_the_window_is_closed_nothing_more_is_printed(
    qtbot: QtBot, paper: Paperwork, desk: Counting, tmp_path: Path
) -> None:
    with qtbot.assertNotEmitted(paper.said):
        paper.begin()
        paper.stop()
        QCoreApplication.processEvents()
    assert desk.asked == 0
    assert not (tmp_path / "papers").exists()


def test_where_it_cannot_be_written_one_line_says_why(
    qtbot: QtBot, desk: Counting, tmp_path: Path
) -> None:
    (tmp_path / "papers").write_text("a file where the folder should be")
    paper = Paperwork(desk, lambda: NOW_MS, tmp_path / "papers", rehearsal=False)
    said = printed(qtbot, paper)
    paper.stop()
    assert said == f"Not printed. Cannot make the folder {tmp_path / 'papers'}: File exists"


def test_signs_that_no_file_name_may_have_are_left_out_of_it(qtbot: QtBot, tmp_path: Path) -> None:
    source = sample_plan("first-steps").read_text(encoding="utf-8")
    plan_path = tmp_path / "plan.toml"
    plan_path.write_text(source.replace('"Whimbrel"', '"A/B: \\"C\\""'), encoding="utf-8")
    desk = Desk(take_plan(plan_path), SimClock(NOW_MS, paused=True))
    paper = Paperwork(desk, lambda: NOW_MS, tmp_path / "papers", rehearsal=False)
    printed(qtbot, paper)
    paper.stop()
    (path,) = (tmp_path / "papers").iterdir()
    assert path.name.startswith("A-B- -C-, first launch")
