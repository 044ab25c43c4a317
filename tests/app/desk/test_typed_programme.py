"""Every form about the programme, typed into the real window: taken, told, and moving no event."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.times.clocks import SimClock
from tests.app.desk.place import Place, opened
from tests.app.desk.whimbrel import NOW_MS, PLAN, at

PROGRAMME = (
    PLAN
    + """
[lane.picture]
name = "PICTURE"
delay = "9s"

[[item]]
id = "break-3"
kind = "break"
name = "Break 3"
length = "2m 10s"
owed = true

[[checkoff]]
id = "clamps"
name = "Clamps released"
of = "ignition"
count = 12
enough = 3
spaced = true
"""
)


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Iterator[Place]:
    path = tmp_path / "whimbrel.toml"
    path.write_text(PROGRAMME, encoding="utf-8")
    with opened(qtbot, path, SimClock(NOW_MS, paused=True)) as taken:
        yield taken


def times(place: Place) -> list[tuple[str, int | None]]:
    return [(card.id, card.at_ms) for card in place.view.cards]


@pytest.mark.parametrize(
    ("lines", "meaning"),
    [
        (("break 3 now",), "Break 3 on the air at 4:40:00 p.m."),
        (("break 3 now-12s",), "Break 3 on the air at 4:39:48 p.m."),
        (("break 3 at 4:46p",), "Placed: Break 3 at 4:46:00 p.m."),
        (("break 3 4:46p", "break 3 +2m"), "Placed: Break 3 at 4:48:00 p.m."),
        (("break 3 in 4m", "break 3 -30s"), "Placed: Break 3 at 4:43:30 p.m."),
        (("break 3 now-2m", "break 3 over"), "Break 3 over at 4:40:00 p.m."),
        (("break 3 at 4:46p", "break 3 free"), "Break 3 has no start of the desk's own any more"),
        (("air off",), "Off the air from 4:40:00 p.m."),
        (("air off until 4:44p",), "Off the air from 4:40:00 p.m. until 4:44:00 p.m."),
        (("air off 11m", "air on 4:45p"), "On the air again at 4:45:00 p.m."),
        (("clamps 6",), "Clamps released: 6"),
        (("clamps 1 5 9", "clamps +1"), "Clamps released: 4: 1, 5, 9"),
        (("clamps at 3",), "Clamps released: 1: 3"),
        (
            ("picture clock 4:39:51p",),
            "The clock in PICTURE showed 4:39:51 p.m. at 4:40:00 p.m.",
        ),
    ],
    ids=lambda each: each[-1] if isinstance(each, tuple) else "",
)
def test_a_line_about_the_programme_is_taken_and_moves_no_event(
    place: Place, lines: tuple[str, ...], meaning: str
) -> None:
    before = times(place)
    place.enter(*lines)
    assert place.desk.entries()[-1].meaning == meaning
    assert times(place) == before
    for _ in lines:
        place.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert all(row.taken_back for row in place.desk.entries())
    assert times(place) == before


@pytest.mark.parametrize(
    ("line", "asks"),
    [
        ("break 3 off", "It is owed"),
        ("break 3 at 4:30p", "4:30:00 p.m. is 10 min ago"),
        ("grave", "The presenter window keeps the clock"),
    ],
)
def test_what_is_not_to_happen_by_a_slip_asks_once_more(place: Place, line: str, asks: str) -> None:
    place.type(line)
    assert asks in place.said
    place.press(Qt.Key.Key_Return)
    assert place.desk.entries() == ()
    place.press(Qt.Key.Key_Return)
    assert not place.window.bar.line.text(), place.said
    assert place.desk.entries()[-1].typed == line


def test_the_preview_says_until_when_an_item_runs(place: Place) -> None:
    place.type("break 3 now")
    assert "Break 3 on the air at 4:40:00 p.m. Atlantic, over at 4:42:10 p.m." in place.said


@pytest.mark.parametrize("line", ["break 3 over", "air on", "clamps 13", "grave over", "break 4"])
def test_what_cannot_be_is_not_taken(place: Place, line: str) -> None:
    place.type(line)
    place.press(Qt.Key.Key_Return)
    assert place.window.bar.line.text() == line
    assert place.desk.entries() == ()


def test_what_is_heard_now_was_earlier(place: Place) -> None:
    place.go_to("16:50:09")
    place.enter("go now on picture")
    assert place.desk.entries()[-1].meaning == (
        "Go for the burn happened at 4:50:00 p.m., heard 4:50:09 p.m. on picture"
    )
    go = next(card for card in place.view.cards if card.id == "go")
    assert go.at_ms == at("16:50:00")
