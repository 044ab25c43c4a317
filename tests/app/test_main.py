"""The board as the command opens it: with everything that belongs to it, until it is closed."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.desk.timeline import Timeline
from app.desk.window import DeskWindow
from app.folders import sessions_folder, settings_file
from app.main import QtRefused, application, run_board
from app.plans import take_plan
from app.resources import sample_plan
from app.sessions import Wanted, open_day
from app.settings import Settings, SettingsFile
from core.board.model import View
from core.errors import PlanProblems, TimeProblem
from core.session.shelf import Shelf
from core.session.sqlite_store import SqliteStore
from core.times.writing import Hours
from tests.core.session.days import Keeper, note

_LOOKS = 400
"""A board that has not come to where the test waits for it after so many looks never will."""


@pytest.fixture(autouse=True)
def _own_state(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS", raising=False)
    monkeypatch.delenv("XDG_RUNTIME_DIR", raising=False)


class Visitor:
    """Sits at a board that runs: does one step after the other as each becomes possible."""

    def __init__(self, *steps: Callable[[DeskWindow], bool]) -> None:
        self._steps = list(steps)
        self._looks = 0
        self._timer = QTimer()
        self._timer.setInterval(20)
        self._timer.timeout.connect(self._look)
        self._timer.start()

    @property
    def came_through(self) -> bool:
        return not self._steps

    def _look(self) -> None:
        self._looks += 1
        windows = [w for w in QApplication.topLevelWidgets() if isinstance(w, DeskWindow)]
        for window in windows:
            if window.timeline.strip is None:
                continue
            while self._steps and self._steps[0](window):
                del self._steps[0]
            if self.came_through or self._looks > _LOOKS:
                self._timer.stop()
                if not window.close():
                    window.close()  # asked once more: it would forget what was entered


def _entered(text: str) -> Callable[[DeskWindow], bool]:
    def step(window: DeskWindow) -> bool:
        QTest.keyClicks(window.bar.line, text)
        QTest.keyClick(window.bar.line, Qt.Key.Key_Return)
        return True

    return step


@pytest.mark.usefixtures("qapp")
def test_without_a_plan_it_is_the_arrival_ten_minutes_before_the_loss() -> None:
    said: list[str] = []

    def look(window: DeskWindow) -> bool:
        said.append(window.header.accessibleName())
        said.append(window.frame.accessibleName())
        said.append(window.timeline.cards.big_id)
        return True

    visitor = Visitor(look)
    assert run_board() == 0
    assert visitor.came_through
    clock, frame, big = said
    assert clock.startswith("Wednesday, 4:39:0")
    assert frame.split() == ["REHEARSAL", "×", "1"]
    assert big == "loss"


def view_of(window: DeskWindow) -> View:
    assert window._view is not None
    return window._view


@pytest.mark.usefixtures("qapp")
def test_opened_again_it_is_the_same_board_and_says_so_in_a_line() -> None:
    views: list[View] = []

    def saved(window: DeskWindow) -> bool:
        views.append(view_of(window))
        return views[-1].saved == "" and views[-1].last_change is not None

    def look(window: DeskWindow) -> bool:
        views.append(view_of(window))
        return True

    first = Visitor(_entered("loss +78s per flight"), saved)
    assert run_board() == 0
    before = views[-1]
    second = Visitor(look)
    assert run_board() == 0
    assert first.came_through
    assert second.came_through
    after = views[-1]
    assert [said.text[:11] for said in after.notices] == ["Back after "]
    assert "1 entry, at 4:39:" in after.notices[0].text
    assert after.rehearsal is not None
    assert after.last_change == before.last_change
    assert [card.clock for card in after.cards] == [card.clock for card in before.cards]
    assert 0 <= after.now_ms - before.now_ms < 60_000


@pytest.mark.usefixtures("qapp")
def test_a_second_window_only_reads_follows_and_says_so() -> None:
    path = sample_plan("first-steps")
    shelf = Shelf(sessions_folder())
    first = open_day(Wanted(path), shelf, take_plan).store
    assert isinstance(first, SqliteStore)
    heard: list[str] = []
    views: list[View] = []

    def sees_the_first(window: DeskWindow) -> bool:
        heard.append(window.bar.answer.accessibleName())
        views.append(view_of(window))
        first.append(note(2))
        return True

    def sees_the_second(window: DeskWindow) -> bool:
        window.side.day.show_entries(window._commanding._desk.entries())
        return len(window.side.day._entries) == 2

    with running(shelf, first) as keeper:
        keeper.keep([note(1)])
        keeper.until("")
        visitor = Visitor(_entered("fuelling +5m"), sees_the_first, sees_the_second)
        assert run_board(path) == 0
    assert visitor.came_through
    assert "This window only reads" in heard[0]
    assert views[0].saved == "only reads"
    assert views[0].notices[0].text.startswith("Another window has this session open")
    assert views[0].unsaved == 0


@pytest.mark.usefixtures("qapp")
def test_the_hours_and_the_theme_are_as_they_were_chosen() -> None:
    settings_file().parent.mkdir(parents=True)
    settings_file().write_text('hours = 24\ntheme = "light"\n', encoding="utf-8")
    seen: list[tuple[str, bool]] = []

    def look(window: DeskWindow) -> bool:
        seen.append((view_of(window).header.clock, window._palette.dark))
        QTest.keyClick(window.bar.line, Qt.Key.Key_F4)
        return True

    visitor = Visitor(look)
    assert run_board() == 0
    assert visitor.came_through
    ((clock, dark),) = seen
    assert clock.startswith("16:39:")
    assert not dark
    assert SettingsFile(settings_file()).settings == Settings(Hours.TWENTY_FOUR, dark=True)


@contextmanager
def running(shelf: Shelf, store: SqliteStore) -> Iterator[Keeper]:
    """A session that another window has open."""
    shelf.mark(store.path)
    keeper = Keeper(store)
    try:
        yield keeper
    finally:
        store.close()


@pytest.mark.usefixtures("qapp")
def test_a_board_whose_folder_takes_nothing_runs_on_and_asks_before_it_forgets() -> None:
    folder = sessions_folder()
    folder.parent.mkdir(parents=True)
    folder.touch()  # a file where the folder should be
    views: list[View] = []

    def told(window: DeskWindow) -> bool:
        views.append(view_of(window))
        return views[-1].unsaved == 1

    def asked(window: DeskWindow) -> bool:
        return not window.close() and "Closing forgets 1 entry" in (
            window.bar.answer.accessibleName()
        )

    def saved_after_all(window: DeskWindow) -> bool:
        if folder.is_file():
            folder.unlink()
        return view_of(window).saved == ""

    visitor = Visitor(_entered("loss +78s per flight"), told, asked, saved_after_all)
    assert run_board() == 0
    assert visitor.came_through
    assert views[-1].saved == "not saved"
    why = "Not saved: the folder cannot be written to. The board goes on"
    assert views[-1].notices[0].text.startswith(why)
    assert "not saved" not in str(views[-1].presenter)
    assert Shelf(folder).last() is not None


@pytest.mark.usefixtures("qapp")
def test_a_plan_changed_on_disk_is_offered_and_taken_by_its_word(tmp_path: Path) -> None:
    path = tmp_path / "first-steps.toml"
    shutil.copy(sample_plan("first-steps"), path)
    clocks: list[str] = []

    def fuelling(window: DeskWindow) -> str:
        cards = [shown.card for shown in window.timeline.cards.shown if shown.card is not None]
        return next(card.clock for card in cards if card.id == "fuelling")

    def change(window: DeskWindow) -> bool:
        clocks.append(fuelling(window))
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("T09:10:00", "T09:20:00"), encoding="utf-8")
        return True

    def offered(window: DeskWindow) -> bool:
        if not window.notices.isVisible():
            return False
        assert "Plan changed on disk" in window.notices.accessibleName()
        clocks.append(fuelling(window))
        return True

    def taken(window: DeskWindow) -> bool:
        clocks.append(fuelling(window))
        return True

    visitor = Visitor(change, offered, _entered("plan"), taken)
    assert run_board(path, "2031-06-07T09:00:00") == 0
    assert visitor.came_through
    assert clocks == ["9:10:00 a.m.", "9:10:00 a.m.", "9:20:00 a.m."]


@pytest.mark.usefixtures("qapp")
def test_a_plan_broken_on_disk_leaves_the_last_good_one(tmp_path: Path) -> None:
    path = tmp_path / "first-steps.toml"
    shutil.copy(sample_plan("first-steps"), path)

    def break_it(_window: DeskWindow) -> bool:
        path.write_text("limbwatch = 1\ntitel = 'x'\n", encoding="utf-8")
        return True

    def told(window: DeskWindow) -> bool:
        return "problem" in window.notices.accessibleName()

    def still_there(window: DeskWindow) -> bool:
        return bool(window.timeline.cards.anchors())

    visitor = Visitor(break_it, told, still_there)
    assert run_board(path, "2031-06-07T09:00:00") == 0
    assert visitor.came_through


@pytest.mark.usefixtures("qapp")
def test_what_goes_wrong_inside_is_said_and_the_seconds_go_on(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    clocks: list[str] = []

    def fails(_timeline: Timeline) -> bool:
        raise ZeroDivisionError

    monkeypatch.setattr(Timeline, "turn_scale", fails)

    def press(window: DeskWindow) -> bool:
        clocks.append(window.header.accessibleName())
        QTest.keyClick(window.bar.line, Qt.Key.Key_F3)
        return True

    def said(window: DeskWindow) -> bool:
        return "went wrong" in window.notices.accessibleName()

    def goes_on(window: DeskWindow) -> bool:
        return window.header.accessibleName() != clocks[0]

    visitor = Visitor(press, said, goes_on)
    assert run_board() == 0
    assert visitor.came_through
    log = tmp_path / "state" / "limbwatch" / "limbwatch.log"
    assert "ZeroDivisionError" in log.read_text(encoding="utf-8")
    caplog.get_records("call").clear()


def test_nothing_blinks_not_even_the_caret() -> None:
    assert application().cursorFlashTime() == 0


def test_a_plan_with_problems_opens_no_window(tmp_path: Path) -> None:
    path = tmp_path / "broken.toml"
    path.write_text("limbwatch = 1\n", encoding="utf-8")
    with pytest.raises(PlanProblems):
        run_board(path)


def test_a_time_that_means_nothing_opens_no_window() -> None:
    with pytest.raises(TimeProblem):
        run_board(sample_plan("first-steps"), "teatime")


def test_a_qt_that_aborts_is_refused_with_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("app.main.refusal", lambda *_: "install PySide6-Essentials 6.11.3")
    with pytest.raises(QtRefused, match=r"6\.11\.3"):
        run_board()
