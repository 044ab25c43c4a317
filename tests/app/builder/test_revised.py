"""A revised paper: new times of events that stand already, each ticked by the person."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.builder.lists import Line
from app.builder.offering import Offering, chosen, offered_lines, offering
from core.plan.drafting.draft import Draft
from core.plan.drafting.taking import take_events
from core.plan.imports.model import Imported, Setting
from core.plan.imports.timeline import read_timeline
from tests.app.builder.bench import bench

PLAN = """limbwatch = 1
title = "Petrel 4"
zones = ["UTC"]
elapsed_from = "liftoff"

[[event]]
id = "liftoff"
name = "Liftoff"
at = 2031-06-09T12:00:00  # as the paper of March has it

[[event]]
id = "hatch"
name = "Hatch closed"
at = 2031-06-09T10:00:00

[[event]]
id = "panels"
name = "Panels open"
after = "liftoff"
offset = "1h"
"""


pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def draft() -> Draft:
    return Draft(PLAN, "plan.toml", Path())


def read(text: str) -> Imported:
    return read_timeline(text, Setting("UTC", zero_ms=None))


def offer(d: Draft, text: str) -> tuple[Offering, list[Line]]:
    assert d.good is not None
    now = offering(read(f"9 June 2031\n{text}"), d.good)
    return now, offered_lines(now, "UTC", 2031)


def ticked(lines: list[Line]) -> list[Line]:
    return [Line(line.texts, True, line.about) for line in lines]


def test_a_changed_time_is_offered_and_taken_in_place() -> None:
    d = draft()
    now, lines = offer(d, "10:20  Hatch closed\n13:30  Panels open\n14:00  Burn\n")
    assert [line.taken for line in lines] == [False, False, True]
    assert lines[0].texts[-1] == "tick: new time of 'hatch', was Mon 9 Jun 10:00:00"
    taken = chosen(now, ticked(lines), ties=False)
    assert taken.words == "1 event and 2 new times"
    take_events(d, taken, now.made, "the paper")
    assert d.text.count("[[event]]") == 4
    assert "at = 2031-06-09T10:20:00" in d.text
    assert 'offset = "1h 30m"' in d.text
    assert "# as the paper of March has it" in d.text
    assert d.is_good
    d.undo()
    assert d.text == PLAN


def test_what_is_not_ticked_stays_as_it_was() -> None:
    d = draft()
    now, lines = offer(d, "10:20  Hatch closed\n")
    assert chosen(now, lines, ties=False).words == ""


def test_a_name_that_comes_twice_is_another_event_and_no_new_time() -> None:
    d = draft()
    now, lines = offer(d, "10:00  Hatch closed\n15:00  Hatch closed\n")
    assert "at another time" in lines[1].texts[-1]
    assert [one.was_ms for one in now.offered] == [None, None]


def test_an_elapsed_time_in_the_paper_moves_the_tie() -> None:
    d = draft()
    now, lines = offer(d, "T+2:00:00  Panels open\n")
    take_events(d, chosen(now, ticked(lines), ties=False), now.made, "the paper")
    assert 'offset = "2h"' in d.text
    assert d.text.count("[[event]]") == 3


def test_in_the_window_space_ticks_the_new_time_and_ctrl_z_takes_it_back(
    qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(PLAN, encoding="utf-8")
    with bench(qtbot, path) as b:
        b.paste("9 June 2031\n10:20  Hatch closed\n14:00  Burn\n")
        b.wait_for_import()
        b.key(Qt.Key.Key_Space)
        b.key(Qt.Key.Key_Down)
        b.key(Qt.Key.Key_Space)  # the burn is not wanted
        b.ctrl(Qt.Key.Key_Return)
        assert b.said == "1 new time taken in. Ctrl+Z takes all of it back"
        assert b.text == PLAN.replace("T10:00:00", "T10:20:00")
        b.ctrl(Qt.Key.Key_Z)
        assert b.text == PLAN
