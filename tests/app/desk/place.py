"""A place at the real desk for tests: the window, with a simulated clock that is moved by hand."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.desk.window import DeskWindow
from app.main import Board, application, board
from app.strip.widget import StripView
from core.board.model import Card, View
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.signal.model import Fill
from core.times.clocks import SimClock
from tests.app.desk.whimbrel import SECOND_MS, at


@dataclass
class Place:
    """The window on the real desk, with a simulated clock that stands until it is moved."""

    made: Board
    desk: Desk
    clock: SimClock

    @property
    def window(self) -> DeskWindow:
        return self.made.window

    @property
    def view(self) -> View:
        return self.desk.view(self.clock.now_ms() // SECOND_MS * SECOND_MS)

    @property
    def strip(self) -> StripView:
        assert self.window.timeline.strip is not None
        return self.window.timeline.strip

    @property
    def said(self) -> str:
        return self.window.bar.answer.shown.spoken()

    def type(self, text: str) -> None:
        QTest.keyClicks(self.window.bar.line, text)

    def press(
        self, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
    ) -> None:
        QTest.keyClick(self.window.bar.line, key, held)

    def enter(self, *lines: str) -> None:
        for text in lines:
            self.type(text)
            self.press(Qt.Key.Key_Return)
            assert not self.window.bar.line.text(), self.said

    def go_to(self, clock: str) -> None:
        self.go_to_ms(at(clock))

    def go_to_ms(self, time_ms: int) -> None:
        self.clock.jump(time_ms)
        self.made.ticker.again()

    def card(self, card_id: str) -> Card:
        """The card as it is in sight on the window."""
        found = [s.card for s in self.window.timeline.cards.shown if s.card is not None]
        return next(card for card in found if card.id == card_id)

    def written_on(self, card_id: str) -> str:
        """All that is painted on a card."""
        rows = self.window.timeline.cards.shown
        row = next(s for s in rows if s.card is not None and s.card.id == card_id)
        return " ".join(words.text for words in row.words)

    def thread_of(self, card_id: str) -> float:
        """Where on the strip the card's thread ends, in pixels."""
        anchors = self.window.timeline.cards.anchors()
        place = [anchor.card_id for anchor in anchors].index(card_id)
        return self.window.timeline.threads.threads[place].strip_px

    def fill_at(self, lane: str, at_ms: int) -> Fill:
        """What the strip draws on a lane at an instant."""
        column = next(column for column in self.strip._columns.lanes if column.lane == lane)
        return column.fills[column.between(at_ms, at_ms + 1)[0]]

    def colours_at(self, lane: int, from_ms: int, to_ms: int) -> set[str]:
        """The colours painted down a lane, near its side, between two instants."""
        image: QImage = self.strip.grab().toImage()
        assert self.strip.frame is not None
        left_px, width_px = self.strip.frame.across.lanes[lane]
        rows = range(round(self.strip.y_of(from_ms)) + 2, round(self.strip.y_of(to_ms)) - 2)
        return {image.pixelColor(round(left_px + width_px * 0.04), y).name() for y in rows}


@contextmanager
def opened(qtbot: QtBot, path: Path, clock: SimClock) -> Iterator[Place]:
    """Open the board on a plan's file, and close it without leaving anything behind."""
    application()
    desk = Desk(read_plan(path), clock)
    made = board(desk, clock)
    made.window.resize(1600, 1000)
    with qtbot.waitSignal(made.window.strip_added, timeout=10_000), qtbot.waitExposed(made.window):
        made.start()
    try:
        yield Place(made, desk, clock)
    finally:
        made.ticker.stop()
        made.window.close()
        made.stage.end()  # a window with entries that are kept nowhere asks before it closes
        made.window.deleteLater()
        made.ticker.deleteLater()
