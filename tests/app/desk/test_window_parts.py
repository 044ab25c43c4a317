import sys
from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QEventLoop, QPoint, Qt, QTimer
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.desk import ink
from app.desk.answer import Shown, apart, of_preview, of_taken
from app.theme import DARK
from core.board.model import Preview, RehearsalBadge, Said, Tone
from core.session.model import Answer, Taken
from tests.app.desk.seat import Seat, seated
from tests.app.views import arrival_view, day_view, last_change, rehearsing, sorts_view

SIZES = [(1280, 720), (1600, 1000), (3840, 2160)]


@pytest.fixture
def seat(qtbot: QtBot) -> Iterator[Seat]:
    with seated(qtbot) as taken:
        yield taken


def _place(seat: Seat, part: QWidget) -> tuple[int, int, int, int]:
    corner = part.mapTo(seat.window, QPoint(0, 0))
    return corner.x(), corner.y(), corner.x() + part.width(), corner.y() + part.height()


def _colours_down(seat: Seat, x_px: int, from_px: int, to_px: int) -> set[str]:
    image = seat.window.grab().toImage()
    return {image.pixelColor(x_px, y).name() for y in range(from_px, to_px)}


# Where things stand


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("framed", [False, True], ids=["real", "rehearsal"])
def test_no_part_lies_on_another_or_outside(
    qtbot: QtBot, size: tuple[int, int], framed: bool
) -> None:
    view = rehearsing(arrival_view()) if framed else arrival_view()
    view = replace(view, notices=(Said("The clock was set forward by 40 s."),))
    with seated(qtbot, view, size=size) as seat:
        window = seat.window
        parts = [window.header, window.timeline, window.side, window.notices, window.bar]
        for part in parts:
            left, top, right, bottom = _place(seat, part)
            assert left >= 0
            assert top >= 0
            assert right <= window.width()
            assert bottom <= window.height()
        for at, part in enumerate(parts):
            for other in parts[at + 1 :]:
                assert not part.geometry().intersects(other.geometry()), (part, other)


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_the_field_one_types_in_is_as_wide_as_the_cards(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    with seated(qtbot, rehearsing(arrival_view()), size=size) as seat:
        cards = seat.window.timeline.cards
        right = cards.mapTo(seat.window, QPoint(cards.width(), 0)).x()
        field = seat.window.bar.field()
        assert abs(field.right() + seat.window.bar.x() - right) <= 2


def test_what_has_not_changed_yet_has_no_panel(qtbot: QtBot) -> None:
    with seated(qtbot, replace(arrival_view(), last_change=None)) as seat:
        assert not seat.window.side.change.isVisible()
        seat.desk.shown = replace(seat.desk.shown, last_change=last_change())
        seat.pass_time(1)
        assert seat.window.side.change.isVisible()


# The rehearsal's frame


def test_a_real_clock_has_no_frame(seat: Seat) -> None:
    assert _colours_down(seat, 3, 0, 800) == {DARK.ground.name()}


def test_a_rehearsal_has_a_hatched_frame_all_round(qtbot: QtBot) -> None:
    with seated(qtbot, rehearsing(arrival_view())) as seat:
        width, height = seat.window.width(), seat.window.height()
        image = seat.window.grab().toImage()
        edges = [
            {image.pixelColor(3, y).name() for y in range(height)},
            {image.pixelColor(width - 4, y).name() for y in range(height)},
            {image.pixelColor(x, 3).name() for x in range(width // 3)},
            {image.pixelColor(x, height - 4).name() for x in range(width)},
        ]
        for colours in edges:
            assert {DARK.ground.name(), DARK.quiet.name()} <= colours


def test_a_rehearsal_says_its_rate_and_that_it_stands(qtbot: QtBot) -> None:
    with seated(qtbot, rehearsing(arrival_view(), "60", paused=True)) as seat:
        words = seat.window.frame.accessibleName()
        assert words.split() == ["REHEARSAL", "×", "60", "paused"]
        assert "rehearsal" in seat.window.windowTitle()


def test_a_frame_that_comes_makes_room_for_itself(seat: Seat) -> None:
    before = seat.window.header.y()
    seat.desk.shown = replace(seat.desk.shown, rehearsal=RehearsalBadge("1", paused=False))
    seat.pass_time(1)
    assert seat.window.header.y() > before
    assert seat.window.frame.margins().top() == seat.window.header.y()


# What the bar shows


def test_only_more_than_one_reading_is_a_choice() -> None:
    assert of_preview(Preview(headline="a", choices=("one",))).choices == ()
    assert of_preview(Preview(headline="a", choices=("one", "two"))).choices == ("one", "two")


def test_what_a_second_enter_would_confirm_comes_before_what_follows() -> None:
    shown = of_preview(Preview(headline="a", lines=(Said("b follows"),), ask="it is in the past"))
    assert [line.text for line in shown.lines] == ["it is in the past", "b follows"]


def test_an_answer_is_its_words_and_then_its_hint() -> None:
    shown = of_taken(Taken(Answer.REFUSED, "it has happened", "correct the fact"))
    assert shown.headline == "it has happened"
    assert [line.text for line in shown.lines] == ["correct the fact"]


def test_readings_are_told_apart_by_where_they_differ() -> None:
    morning, evening = "Ignition at 4:58 a.m. tomorrow", "Ignition at 4:58 p.m. today"
    assert apart((morning, evening)) == ("4:58 a.m. tomorrow", "4:58 p.m. today")
    assert apart(("one way", "another way")) == ("one way", "another way")
    assert apart(("the same", "the same")) == ("same", "same")


def test_lines_without_room_are_counted(qtbot: QtBot) -> None:
    with seated(qtbot) as seat:
        answer = seat.window.bar.answer
        lines = tuple(Said(f"line {number} is a long one, as lines go") for number in range(30))
        answer.show_this(Shown(headline="later", lines=lines))
        rows = answer._rows(answer.width())
        shown = sum("line " in run.text for row in rows for run in row)
        assert rows[-1][-1].text == f"and {30 - shown} more"
        assert all(ink.width_px(row) <= answer.width() for row in rows)


def test_a_clash_is_said_in_words_as_well(seat: Seat) -> None:
    seat.window.bar.answer.show_this(Shown(headline="later", clash="no place"))
    assert seat.window.bar.answer.accessibleName() == "later. Clash: no place"


def test_a_clash_is_painted_in_rose_and_nothing_else_is(seat: Seat) -> None:
    def rose() -> bool:
        image = seat.window.bar.answer.grab().toImage()
        return any(
            image.pixelColor(x, image.height() // 2) == QColor(DARK.clash)
            for x in range(image.width())
        )

    seat.window.bar.answer.show_this(Shown(headline="later", lines=(Said("b", Tone.QUIET),)))
    assert not rose()
    seat.window.bar.answer.show_this(Shown(headline="later", clash="no place for it"))
    assert rose()


# Errors


@pytest.mark.parametrize("broken", ["_placed", "_paint"])
def test_an_error_elsewhere_leaves_the_countdowns_running(
    seat: Seat, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError

    said: list[str] = []
    monkeypatch.setattr(type(seat.window.header), broken, fails)
    monkeypatch.setattr(sys, "excepthook", lambda kind, *_: said.append(kind.__name__))
    seat.desk.shown = replace(day_view(20), saved="not saved, for this test")
    seat.pass_time(1)
    seat.window.header.update()
    loop = QEventLoop()  # as in the program: painted from Qt's own loop
    QTimer.singleShot(50, loop.quit)
    loop.exec()
    assert "ZeroDivisionError" in said
    monkeypatch.undo()
    assert [anchor.card_id for anchor in seat.window.timeline.cards.anchors()][:2] == ["e0", "e1"]


# Any view


@pytest.mark.parametrize("count", [0, 1, 3, 300])
def test_any_number_of_events_can_be_shown(qtbot: QtBot, count: int) -> None:
    with seated(qtbot, day_view(count)) as seat:
        seat.press(Qt.Key.Key_PageDown)
        seat.press(Qt.Key.Key_PageUp)
        seat.press(Qt.Key.Key_Home)
        seat.paint()


def test_every_sort_of_card_can_be_shown(qtbot: QtBot) -> None:
    with seated(qtbot, sorts_view(), size=(1280, 720)) as seat:
        seat.paint()


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_the_help_sheet_holds_every_row_at_any_size(qtbot: QtBot, size: tuple[int, int]) -> None:
    with seated(qtbot, size=size) as seat:
        pages = seat.window.side.help.pages()
        assert sum(pages, ()) == seat.window.side.help.rows


def test_a_long_title_gives_way_to_the_clocks(qtbot: QtBot) -> None:
    view = arrival_view()
    long = replace(view.header, title="Petrel 4 and its lander", subtitle="at the Moon " * 20)
    with seated(qtbot, replace(view, header=long), size=(1280, 720)) as seat:
        header = seat.window.header
        clocks_px = ink.width_px(header._clocks(long))
        flight = header._flight(long, header.width() - clocks_px)
        assert flight[1].text.endswith("…")
        assert ink.width_px(flight) + clocks_px <= header.width()
