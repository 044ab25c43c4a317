"""The machine's clock is set, or the machine sleeps: one line says it, no countdown is wrong."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.main import Board, application, board
from core.board.model import Card
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import RealClock
from tests.app.desk.whimbrel import NOW_MS, PLAN, at


@dataclass
class Machine:
    """The machine's three clocks, turned by hand."""

    wall_ms: int = NOW_MS
    monotonic_ms: int = 5_000_000
    boot_ms: int = 5_000_000

    def clock(self) -> RealClock:
        return RealClock(
            lambda: self.wall_ms * 1_000_000,
            lambda: self.monotonic_ms * 1_000_000,
            lambda: self.boot_ms * 1_000_000,
        )

    def run(self, ms: int) -> None:
        self.wall_ms += ms
        self.monotonic_ms += ms
        self.boot_ms += ms

    def set_by(self, ms: int) -> None:
        self.wall_ms += ms

    def sleep(self, ms: int) -> None:
        self.wall_ms += ms
        self.boot_ms += ms


@dataclass
class Place:
    """The window on the real clock of such a machine."""

    made: Board
    desk: Desk
    machine: Machine

    def second(self) -> None:
        self.machine.run(1000)
        self.made.ticker.again()

    @property
    def notices(self) -> str:
        return self.made.window.notices.accessibleName()

    def card(self, card_id: str) -> Card:
        shown = self.made.window.timeline.cards.shown
        cards = [row.card for row in shown if row.card is not None]
        return next(card for card in cards if card.id == card_id)

    def shown_s(self, card_id: str) -> int:
        """The countdown on a card, in seconds."""
        figure = self.card(card_id).figure
        assert figure is not None
        worth = {"d": 86_400, "h": 3_600, "min": 60, "s": 1}
        return sum(int(digits) * worth[unit] for digits, unit in figure.parts)


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Iterator[Place]:
    application()
    path = tmp_path / "whimbrel.toml"
    path.write_text(PLAN, encoding="utf-8")
    machine = Machine()
    clock = machine.clock()
    desk = Desk(read_plan(path), clock)
    made = board(desk, clock)
    with qtbot.waitSignal(made.window.strip_added, timeout=10_000), qtbot.waitExposed(made.window):
        made.start()
    yield Place(made, desk, machine)
    made.window.close()
    made.stage.end()
    made.window.deleteLater()
    made.ticker.deleteLater()


def _right(place: Place) -> None:
    """Countdown plus wall clock is the event's time."""
    for card_id, clock in (("go", "16:50:00"), ("ignition", "16:58:00")):
        assert place.shown_s(card_id) * 1000 + place.machine.wall_ms == at(clock)


@pytest.mark.parametrize("by_ms", [-3_000, 40_000], ids=["set back", "set forward"])
def test_a_step_is_said_once_and_every_countdown_is_right(place: Place, by_ms: int) -> None:
    place.second()
    _right(place)
    place.machine.set_by(by_ms)
    place.second()
    _right(place)
    said = place.notices
    assert "clock" in said
    assert f"{abs(by_ms) // 1000} s" in said
    place.second()
    assert place.notices == said
    assert len(place.desk.entries()) == 1


def test_a_sleep_of_ten_minutes_is_said_once_and_every_countdown_is_right(place: Place) -> None:
    place.second()
    place.machine.sleep(9 * 60_000)
    place.second()
    _right(place)
    assert "9 min" in place.notices
    place.second()
    assert len(place.desk.entries()) == 1


def test_what_the_machines_clock_did_stands_in_the_list_and_cannot_be_taken_back(
    place: Place,
) -> None:
    place.second()
    place.machine.set_by(40_000)
    place.second()
    line = place.made.window.bar.line
    QTest.keyClick(line, Qt.Key.Key_F2)
    QTest.keyClick(line, Qt.Key.Key_Delete)
    selected = place.made.window.side.day.selected
    assert selected is not None
    assert not selected.taken_back


def test_a_real_clock_shows_no_frame_and_takes_no_word_for_the_clock(place: Place) -> None:
    assert place.made.window.frame.accessibleName() == ""
    line = place.made.window.bar.line
    QTest.keyClicks(line, "clock pause")
    QTest.keyClick(line, Qt.Key.Key_Return)
    assert line.text() == "clock pause"
