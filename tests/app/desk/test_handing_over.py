"""Signing, promises and the handover page, typed into the real window on a small plan."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from app.desk.day_list import DayList
from app.desk.hand_over import HandOver
from core.times.clocks import SimClock
from tests.app.desk.place import Place, opened
from tests.app.desk.whimbrel import NOW_MS, PLAN

Key = Qt.Key
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Iterator[Place]:
    path = tmp_path / "whimbrel.toml"
    path.write_text(PLAN, encoding="utf-8")
    with opened(qtbot, path, SimClock(NOW_MS, paused=True)) as taken:
        yield taken


def hand_over(place: Place) -> HandOver:
    return place.window.side.hand_over


def day(place: Place) -> DayList:
    return place.window.side.day


def written(place: Place) -> list[str]:
    """All lines of the page, sheet after sheet."""
    sheets = hand_over(place).sheets()
    return [" ".join(block.lines) for sheet in sheets for block in sheet]


# ------------------------------------------------------------------ the forms


@pytest.mark.parametrize(
    ("line", "before", "said", "meant"),
    [
        ("sign in AB", (), "AB is at the desk", "AB is at the desk"),
        ("sign in cd", ("sign in AB",), "CD takes the desk from AB", "CD is at the desk"),
        ("sign out", ("sign in AB",), "AB leaves the desk", "AB has left the desk"),
        (
            "promise back to the hall",
            (),
            "Promised to the audience: back to the hall",
            "Promised: back to the hall",
        ),
        (
            "kept",
            ("promise back to the hall",),
            "Promise kept: back to the hall",
            "Promise kept: back to the hall",
        ),
        (
            "kept hall",
            ("promise back to the hall", "promise the crew first"),
            "Promise kept: back to the hall",
            "Promise kept: back to the hall",
        ),
        (
            "picture delay 9s",
            (),
            "picture comes 9 s late, and not 0 s",
            "picture comes 9 s late",
        ),
    ],
)
def test_each_form_is_previewed_and_stands_among_the_days_entries(
    place: Place, line: str, before: tuple[str, ...], said: str, meant: str
) -> None:
    place.enter(*before)
    cards = [(card.id, card.at_ms) for card in place.view.cards]
    place.type(line)
    assert place.said.casefold() == said.casefold()
    place.press(Key.Key_Return)
    assert not place.window.bar.line.text()
    assert place.desk.entries()[-1].meaning.casefold() == meant.casefold()
    assert [(card.id, card.at_ms) for card in place.view.cards] == cards


def test_a_promise_meant_like_others_is_picked_with_tab_and_asks_once_more(place: Place) -> None:
    place.enter("promise back to the hall", "promise back to the crew")
    place.type("kept")
    assert len(place.window.bar.answer.shown.choices) == 2
    place.press(Key.Key_Tab)
    place.press(Key.Key_Return)
    assert place.window.bar.line.text() == "kept"
    place.press(Key.Key_Return)
    assert place.desk.entries()[-1].meaning == "Promise kept: back to the crew"


def test_a_delay_found_at_the_desk_stands_in_contact_and_is_taken_off_now(place: Place) -> None:
    place.enter("picture delay 9s")
    assert list(place.view.contact.delays) == ["Picture comes 9 s late"]
    place.go_to("16:51:09")
    place.enter("picture lost now")
    assert "lost at 4:51:00 p.m." in place.desk.entries()[-1].meaning
    place.press(Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    place.press(Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert not place.view.contact.delays


# ------------------------------------------------------------------ who is at the desk


def test_the_bar_shows_quietly_who_is_at_the_desk_beside_the_line(place: Place) -> None:
    bar = place.window.bar
    alone_px = bar.line.width()
    assert bar.accessibleDescription() == ""
    place.enter("sign in AB")
    assert bar.accessibleDescription() == "AB is at the desk"
    assert bar.line.width() < alone_px
    place.enter("sign out")
    assert bar.accessibleDescription() == ""
    assert bar.line.width() == alone_px


def test_the_days_entries_have_the_initials_of_who_typed_them(place: Place) -> None:
    place.enter("note quiet", "sign in AB", "ign +45s")
    place.press(Key.Key_F2)
    selected = day(place).selected
    assert selected is not None
    assert (selected.by, selected.typed) == ("AB", "ign +45s")
    before = day(place).grab().toImage()
    place.enter("note quiet")
    assert day(place).grab().toImage() != before


def test_undo_passes_over_a_signing(place: Place) -> None:
    place.enter("ign +45s", "sign in AB")
    place.press(Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert "Taken back: Insertion burn, ignition" in place.said
    assert place.view.desk == "AB"


# ------------------------------------------------------------------ the page


def test_the_page_opens_when_another_signs_in_and_not_before(place: Place) -> None:
    place.enter("sign in AB")
    assert not place.window.side.hand_over_is_open
    place.enter("sign in CD")
    assert hand_over(place).isVisible()
    assert written(place)[0].startswith("CD since ")
    assert written(place)[0].endswith("before, AB")
    place.press(Key.Key_Escape)
    assert not place.window.side.hand_over_is_open


def test_the_page_leaves_every_card_in_sight(place: Place) -> None:
    before = place.window.timeline.cards.geometry()
    place.press(Key.Key_F2, SHIFT)
    assert place.window.timeline.cards.geometry() == before
    assert place.window.side.x() > place.window.timeline.x() + before.right()
    assert not place.window.side.contact.isVisible()


def test_the_page_tells_what_is_due_and_counts_on(place: Place) -> None:
    place.go_to("16:50:40")
    place.press(Key.Key_F2, SHIFT)
    assert any("overdue 40 s" in line for line in written(place))
    place.go_to("16:51:40")
    assert any("overdue 1 min 40 s" in line for line in written(place))
    place.press(Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert "DUE AND UNCONFIRMED: none" in written(place)


def test_a_promise_typed_while_the_page_is_open_stands_on_it_at_once(place: Place) -> None:
    place.press(Key.Key_F2, SHIFT)
    assert "PROMISES: none" in written(place)
    place.enter("promise back to the hall")
    assert "back to the hall" in written(place)
    place.enter("kept")
    assert "PROMISES: none" in written(place)


def test_the_key_turns_the_sheets_and_closes_after_the_last(place: Place) -> None:
    place.enter(*(f"note line {n} to the hall is noisy" for n in range(8)))
    place.window.resize(1024, 600)
    place.press(Key.Key_F2, SHIFT)
    sheets = hand_over(place).sheets()
    assert len(sheets) > 1
    told = [run.text for run in hand_over(place).heading_runs()]
    assert f"1 of {len(sheets)}; Shift+F2 turns the page" in told
    for _ in sheets[1:]:
        place.press(Key.Key_F2, SHIFT)
        assert place.window.side.hand_over_is_open
    told = [run.text for run in hand_over(place).heading_runs()]
    assert f"{len(sheets)} of {len(sheets)}; Shift+F2 closes" in told
    place.press(Key.Key_F2, SHIFT)
    assert not place.window.side.hand_over_is_open


def test_a_part_that_goes_on_over_the_sheet_has_its_heading_again(place: Place) -> None:
    place.enter(*(f"note line {n} to the hall is noisy" for n in range(8)))
    place.window.resize(1024, 600)
    place.press(Key.Key_F2, SHIFT)
    firsts = [sheet[0].lines[0] for sheet in hand_over(place).sheets()]
    assert firsts[1:]
    assert all(first.isupper() or first.endswith(": none") for first in firsts[1:])


def test_nothing_of_the_page_is_cut_at_the_foot(place: Place) -> None:
    place.enter("sign in AB", *(f"note line {n} to the hall is noisy" for n in range(8)))
    place.enter("promise back to the hall after the burn, with the people who built it")
    for size in ((1024, 600), (1280, 720), (1600, 1000)):
        place.window.resize(*size)
        page = hand_over(place)
        for sheet in page.sheets():
            high_px = sum(page._high_px(block) for block in sheet)
            assert high_px <= page.room().height()


def test_the_page_is_copied_as_text_while_it_is_open(place: Place) -> None:
    place.enter("sign in AB", "promise back to the hall")
    place.press(Key.Key_F2, SHIFT)
    place.press(Key.Key_C, Qt.KeyboardModifier.ControlModifier | SHIFT)
    assert "The handover page is on the clipboard" in place.said
    copied = QGuiApplication.clipboard().text()
    assert copied.startswith("AB since ")
    assert "back to the hall  (AB)" in copied
