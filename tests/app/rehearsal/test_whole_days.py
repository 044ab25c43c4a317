"""Whole rehearsals through the windows, and what of the hidden timeline they give away: nothing."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from core.rehearsal.arriving import Arrivals
from core.rehearsal.model import Surprises
from core.times.instants import rfc3339_to_ms
from core.times.writing import Style, clock_text
from tests.app.rehearsal.room import Room, opened, sample_day
from tests.core.rehearsal.days import drawn, small

_INSTANT = re.compile(r"\d{4}-\d\d-\d\dT[\d:.]+Z")


def typed(line: str, style: Style) -> str:
    """The line as one types it: a clock time with its half of the day."""
    return _INSTANT.sub(
        lambda at: clock_text(rfc3339_to_ms(at[0]), style).replace(" ", "").replace(".", ""), line
    )


def answer(room: Room, since: int) -> int:
    """Type what a good desk makes of what has been reported since; gives how much there was."""
    told = room.run.record.heard[since:]
    by_letters = since % 4 == 0  # each letter has its preview: the others are pasted
    arrivals: Arrivals = room.run._arrivals
    for heard in told:
        for line in arrivals.lines(heard.report, room.run._desk):
            room.type_at_desk(typed(line, room.run.style), pasted=not by_letters)
            if room.desk.bar.line.text():
                room.press_at_desk(Qt.Key.Key_Return)  # it asked
            assert room.desk.bar.line.text() == "", line
    return since + len(told)


@pytest.mark.parametrize("name", ["ordinary-day", "no-burn"])
def test_a_sample_day_typed_through_the_window_is_scored_as_it_was(
    qtbot: QtBot, tmp_path: Path, name: str
) -> None:
    with opened(qtbot, tmp_path, sample_day(name)) as room:
        answered, late_s = 0, 0
        while not room.run.over:
            room.go_on(1)
            heard = room.run.record.heard
            if len(heard) > answered:
                late_s = (late_s + 7) % 20 + 1
                left_s = (room.run.day.end_ms - room.clock.now_ms()) // 1_000
                room.go_on(min(late_s, left_s), late_s)
                answered = answer(room, answered)
            else:
                next_ms = room.run._arrivals.next_ms() or room.run.day.end_ms
                room.on_to(min(next_ms, room.run.day.end_ms) - 1_000, 120)
        score = room.run.score()
        wanted = [each for each in score.reports if each.right is not None]
        assert len(wanted) > 12
        wrong = [each for each in wanted if not each.right]
        assert wrong == []
        assert all(each.after_ms is not None and each.after_ms <= 21_000 for each in wanted)
        assert score.troubles == ()
        assert room.pages == ["written"]
        assert {each.entered for each in room.desk.side.reports._reports} >= {True}


def texts(widget: QWidget) -> str:
    """All that a window tells: titles, names, descriptions and lines of every part of it."""
    parts: list[QObject] = [widget, *widget.findChildren(QWidget)]
    found = []
    for part in parts:
        assert isinstance(part, QWidget)
        found += [part.windowTitle(), part.accessibleName(), part.accessibleDescription()]
        found.append(part.toolTip())
    return "\n".join(found)


def shown(room: Room) -> str:
    """What desk and presenter can see: their widgets' words, and the view they are painted from."""
    view = room.desk._view
    assert view is not None
    presenter = room.made.board.stage.window
    told = (texts(room.desk), texts(presenter), str(view), str(list(view.cards)))
    return "\n".join((*told, str(room.desk.side.reports._reports)))


def secret(day: Surprises) -> Surprises:
    """The day with words that no board would write by itself."""
    marked = (
        replace(each, text=f"Whisper {number:03d}.") for number, each in enumerate(day.surprises)
    )
    return replace(day, surprises=tuple(marked))


@pytest.mark.parametrize("number", range(2))
def test_nothing_hidden_is_on_the_desks_windows_at_any_moment(
    qtbot: QtBot, tmp_path: Path, number: int
) -> None:
    day = secret(drawn(number, 4))
    with opened(qtbot, tmp_path, day, small()) as room:
        room.press_at_desk(Qt.Key.Key_F12)
        room.press_at_desk(Qt.Key.Key_F10)
        titles = {day.title, *(each.id for each in day.surprises)}
        while not room.run.over:
            room.go_on(300, 150)
            heard = {each.report.text for each in room.run.record.heard}
            seen = shown(room)
            whispers = set(re.findall(r"Whisper \d{3}\.", seen))
            assert whispers <= heard
            assert not any(title in seen for title in titles)


def test_a_board_that_was_told_nothing_stands_as_one_without_surprises(
    qtbot: QtBot, tmp_path: Path
) -> None:
    day = sample_day("no-burn")
    calm = replace(day, surprises=())
    with opened(qtbot, tmp_path, day) as room, opened(qtbot, tmp_path, calm) as other:
        for here in (room, other):
            here.go_on(4_800, 300)  # nobody enters anything
        views = [each.desk._view for each in (room, other)]
        mine, theirs = views
        assert mine is not None
        assert theirs is not None
        assert list(mine.cards) == list(theirs.cards)
        assert (mine.presenter, mine.strip, mine.to_say) == (
            theirs.presenter,
            theirs.strip,
            theirs.to_say,
        )
