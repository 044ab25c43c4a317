"""What belongs to one outcome only says so, in the table of times and on the printed picture."""

from pathlib import Path

from app.commands.sheets import sheet
from app.commands.signals import Part
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.writing import Style
from tests.app.commands.plans import HEAD, Run

TWO_WAYS = (
    HEAD
    + """
[[event]]
id = "ignition"
name = "Ignition"
at = 2031-05-14T10:00:00
[[event]]
id = "home"
name = "Turn for home"
after = "ignition"
offset = "1h"
only_if = "no-burn"
[[event]]
id = "back-early"
name = "Signal back, if no burn"
after = "ignition"
offset = "10m"
only_if = "no-burn"
[[event]]
id = "orbit"
name = "Orbit figures"
after = "ignition"
offset = "1h 10m"
only_if = "burned"
[[event]]
id = "night"
name = "Good night"
at = 2031-05-14T20:00:00
[[outcome]]
id = "burned"
of = "ignition"
name = "after the burn"
[[outcome]]
id = "no-burn"
of = "ignition"
name = "if no burn"
[lane.voice]
name = "VOICE"
[[ground]]
id = "tarn"
name = "Tarn Hill"
lanes = ["voice"]
[[course]]
id = "table"
kind = "passes"
rows = [{ lane = "voice", ground = "tarn", back = 2031-05-14T09:00:00, lost = 2031-05-14T21:00:00 }]
"""
)


def test_the_table_of_times_says_to_which_outcome_a_row_belongs(run: Run) -> None:
    answer = run("times", TWO_WAYS)
    assert answer.line("EVENT") == "EVENT PLANNED EXPECTED CHANGE EARLIEST LATEST IF BY"
    assert " if no burn tied to Ignition" in answer.line("Turn for home")
    assert " after the burn tied to Ignition" in answer.line("Orbit figures")
    assert "burn" not in answer.line("Good night")


def test_once_an_outcome_is_named_nothing_is_marked(run: Run) -> None:
    answer = run("times", TWO_WAYS, "no-burn")
    assert "if no burn" not in answer.line("Turn for home")


def test_the_printed_picture_says_it_beside_the_event_unless_its_name_does(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(TWO_WAYS, encoding="utf-8")
    plan = read_plan(path)
    now_ms = plan.events[0].at_ms or 0
    drawn = sheet(Desk(plan, SimClock(now_ms, paused=True)), Part(), (), Style("UTC"), now_ms)
    assert drawn is not None
    told = [note.text for note in drawn.notes]
    assert "11:00 a.m. Turn for home, if no burn" in told
    assert "10:10 a.m. Signal back, if no burn" in told
    assert "11:10 a.m. Orbit figures, after the burn" in told
